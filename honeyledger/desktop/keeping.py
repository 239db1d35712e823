"""Backs the house up when asked: in the work lane, told on the way, one copy at a time."""

import re
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome, Report
from honeyledger.desktop.printing import shown_path
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.backups import Backup
from honeyledger.services.holding import name_in

NOTHING_TO_LOSE = Sentence(
    "nothing-to-lose", "There is nothing to back up here: this house is only for looking around."
)
STILL_BACKING_UP = Sentence(
    "still-backing-up", "A backup is being written already. It says so when it is done."
)
NO_FOLDER_MADE = Sentence(
    "no-folder-made",
    "The folder {folder} for backups cannot be made ({why}). Choose another, then back up again.",
)
ENDING = ".honeyledger"


class Keeping(QObject):
    """Makes backups of the house.

    Signals:
        moved: pages copied, and how many there are, where it takes a while.
        made: the `Backup` that was written.
        refused: the `Refusal` it ended with.
        working: whether a copy is being written.
    """

    moved = Signal(int, int)
    made = Signal(object)
    refused = Signal(object)
    working = Signal(bool)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._is_working = False

    def back_up(self) -> None:
        """Write a copy of the house into the folder for backups, one file a day."""
        keeper = self._desk.keeper
        if keeper is None or keeper.kept == "nobody":
            self.refused.emit(Refusal(NOTHING_TO_LOSE))
            return
        if self._is_working:
            self.refused.emit(Refusal(STILL_BACKING_UP))
            return
        self._is_working = True
        self.working.emit(True)
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(lambda view: (name_in(view, "house"), view.head().ledger_id)),
            self._named,
        )

    def _named(self, outcome: Outcome[tuple[str, str]]) -> None:
        keeper = self._desk.keeper
        if outcome.value is None or keeper is None:
            self._done(Outcome(error=outcome.error))
            return
        file = self._desk.backups / self.file_name(*outcome.value)
        is_usual = not self._desk.settings.backups

        def task(report: Report) -> Backup:
            if is_usual:
                _make_folder(file.parent)
            return keeper.make(keeper.where, str(file), report)

        self._desk.jobs.work(task, self._done, progress=self.moved.emit)

    def file_name(self, house: str, ledger: str) -> str:
        """What a backup is called: the house, the beginning of its ledger's id, the day."""
        words = re.sub(r"[^a-z0-9]+", "-", house.casefold()).strip("-") or "house"
        day = house_day(self._desk.house.clock(), self._desk.zone)
        return f"{words}-{ledger[:6]}-{day.isoformat()}{ENDING}"

    def _done(self, outcome: Outcome[Backup]) -> None:
        self._is_working = False
        self.working.emit(False)
        if outcome.value is not None:
            self.made.emit(outcome.value)
        else:
            self.refused.emit(refusal_of(outcome))


def _make_folder(folder: Path) -> None:
    """The usual folder is made; one that was chosen may be on a stick that is not there."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as trouble:
        why = trouble.strerror or type(trouble).__name__
        raise Refusal(NO_FOLDER_MADE, folder=shown_path(folder), why=why) from trouble
