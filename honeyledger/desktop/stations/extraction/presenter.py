"""What the extraction station knows: the run in hand, what is typed, what was answered."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.drafts import DraftKeeper
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import first_note
from honeyledger.desktop.messages import recorded
from honeyledger.desktop.models.next_run import NEXT_RUN, codes_from, order_draft
from honeyledger.desktop.stations.extraction.typed import (
    Asked,
    FillTyped,
    HeelTyped,
    fill_facts,
    load_facts,
    wet_out_facts,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_mass, parse_mass_g
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, OpenRun, Wash
from honeyledger.services.floor import RunSheet
from honeyledger.services.floor_page import FloorPage, floor_page
from honeyledger.services.house import Recorded

CLOSING = frozenset({"closing"})
DOUBLE_MS = 3000  # the same tag again so soon is the scanner's doing, not the crew's


class ExtractionPresenter(QObject):
    """The floor.

    Signals:
        shown: a `FloorPage` has come.
        refused: a `Refusal`; the form stays.
        done: the kind of what was recorded, and a `Message` that offers to reverse it.
        closing: the closing page is asked for (True) or left (False).
        working: whether something is being recorded.
        restored: a draft that was left, field by field.
    """

    shown = Signal(object)
    refused = Signal(object)
    done = Signal(str, object)
    closing = Signal(bool)
    working = Signal(bool)
    restored = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: FloorPage | None = None
        self.run = self.made = ""
        self.asked = Asked()
        self.heels: tuple[HeelTyped, ...] = ()
        self.cappings_pending = False
        self.busy = False
        self.draft: Callable[[], Mapping[str, object] | None] = lambda: None
        self.commands: dict[str, str] = {}
        self._last_tag, self._last_tag_ms = "", 0
        self._keeper = DraftKeeper(desk.drafts, desk.jobs)
        self._ordered = DraftKeeper(desk.drafts, desk.jobs)
        desk.refresh.watch(NEXT_RUN, self._reordered)
        desk.refresh.watch(EVERYTHING, self.ask)
        desk.refresh.watch(CLOSING, lambda: self._keeper.keep_now(self.draft()))

    def ask(self) -> None:
        """Ask for the station as it is now."""
        house, run = self._desk.house, self.run
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: floor_page(view, run, now_ms)),
            self._answered,
            about=(self, "floor"),
        )

    def _answered(self, outcome: Outcome[FloorPage]) -> None:
        if outcome.value is None:
            return
        self.page = outcome.value
        sheet = self.sheet()
        before, self.run = self.run, sheet.run.code if sheet and self.is_open() else ""
        if before and self.run != before:
            # Signed here or at another station: what was typed for its closing goes with it.
            self.heels, self.cappings_pending = (), False
            self.closing.emit(False)
        self._desk.unit = self.page.unit
        self.shown.emit(self.page)
        if not self._keeper.name:
            self._keeper.name = f"extraction-{self.page.ledger}"
            self._keeper.read(self.restored.emit)
            self._ordered.name = order_draft(self.page.ledger)
            self._ordered.read(self._order_left)

    def order(self) -> tuple[str, ...]:
        """The pallets of the next run that still wait, as the hot room ordered them."""
        waiting = {row.pallet for row in self.page.queue} if self.page else set()
        return tuple(code for code in self._desk.next_run if code in waiting)

    def _order_left(self, kept: Mapping[str, object]) -> None:
        """The order kept from before, where nobody ordered anything since."""
        self._desk.next_run = self._desk.next_run or codes_from(kept)
        self._reordered()

    def _reordered(self) -> None:
        if self.page is not None:
            self.shown.emit(self.page)

    def keep_draft(self) -> None:
        """Something was typed: keep it."""
        self._keeper.keep(self.draft())

    def command(self, verb: str) -> str:
        """One id for what is typed of a verb, kept with its draft: recorded, it is there once."""
        return self.commands.setdefault(verb, self._desk.house.new_id())

    def sheet(self) -> RunSheet | None:
        """The sheet of the run in hand, or of the last one."""
        return self.page.sheet if self.page else None

    def is_open(self) -> bool:
        """Whether a run is in hand and not closed."""
        sheet = self.sheet()
        return sheet is not None and sheet.run.closed_ms is None

    def open_runs(self) -> list[str]:
        """The codes of the runs that go on."""
        rows = self.page.runs if self.page else ()
        return [row.code for row in rows if row.closed_ms is None]

    def next_run(self) -> None:
        """Take the next open run in hand, where several lines run at once."""
        codes = self.open_runs()
        if codes:
            at = codes.index(self.run) if self.run in codes else -1
            # The heels typed are of the run that is left.
            self.heels, self.cappings_pending = (), False
            self.run = codes[(at + 1) % len(codes)]
            self.ask()

    def vessels(self) -> tuple[str, ...]:
        """The vessels of the line in hand, the ones it feeds included."""
        sheet = self.sheet()
        return tuple(row.code for row in sheet.vessels) if sheet else ()

    def in_line_g(self) -> int:
        """What the books see in the line's vessels."""
        sheet = self.sheet()
        return sum(row.grams for row in sheet.vessels) if sheet else 0

    # What happens on the floor.

    def open_run(self, line: str) -> None:
        """Open a run on a line."""
        self._record(OpenRun(line), self.tr("Run {code} is open."), in_run=False)

    def load(self, pallet: str, count: str) -> None:
        """A pallet, or some of its supers, goes in."""

        def record() -> None:
            facts = load_facts(pallet, self._line(), count, self.asked)
            self._last_tag, self._last_tag_ms = pallet, self._desk.house.clock()
            self._record(facts, self.tr("{pallet} is in.").format(pallet=pallet))

        self._try(record)

    def is_double(self, tag: str) -> bool:
        """Whether a tag was scanned a moment ago and is in, or on its way."""
        return tag == self._last_tag and self._desk.house.clock() - self._last_tag_ms <= DOUBLE_MS

    def fill(self, typed: FillTyped) -> None:
        """A drum is filled; a weight that is to follow has to be said."""
        sealed = self.tr("Drum {code} is filled: {mass}. Its seal: {seal}.")
        words = sealed if typed.seal.strip() else self.tr("Drum {code} is filled: {mass}.")
        self._try(lambda: self._record(fill_facts(typed, self._desk.unit, self.asked), words))

    def cappings(self, net: str) -> None:
        """A barrel of cappings is weighed."""
        words = self.tr("Cappings {code} are weighed: {mass}.")
        self._try(lambda: self._record(Cappings(self._line(), self._mass(net, "net_g")), words))

    def wet_out(self, count: str, gross: str) -> None:
        """Empty wet supers are counted, and weighed where there is a weight."""
        words = self.tr("The wet supers are counted.")
        self._try(lambda: self._record(wet_out_facts(count, gross, self._desk.unit), words))

    def wash(self, remains: str) -> None:
        """The whole line is washed, the vessels it feeds included, in a run or between runs."""
        self._record(Wash(self.vessels(), remains), self.tr("The line is washed."))

    # Closing.

    def begin_closing(self) -> None:
        """Go to the closing page."""
        if self.is_open():
            self.closing.emit(True)

    def see_balance(self, vessel: str, heel: str, how: str) -> None:
        """Take the heel as typed, and go to the closing page where it can be read."""

        def typed() -> None:
            self._type_heel(vessel, heel, how)
            self.keep_draft()
            self.begin_closing()

        self._try(typed)

    def leave_closing(self) -> None:
        """Back to the floor; what was typed for the closing is kept."""
        self.closing.emit(False)

    def _type_heel(self, vessel: str, text: str, how: str) -> None:
        others = tuple(row for row in self.heels if row.vessel != vessel)
        if text.strip():
            grams = self._mass(text, "heel")
            others = (*others, HeelTyped(vessel, name_in_sheet(self.sheet(), vessel), grams, how))
        self.heels = others
        if self.page is not None:
            self.shown.emit(self.page)

    def sign(self) -> None:
        """Close the run as it stands, signed by who works here."""
        heels = tuple(Heel(row.vessel, row.grams, row.how) for row in self.heels)
        facts = CloseRun(self.run, heels, self.cappings_pending)
        words = self.tr("Run {run} is closed.").format(run=self.run)
        self._record(facts, words, in_run=False)

    # Recording.

    def _line(self) -> str:
        return sheet.run.line if (sheet := self.sheet()) else ""

    def _mass(self, text: str, field: str) -> int:
        return parse_mass_g(text, self._desk.unit, field=field)

    def _try(self, action: Callable[[], object]) -> None:
        """A parser's refusal is shown like the ledger's."""
        try:
            action()
        except Refusal as refusal:
            self.refused.emit(refusal)

    def _record(self, facts: Any, words: str, *, in_run: bool = True) -> None:
        """Record, one thing at a time: Enter pressed twice records once."""
        if self.busy:
            return
        said = self._desk.said(run=self.run if in_run else "")
        said = replace(said, command=self.command(facts.kind))
        self._work(True)

        def written(outcome: Outcome[Recorded]) -> None:
            if outcome.value is not None:
                self._written(facts, outcome.value, words)
            else:
                self._last_tag = ""
            self._work(False)
            if outcome.refusal is not None:
                self.refused.emit(outcome.refusal)

        self._desk.record([facts], said, written)

    def _work(self, busy: bool) -> None:
        self.busy = busy
        self.working.emit(busy)

    def _written(self, facts: Any, done: Recorded, words: str) -> None:
        self.asked = Asked()
        self.commands.pop(facts.kind, None)
        entry = done.entries[-1]
        self.made = ([code for code in done.given if code[:1] in "DWRJ"] or ["", *done.given])[-1]
        unit = self._desk.unit
        mass = format_mass(sum(lot.made_g for lot in entry.lots if lot.kind in "DW"), unit)
        sentence = words.format(code=self.made, mass=mass, seal=getattr(facts, "seal", ""))
        notes = first_note(done.entries)
        if facts.kind == OpenRun.kind and self.made:
            self.run = self.made
            self.ask()
        self.done.emit(facts.kind, replace(recorded(sentence, entry.id), text=notes))
        self.keep_draft()


def name_in_sheet(sheet: RunSheet | None, vessel: str) -> str:
    """How a vessel of a run is called; its code where it is none of them."""
    rows = sheet.vessels if sheet else ()
    return next((row.name for row in rows if row.code == vessel), vessel)
