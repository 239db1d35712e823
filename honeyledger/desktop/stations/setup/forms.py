"""The forms of the set-up as they stand: which is in hand, what is typed, how far a new house is.

What is half filled is kept, so that it outlives a crash; nothing here records anything.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.stations.setup.asks import Deed, SetupKind, tr
from honeyledger.desktop.stations.setup.deeds import computer_values, setup_kinds
from honeyledger.desktop.stations.setup.first_way import Way, next_on_path, step_of
from honeyledger.desktop.stations.setup.kinds import records_of, shown, usual
from honeyledger.desktop.stations.setup.printer_deeds import printer_values, ways_values
from honeyledger.desktop.stations.setup.station_printers import StationPrinters
from honeyledger.services.setup_page import SetupPage, is_set_up

CLOSING = frozenset({"closing"})
PAUSE_MS = 200


class SetupForms(QObject):
    """The forms of the set-up.

    Signals:
        turned: the `SetupKind` in hand changed; the form begins anew.
        completed: nothing needed is missing any more.
    """

    turned = Signal(object)
    completed = Signal()

    def __init__(self, desk: Desk, zone: str) -> None:
        super().__init__()
        self._desk = desk
        self._zone = zone
        self.page: SetupPage | None = None
        self.kinds = setup_kinds()
        self.kind = self.kinds[0]
        self.station = StationPrinters(desk)
        self.calibrated: Path | None = None
        self.typed: dict[str, dict[str, str]] = {}
        self._commands: dict[str, str] = {}
        self.way = Way()
        self.is_begun = self.goes_on = self._is_closed = False
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(PAUSE_MS)
        self.pause.timeout.connect(self._keep)
        desk.refresh.watch(CLOSING, self._close)

    def restore(self, page: SetupPage) -> None:
        """The first page has come: what was left half typed comes with it."""
        self._keeper.name = f"setup-{page.ledger}"
        self._keeper.read(self._restored)

    def _restored(self, draft: Mapping[str, Any]) -> None:
        """What was half filled comes back; a house that is not ready goes on where it was."""
        page, early, held = self.page, self.typed, self.kind.key
        assert page is not None
        known = {kind.key: {ask.key for ask in kind.asks} for kind in self.kinds}
        forms = draft.get("forms")
        self.typed = {}
        for key, values in forms.items() if isinstance(forms, dict) else ():
            if key in known and isinstance(values, dict):
                kept = {ask: str(text) for ask, text in values.items() if ask in known[key]}
                self.typed[key] = kept
        commands = draft.get("commands")
        if isinstance(commands, dict):
            self._commands = {key: str(one) for key, one in commands.items() if key in self.typed}
        seen = draft.get("seen")
        self.way.begin(not is_set_up(page), seen if isinstance(seen, list) else ())
        at = str(draft.get("at", ""))
        if at not in self.typed:
            following = next_on_path("", page, self.way.seen) if self.way.is_on else ""
            at = following or (at if at in known else "") or "house"
        for kind in self.kinds:
            if kind.key in early:
                self.typed[kind.key] = self.form_of(kind) | early[kind.key]
        self.is_begun, self.goes_on = True, held in early
        self.turn(held if held in early else at)
        self.goes_on = False

    def turn(self, key: str) -> None:
        """Take another kind in hand."""
        self.kind = next(kind for kind in self.kinds if kind.key == key)
        self.turned.emit(self.kind)

    def skip(self) -> None:
        """Go on to the next kind without recording anything."""
        self.way.seen.add(self.kind.key)
        page = self.page
        if self.way.is_on and page is not None:
            following = next_on_path(self.kind.key, page, self.way.seen)
            if following:
                self.turn(following)
                return
            if is_set_up(page):
                self.complete()
                return
        at = self.kinds.index(self.kind)
        self.turn(self.kinds[(at + 1) % len(self.kinds)].key)

    def may_go_on(self) -> bool:
        """Whether Enter on an empty name goes on: a new house has what it needs of this kind."""
        page = self.page
        if not self.way.is_on or page is None:
            return False
        return not self.kind.needed or bool(records_of(self.kind, page))

    def sentence(self) -> str:
        """What is asked for, and of a new house's path the how manyeth step it is."""
        step, of = step_of(self.kind.key)
        if not self.way.is_on or not step:
            return self.kind.sentence
        words = tr("Step {n} of {of}. {sentence}")
        if self.may_go_on() and self.kind.key != "house":
            words = tr("Step {n} of {of}. {sentence} Enter on the empty name goes on.")
        return words.format(n=step, of=of, sentence=self.kind.sentence)

    def is_ready(self) -> bool:
        """Whether the first pallet can come in."""
        return self.page is not None and bool(self.page.house and self.page.registers["yard"])

    def complete(self) -> None:
        self.way.is_on = False
        self.pause.start()
        self.turn(self.kind.key)
        self.completed.emit()

    # What is typed.

    def begins_as(self, kind: SetupKind) -> dict[str, str]:
        """What the form of a kind begins as: the house's own record, or the usual values."""
        page = self.page
        if page is None:
            return {}
        if kind.deed is Deed.COMPUTER:
            return computer_values(self._desk.settings, self._desk.station)
        if kind.deed is Deed.PAPERS:
            return ways_values(self.station.papers)
        record = page.house if kind.key == "house" else {}
        return {
            ask.key: shown(ask, record, page) or usual(ask, kind, page, self._zone)
            for ask in kind.asks
        }

    def form_of(self, kind: SetupKind) -> dict[str, str]:
        """What stands in the form of a kind: what was typed, else what it begins as."""
        return self.begins_as(kind) | self.typed.get(kind.key, {})

    def type(self, values: Mapping[str, str]) -> None:
        """The form in hand was changed."""
        if self._is_closed:
            return
        if not self.is_begun:
            # The house has not answered yet: what is typed meanwhile goes onto what it says.
            self.typed[self.kind.key] = {key: text for key, text in values.items() if text}
            return
        if dict(values) == self.begins_as(self.kind):
            self.typed.pop(self.kind.key, None)
        else:
            self.typed[self.kind.key] = dict(values)
        self.pause.start()

    def clear(self) -> None:
        """Empty the form in hand."""
        self.forget(self.kind)
        self.turn(self.kind.key)

    def forget(self, kind: SetupKind) -> None:
        """What was typed of a kind is recorded, or not wanted."""
        self.typed.pop(kind.key, None)
        self._commands.pop(kind.key, None)
        self.pause.start()

    def command_of(self, kind: SetupKind, new: str) -> str:
        """The id under which this form is recorded, however often that is tried."""
        command = self._commands.setdefault(kind.key, new)
        self._keep()
        return command

    def values_of(self, name: str) -> dict[str, str] | None:
        """The facts of the record of that name, as its fields show them."""
        page = self.page
        if self.kind.deed is Deed.PRINTER:
            return printer_values(self.station.papers, name)
        if page is None or not self.kind.register:
            return None
        for row in records_of(self.kind, page):
            if name.strip().casefold() in (row.name.casefold(), row.key.casefold()):
                return {
                    ask.key: shown(ask, row.record, page) or ask.default for ask in self.kind.asks
                }
        return None

    def _draft(self) -> dict[str, object]:
        if not self.typed and not self.way.is_on:
            return {}
        seen = sorted(self.way.seen)
        kept = {"forms": dict(self.typed), "commands": dict(self._commands)}
        return {"at": self.kind.key, "seen": seen, **kept}

    def _keep(self) -> None:
        self._keeper.keep(self._draft())

    def _close(self) -> None:
        self.pause.stop()
        self._is_closed = True
        self._keeper.keep_now(self._draft())
