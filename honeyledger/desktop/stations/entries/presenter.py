"""What the entries' page knows: what is listed, what a reversal would take along, what is kept."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QObject, QTimer, Signal

from honeyledger.desktop.desk import EVERYTHING, PRINTED, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.stations.entries.amends import AmendTyped, amend_of, happened_of, tr
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.exchange.checks import shipped_checks
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.services.backups import AtStake, at_stake
from honeyledger.services.checks import waiting_checks
from honeyledger.services.dock import Choice, choices
from honeyledger.services.house import Recorded
from honeyledger.services.journal import USUAL_COUNT, Undoing, Wanted, entry_rows, undoing
from honeyledger.services.journal_words import EntryRow
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import Head, Seen, View

PAUSE_MS = 250
# Stations are offered from so many of the newest entries.
STATIONS_OF = 5_000
REGISTERS = ("yard", "supplier", "vessel", "drum", "product")


@dataclass(frozen=True, slots=True)
class EntriesPage:
    """What the page shows.

    Args:
        more: whether there are older entries of these.
        stake: what no backup has; None where backups are not kept from here.
        warnings: what there is to say about the place where the house is kept.
        checks: how many checks were found off or are due.
    """

    rows: tuple[EntryRow, ...]
    more: bool
    head: Head
    seen: tuple[Seen, ...]
    unit: MassUnit
    registers: Mapping[str, tuple[Choice, ...]]
    stake: AtStake | None
    warnings: tuple[str, ...]
    checks: int = 0


@dataclass(frozen=True, slots=True)
class Previewed:
    """What a reversal would do, and why it cannot be, where it is one entry alone."""

    entry: int
    what: Undoing
    refusal: Refusal | None = None


class EntriesPresenter(QObject):
    """Entries, their reversal, their amendment.

    Signals:
        shown: an `EntriesPage` has come.
        previewed: a `Previewed`: somebody wants to reverse an entry.
        refused: a `Refusal`; what is on the page stays.
        done: a `Message` after recording.
        working: whether something is being recorded.
    """

    shown = Signal(object)
    previewed = Signal(object)
    refused = Signal(object)
    done = Signal(object)
    working = Signal(bool)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: EntriesPage | None = None
        self.wanted = Wanted()
        self.is_seen = False
        self.preview: Previewed | None = None
        self._in_hand = 0
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(PAUSE_MS)
        self.pause.timeout.connect(self.ask)
        desk.refresh.watch(EVERYTHING | PRINTED, self._changed)

    # The list.

    def ask(self) -> None:
        """Ask for the entries wanted, and for how the house is kept."""
        self.pause.stop()
        house, wanted, keeper = self._desk.house, self.wanted, self._desk.keeper
        now_ms, folder = house.clock(), self._desk.assets / "checks"

        def question(view: View) -> EntriesPage:
            unit, head = mass_unit(view), view.head()
            rows = entry_rows(view, replace(wanted, count=wanted.count + 1), unit)
            kept = keeper is not None and keeper.kept == "here"
            return EntriesPage(
                tuple(rows[: wanted.count]),
                len(rows) > wanted.count,
                head,
                tuple(view.stations_after(max(0, head.entry - STATIONS_OF))),
                unit,
                {register: choices(view, register) for register in REGISTERS},
                at_stake(view, keeper.last(head.ledger_id)) if keeper and kept else None,
                tuple(house.store.warnings()),
                waiting_checks(view, now_ms, shipped_checks(folder)),
            )

        self._desk.jobs.read(lambda: house.ask(question), self._answered, about=(self, "list"))

    def _answered(self, outcome: Outcome[EntriesPage]) -> None:
        if outcome.refusal is not None:
            self.refused.emit(outcome.refusal)
        elif outcome.value is not None:
            self.page = outcome.value
            self.shown.emit(self.page)

    def _changed(self) -> None:
        """Something was recorded; a page that nobody sees asks when it is opened."""
        if self.is_seen:
            self.ask()
            if self.preview is not None:
                self.undo(self.preview.entry)

    def want(self, wanted: Wanted) -> None:
        """List others; what is typed is waited for."""
        if wanted != self.wanted:
            self.wanted = wanted
            self.pause.start()

    def show_older(self) -> None:
        """List so many more of them."""
        self.wanted = replace(self.wanted, count=self.wanted.count + USUAL_COUNT)
        self.ask()

    def row(self, entry: int) -> EntryRow | None:
        """An entry of the list."""
        rows = self.page.rows if self.page is not None else ()
        return next((row for row in rows if row.entry == entry), None)

    # Reversing.

    def undo(self, entry: int) -> None:
        """Say what reversing an entry would take along."""
        self._in_hand = entry
        house = self._desk.house

        def question(view: View) -> Undoing:
            return undoing(view, entry, mass_unit(view))

        def task() -> Previewed:
            what = house.ask(question)
            if len(what.rows) > 1:
                return Previewed(entry, what)
            try:
                house.preview(Reverse(entry, "preview"))
            except Refusal as refusal:
                return Previewed(entry, what, refusal)
            return Previewed(entry, what)

        self._desk.jobs.read(task, self._previewed, about=(self, "undo"))

    def _previewed(self, outcome: Outcome[Previewed]) -> None:
        if outcome.refusal is not None:
            self.refused.emit(outcome.refusal)
        elif outcome.value is not None and outcome.value.entry == self._in_hand:
            self.preview = outcome.value
            self.previewed.emit(outcome.value)

    def leave(self) -> None:
        """Nothing is to be reversed any more."""
        self.preview, self._in_hand = None, 0

    def reverse(self, reason: str) -> None:
        """Reverse what was shown, with all that is built on it, or nothing."""
        preview = self.preview
        if preview is None:
            return
        seen = [row.entry for row in preview.what.rows]
        self.working.emit(True)
        if len(seen) == 1:
            facts = [Reverse(preview.entry, reason)]
            self._desk.record(facts, self._desk.said_now(), self._reversed)
        else:
            self._desk.reverse_chain(preview.entry, reason, seen, self._reversed)

    def _reversed(self, outcome: Outcome[Recorded]) -> None:
        self.working.emit(False)
        if outcome.value is None:
            self.refused.emit(refusal_of(outcome))
            return
        self.leave()
        entries = outcome.value.entries
        words = tr("Entry {entry} is reversed by entry {by}.")
        if len(entries) > 1:
            words = tr("{n} entries are reversed, by entries {first} to {by}.")
        sentence = words.format(
            entry=entries[0].reverses, n=len(entries), first=entries[0].id, by=entries[-1].id
        )
        self.done.emit(Message(Mark.REVERSED, sentence))

    # Amending.

    def amend(self, typed: AmendTyped) -> None:
        """Record an amendment as it is typed."""
        desk = self._desk
        now_ms = desk.house.clock()
        try:
            facts = amend_of(typed, house_day(now_ms, desk.zone))
            happened = happened_of(typed, desk.zone, now_ms)
        except Refusal as refusal:
            self.refused.emit(refusal)
            return
        self.working.emit(True)
        desk.record([facts], replace(desk.said_now(), happened=happened), self._amended)

    def _amended(self, outcome: Outcome[Recorded]) -> None:
        self.working.emit(False)
        if outcome.value is None:
            self.refused.emit(refusal_of(outcome))
            return
        self.leave()
        notes: Sequence[str] = outcome.value.notes
        words = tr("Amended: old and new are both in reach.")
        sentence = " ".join([words, *notes])
        self.done.emit(recorded(sentence, outcome.value.entries[-1].id))
