"""What the extraction station knows: the run in hand, what is typed, what was answered."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.messages import recorded
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_mass, parse_count, parse_mass_g
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun, Wash, WetOut
from honeyledger.services.floor_page import FloorPage, floor_page
from honeyledger.services.house import Recorded


@dataclass(frozen=True, slots=True)
class Asked:
    """What the ledger asked back and the person answered, for the next try only."""

    washed: bool | None = None
    top_up: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True)
class HeelTyped:
    """A heel as typed for the closing: the vessel, its name, grams, and how it was read."""

    vessel: str
    name: str
    grams: int
    how: str


class ExtractionPresenter(QObject):
    """The floor.

    Signals:
        shown: a `FloorPage` has come.
        refused: a `Refusal`; the form stays.
        done: a `Message` after recording.
        closing: the closing page is asked for (True) or left (False).
    """

    shown = Signal(object)
    refused = Signal(object)
    done = Signal(object)
    closing = Signal(bool)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: FloorPage | None = None
        self.run = ""
        self.asked = Asked()
        self.heels: tuple[HeelTyped, ...] = ()
        self.cappings_pending = False
        self._last_scan = ""
        desk.refresh.watch(EVERYTHING, self.ask)

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
        if self.page.sheet is not None:
            self.run = self.page.sheet.run.code
        self.shown.emit(self.page)

    def is_open(self) -> bool:
        """Whether a run is in hand and not closed."""
        sheet = self.page.sheet if self.page else None
        return sheet is not None and sheet.run.closed_ms is None

    def next_run(self) -> None:
        """Take the next open run in hand, where several lines run at once."""
        rows = self.page.runs if self.page else ()
        codes = [row.code for row in rows if row.closed_ms is None]
        if codes:
            at = codes.index(self.run) if self.run in codes else -1
            self.run = codes[(at + 1) % len(codes)]
            self.ask()

    # What happens on the floor.

    def open_run(self, line: str) -> None:
        """Open a run on a line."""
        self.run = ""
        self._record([OpenRun(line)], self.tr("Run {code} is open."), in_run=False)

    def load(self, pallet: str, count: str) -> None:
        """A pallet, or some of its supers, goes in."""
        self._try(lambda: self._load(pallet, count))

    def _load(self, pallet: str, count: str) -> None:
        facts = Load(
            pallet,
            self._line(),
            parse_count(count, self.tr("supers"), least=1, field="count") if count else None,
            despite_hold=self.asked.why,
        )
        self._record([facts], self.tr("{pallet} is in.").format(pallet=pallet))

    def fill(self, source: str, container: str, gross: str, tare: str) -> None:
        """A drum is filled; without a weight it is to follow."""
        self._try(lambda: self._fill(source, container, gross, tare))

    def _fill(self, source: str, container: str, gross: str, tare: str) -> None:
        weight = Weight(
            gross_g=parse_mass_g(gross, field="gross_g") if gross else None,
            tare_g=parse_mass_g(tare, field="tare_g") if tare else None,
        )
        facts = Fill(
            source,
            weight,
            container=container,
            pending=not gross,
            washed=self.asked.washed,
            top_up=self.asked.top_up,
            despite_hold=self.asked.why,
        )
        self._record([facts], self.tr("Drum {code} is filled."))

    def cappings(self, net: str) -> None:
        """A barrel of cappings is weighed."""
        self._try(
            lambda: self._record(
                [Cappings(self._line(), parse_mass_g(net, field="net_g"))],
                self.tr("Cappings {code} are weighed."),
            )
        )

    def wet_out(self, count: str, gross: str) -> None:
        """Empty wet supers are counted, and weighed where there is a weight."""
        self._try(
            lambda: self._record(
                [
                    WetOut(
                        parse_count(count, self.tr("supers"), least=1, field="count"),
                        parse_mass_g(gross, field="gross_g") if gross else None,
                    )
                ],
                self.tr("Wet supers are counted."),
            )
        )

    def wash(self, remains: str) -> None:
        """The whole line of the run is washed, vessels it feeds included."""
        sheet = self.page.sheet if self.page else None
        vessels = tuple(row.code for row in sheet.vessels) if sheet else ()
        self._try(lambda: self._record([Wash(vessels, remains)], self.tr("The line is washed.")))

    # Closing.

    def begin_closing(self) -> None:
        """Go to the closing page."""
        if self.is_open():
            self.closing.emit(True)

    def see_balance(self, vessel: str, heel: str, how: str) -> None:
        """Take the heel as typed, and go to the closing page where it can be read."""

        def typed() -> None:
            self._type_heel(vessel, heel, how)
            self.begin_closing()

        self._try(typed)

    def leave_closing(self) -> None:
        """Back to the floor; what was typed for the closing is kept."""
        self.closing.emit(False)

    def type_heel(self, vessel: str, text: str, how: str) -> None:
        """A heel typed for the closing; nothing typed takes it away again."""

        self._try(lambda: self._type_heel(vessel, text, how))

    def _type_heel(self, vessel: str, text: str, how: str) -> None:
        others = tuple(row for row in self.heels if row.vessel != vessel)
        self.heels = others
        if text.strip():
            grams = parse_mass_g(text, field="heel")
            self.heels = (*others, HeelTyped(vessel, self._name(vessel), grams, how))
        if self.page is not None:
            self.shown.emit(self.page)

    def _name(self, vessel: str) -> str:
        sheet = self.page.sheet if self.page else None
        rows = sheet.vessels if sheet else ()
        return next((row.name for row in rows if row.code == vessel), vessel)

    def sign(self) -> None:
        """Close the run as it stands, signed by who works here."""
        heels = tuple(Heel(row.vessel, row.grams, row.how) for row in self.heels)
        facts = CloseRun(self.run, heels, self.cappings_pending)
        self._record([facts], self.tr("Run {run} is closed.").format(run=self.run))

    # Scans.

    def take_code(self, code: str) -> bool:
        """A pallet's tag loads it at once; a drum's or container's number is for the form."""
        letter = self.letter_of(code)
        if letter != "G" or not self.is_open():
            return False
        if code.strip().upper() == self._last_scan:
            return True
        self._last_scan = code.strip().upper()
        self.load(code, "")
        return True

    @staticmethod
    def letter_of(code: str) -> str:
        """The letter of a plain code, house prefix or none; "" of anything else."""
        parts = code.strip().upper().split("-")
        head = parts[1] if len(parts) > 3 and parts[0].isalpha() else parts[0]
        return head[:1]

    # Recording.

    def _line(self) -> str:
        sheet = self.page.sheet if self.page else None
        return sheet.run.line if sheet else ""

    def _try(self, action: Any) -> None:
        """A parser's refusal is shown like the ledger's."""
        try:
            action()
        except Refusal as refusal:
            self.refused.emit(refusal)

    def _record(self, facts: Sequence[Any], words: str, *, in_run: bool = True) -> None:
        said = self._desk.said(run=self.run if in_run else "")
        closes = any(isinstance(one, CloseRun) for one in facts)
        if closes:
            said = replace(said, run="")

        def written(outcome: Outcome[Recorded]) -> None:
            if outcome.refusal is not None:
                self._last_scan = ""
                self.refused.emit(outcome.refusal)
            elif outcome.value is not None:
                self._written(outcome.value, words, closes)

        self._desk.record(facts, said, written)

    def _written(self, done: Recorded, words: str, closes: bool) -> None:
        self.asked = Asked()
        entry = done.entries[-1]
        made = [code for code in done.given if code[:1] in "DWRJ"] or list(done.given)
        sentence = words.format(code=made[-1]) if "{code}" in words else words
        grams = sum(lot.made_g for lot in entry.lots if lot.kind in "DW")
        if grams:
            sentence += f" {format_mass(grams)}"
        if done.notes:
            sentence += f" {done.notes[0]}"
        if closes:
            self.run, self.heels, self.cappings_pending = "", (), False
            self.closing.emit(False)
        self.ask()
        self.done.emit(recorded(sentence, entry.id))
