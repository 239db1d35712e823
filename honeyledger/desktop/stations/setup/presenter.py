"""What the set-up page knows: what is registered, which kind is in hand, what comes next."""

from collections.abc import Mapping
from zoneinfo import available_timezones

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.messages import recorded
from honeyledger.desktop.stations.setup.asks import SetupKind, setup_kinds
from honeyledger.desktop.stations.setup.kinds import (
    facts_of,
    next_kind,
    records_of,
    shown,
    usual,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.services.house import Recorded
from honeyledger.services.setup import SetupPage, setup_page


class SetupPresenter(QObject):
    """Setting a house up.

    Signals:
        shown: a `SetupPage` has come.
        turned: the `SetupKind` in hand changed; the form begins anew.
        saved: a `Message` after recording.
        refused: a `Refusal`; the form stays.
        completed: nothing needed is missing; whether that has only just come about.
        working: whether something is being recorded.
        zones_known: the names of all time zones; they stand in hundreds of files.
    """

    shown = Signal(object)
    turned = Signal(object)
    saved = Signal(object)
    refused = Signal(object)
    completed = Signal(bool)
    working = Signal(bool)
    zones_known = Signal(object)

    def __init__(self, desk: Desk, zone: str) -> None:
        super().__init__()
        self._desk = desk
        self._zone = zone
        self.page: SetupPage | None = None
        self.kinds = setup_kinds()
        self.kind = self.kinds[0]
        self._after = ""
        desk.refresh.watch(EVERYTHING, self.ask)
        desk.jobs.work(lambda _report: sorted(available_timezones()), self._zones_came)

    def _zones_came(self, outcome: Outcome[list[str]]) -> None:
        self.zones_known.emit(outcome.value or [])

    def ask(self) -> None:
        """Ask what is registered."""
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(setup_page), self._answered, about=(self, "registers")
        )

    def _answered(self, outcome: Outcome[SetupPage]) -> None:
        if outcome.value is None:
            return
        first, self.page = self.page is None, outcome.value
        self.shown.emit(self.page)
        after, self._after = self._after, ""
        if after:
            following = next_kind(after, self.page)
            self.turn(following.key if following else after)
            if following is None:
                self.completed.emit(after == "operator" and self._has_one(after))
        elif first:
            self.turn(self._first().key)

    def _has_one(self, kind: str) -> bool:
        return self.page is not None and len(self.page.registers.get(kind, ())) == 1

    def _first(self) -> SetupKind:
        """A house without a yard begins with its name; any other with what it lacks, or yards."""
        page = self.page
        if page is None or not page.registers.get("yard"):
            return self.kinds[0]
        return next_kind("", page) or self.kinds[1]

    def turn(self, key: str) -> None:
        """Take another kind in hand."""
        self.kind = next(kind for kind in self.kinds if kind.key == key)
        self.turned.emit(self.kind)

    def skip(self) -> None:
        """Go on to the next kind without recording anything."""
        at = self.kinds.index(self.kind)
        self.turn(self.kinds[(at + 1) % len(self.kinds)].key)

    def is_ready(self) -> bool:
        """Whether the first pallet can come in."""
        return self.page is not None and bool(self.page.house and self.page.registers["yard"])

    def begins_as(self, kind: SetupKind) -> dict[str, str]:
        """What the form of a kind begins as: the house's own record, or the usual values."""
        page = self.page
        if page is None:
            return {}
        record = page.house if kind.key == "house" else {}
        return {
            ask.key: shown(ask, record, page) or usual(ask, kind, page, self._zone)
            for ask in kind.asks
        }

    def values_of(self, name: str) -> dict[str, str] | None:
        """The facts of the record of that name, as its fields show them."""
        page = self.page
        if page is None:
            return None
        for row in records_of(self.kind, page):
            if row.name.casefold() == name.strip().casefold():
                return {ask.key: shown(ask, row.record, page) for ask in self.kind.asks}
        return None

    def save(self, typed: Mapping[str, str]) -> None:
        """Record what the form says."""
        if self.page is None:
            return
        kind = self.kind
        try:
            facts = facts_of(kind, typed, self.page, self._zone)
        except Refusal as refusal:
            self.refused.emit(refusal)
            return
        name = typed.get("name", "").strip()
        self.working.emit(True)
        self._desk.record(
            facts, self._desk.said(), lambda outcome: self._saved(kind, name, outcome)
        )

    def _saved(self, kind: SetupKind, name: str, outcome: Outcome[Recorded]) -> None:
        self.working.emit(False)
        if outcome.value is None:
            self.refused.emit(refusal_of(outcome))
            return
        codes = [code for code in outcome.value.given if code]
        words = self.tr("{name} is registered.")
        if len(codes) == 1:
            words = self.tr("{name} is registered as {code}.")
        sentence = words.format(name=name, code=codes[0] if codes else "")
        self.saved.emit(recorded(sentence, outcome.value.entries[-1].id))
        self._after = kind.key
        self.ask()
