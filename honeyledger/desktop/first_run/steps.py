"""The steps of the first run, and what stands in them: no widgets, nothing recorded but the house.

What is half filled is kept as drafts are. Nothing of a house is written before all of it can be.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from enum import Enum
from typing import Any
from zoneinfo import available_timezones

from PySide6.QtCore import QCoreApplication, QObject, Signal

from honeyledger.desktop.desk import refusal_of
from honeyledger.desktop.drafts import DraftKeeper, Drafts
from honeyledger.desktop.jobs import Jobs, Outcome
from honeyledger.desktop.stations.setup.kinds import facts_of, usual
from honeyledger.desktop.stations.setup.registers import house_kind
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.verbs.registers import KINDS
from honeyledger.services.beginning import Doors, Opened, Report
from honeyledger.services.setup_page import SetupPage
from honeyledger.settings import Settings, with_setting

NO_HOUSE_NAMED = Sentence(
    "no-house-named", "Name the file of the house, or choose it: nothing was opened."
)
NAME_THE_HOUSE = Sentence("name-the-house", "Give the house a name: it stands on every paper.")
DRAFT = "first-run"
NOTHING = SetupPage({}, "kg", dict.fromkeys(KINDS, ()))


class Step(Enum):
    """What is asked."""

    SIZE = "size"
    WAY = "way"
    HOUSE = "house"
    FILE = "file"


def tr(text: str) -> str:
    """A word of the first run, in the language in use."""
    return QCoreApplication.translate("first_run", text)


class FirstSteps(QObject):
    """The first run.

    Signals:
        turned: the `Step` in hand changed.
        refused: a `Refusal`; everything stays as typed.
        working: whether a house is being made or opened.
        moved: rows of the sample season loaded, and how many there are.
        anew: another text size or language was chosen: the window begins anew with it.
        opened: a house is open, as `Opened`.
        zones_known: the names of all time zones.
    """

    turned = Signal(object)
    refused = Signal(object)
    working = Signal(bool)
    moved = Signal(int, int)
    anew = Signal()
    opened = Signal(object)
    zones_known = Signal(object)

    def __init__(
        self,
        doors: Doors,
        settings: Settings,
        jobs: Jobs,
        drafts: Drafts,
        keep_settings: Callable[[Settings], object],
    ) -> None:
        super().__init__()
        self.doors, self.settings = doors, settings
        self._jobs, self._keep_settings = jobs, keep_settings
        self.house = house_kind()
        self.step = Step.SIZE
        self.values = {
            ask.key: usual(ask, self.house, NOTHING, doors.zone) for ask in self.house.asks
        }
        self.file = ""
        self._is_working = self._is_over = False
        self._keeper = DraftKeeper(drafts, jobs)
        self._keeper.name = DRAFT
        jobs.work(lambda _report: sorted(available_timezones()), self._zones_came)

    def _zones_came(self, outcome: Outcome[list[str]]) -> None:
        self.zones_known.emit(outcome.value or [])

    def begin(self) -> None:
        """Go on where one was."""
        self._keeper.read(self._restored)

    def _restored(self, draft: Mapping[str, Any]) -> None:
        typed = draft.get("house")
        if isinstance(typed, dict):
            self.values |= {key: str(typed[key]) for key in self.values if key in typed}
        self.file = str(draft.get("file", ""))
        steps = {step.value: step for step in Step}
        self.turn(steps.get(str(draft.get("step")), Step.SIZE))

    # What is typed and chosen.

    def turn(self, step: Step) -> None:
        """Another step is in hand."""
        self.step = step
        self._keep()
        self.turned.emit(step)

    def back(self) -> None:
        """The step before this one."""
        before = {Step.WAY: Step.SIZE, Step.HOUSE: Step.WAY, Step.FILE: Step.WAY}
        if self.step in before and not self._is_working:
            self.turn(before[self.step])

    def type(self, values: Mapping[str, str], file: str) -> None:
        """The forms were changed."""
        self.values, self.file = dict(values), file
        self._keep()

    def keep_now(self) -> None:
        """The window closes: what is typed is kept before; of a house that is open nothing is."""
        self._keeper.keep_now({} if self._is_over else self._draft())

    def _draft(self) -> dict[str, object]:
        return {"step": self.step.value, "house": self.values, "file": self.file}

    def _keep(self) -> None:
        self._keeper.keep(self._draft())

    def choose_size(self, scale: str) -> None:
        """The line that reads well: everything is as large from now on."""
        self.turn(Step.WAY)
        self._remember("scale", scale)

    def choose_language(self, language: str) -> None:
        """The language the window is in from now on."""
        self._remember("language", language)

    def _remember(self, name: str, value: str) -> None:
        before, self.settings = self.settings, with_setting(self.settings, name, value)
        if self.settings != before:
            settings = self.settings
            self._jobs.work(lambda _report: self._keep_settings(settings), self._kept)

    def _kept(self, _outcome: Outcome[object]) -> None:
        self.anew.emit()

    # The ways in.

    def make(self) -> None:
        """Make the house that the form says, all of it or nothing."""
        try:
            if not self.values["name"].strip():
                raise Refusal(NAME_THE_HOUSE, field="name")
            facts = facts_of(self.house, self.values, NOTHING, self.doors.zone)
        except Refusal as refusal:
            self.refused.emit(refusal)
            return
        self._open_own(lambda: self.doors.make(facts), self.doors.where)

    def open_file(self) -> None:
        """Open the house that is named."""
        where = self.file.strip().strip('"')
        if not where:
            self.refused.emit(Refusal(NO_HOUSE_NAMED, field="file"))
            return
        self._open_own(lambda: self.doors.open(where), where)

    def look_around(self) -> None:
        """Open the sample season; it is nobody's house, so it is not remembered."""
        self._open(self.doors.sample, self.settings)

    def _open_own(self, way: Callable[[], Opened], where: str) -> None:
        """Open a house of one's own; where it is in no usual place, that is remembered."""
        if where == self.doors.where:
            self._open(lambda _report: way(), self.settings)
            return
        settings = replace(self.settings, house=where)

        def open_and_keep(_report: Report) -> Opened:
            opened = way()
            self._keep_settings(settings)
            return opened

        self._open(open_and_keep, settings)

    def _open(self, way: Callable[[Report], Opened], settings: Settings) -> None:
        if self._is_working:
            return
        self._is_working = True
        self.working.emit(True)
        self._jobs.work(
            way, lambda outcome: self._opened(outcome, settings), progress=self.moved.emit
        )

    def _opened(self, outcome: Outcome[Opened], settings: Settings) -> None:
        self._is_working = False
        self.working.emit(False)
        if outcome.value is None:
            self.refused.emit(refusal_of(outcome))
            return
        self.settings, self._is_over = settings, True
        self.opened.emit(outcome.value)
