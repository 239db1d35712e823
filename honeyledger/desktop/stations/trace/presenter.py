"""What the trace page knows: the code in hand, what was answered, and how it is said."""

from dataclasses import dataclass
from datetime import date
from time import perf_counter

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.days import format_day
from honeyledger.domain.units import format_mass, format_shares
from honeyledger.ledger.trace_rows import Ancestor, CustomerReach
from honeyledger.services.store import View
from honeyledger.services.trace_page import ForwardPage, TracePage, forward_page, trace_page

HOW_WORDS = {
    "grams": "direct",
    "heel": "heel",
    "margin": "margin",
    "late": "late",
    "amended": "amended",
}


@dataclass(frozen=True, slots=True)
class YardRow:
    """A first ancestor as the table shows it; `how` is its state in at most two words."""

    code: str
    how: str
    only_heel: bool
    name: str
    place: str
    pulled: str
    forage: str
    share: str
    share_value: float
    grams: str


@dataclass(frozen=True, slots=True)
class ReachedRow:
    """A customer or a place in the house that the honey has reached."""

    code: str
    where: str
    lots: str
    grams: str
    jars: str


@dataclass(frozen=True, slots=True)
class Timed:
    """An answer and how long it took, in seconds."""

    answer: TracePage | ForwardPage
    seconds: float


class TracePresenter(QObject):
    """The trace of one code.

    Signals:
        answered: a trace back or forward has come.
        refused: a sentence, and codes that may have been meant.
        working: a question is under way.
    """

    answered = Signal(object)
    refused = Signal(object)
    working = Signal(str)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.code = ""
        self.forward = False
        desk.refresh.watch(EVERYTHING, self.again)

    def trace(self, code: str, *, forward: bool = False) -> None:
        """Trace a code back, or forward."""
        self.code, self.forward = code.strip(), forward
        self.working.emit(self.code)
        self._ask()

    def again(self) -> None:
        """Something was recorded: the trace on the page may have changed."""
        if self.code:
            self._ask()

    def turn(self) -> None:
        """Trace the same code the other way."""
        if self.code:
            self.trace(self.code, forward=not self.forward)

    def _ask(self) -> None:
        code, forward = self.code, self.forward

        def question(view: View) -> Timed:
            began = perf_counter()
            answer = forward_page(view, code) if forward else trace_page(view, code)
            return Timed(answer, perf_counter() - began)

        self._desk.jobs.read(
            lambda: self._desk.house.ask(question), self._answered, about=(self, "trace")
        )

    def _answered(self, outcome: Outcome[Timed]) -> None:
        if outcome.refusal is not None:
            self.code = ""
            self.refused.emit(outcome.refusal)
        elif outcome.value is not None:
            self.answered.emit(outcome.value)

    # How it is said.

    def heading(self, page: TracePage) -> str:
        """The line above the answer: what is traced."""
        trace = page.trace
        mass = format_mass(trace.made_g)
        if page.is_jar:
            words = self.tr("Where jar {code} comes from: {product}, {mass}")
            return words.format(code=trace.code, product=page.product, mass=mass)
        product = f", {page.product}" if page.product else ""
        return self.tr("Where {code} comes from: {mass}").format(code=trace.code, mass=mass) + (
            product
        )

    def answer(self, page: TracePage) -> str:
        """The sentence that answers the page's question."""
        rows = page.trace.ancestors
        parts = [self._counted(rows)]
        if rows and rows[0].share > 0:
            words = self.tr("{share} from {name}.")
            share = format_shares([row.share for row in rows])[0]
            parts.append(words.format(share=share, name=rows[0].name))
        heels = [row for row in rows if row.only_through_heel]
        if len(heels) == 1:
            parts.append(self.tr("{name} only through a heel.").format(name=heels[0].name))
        elif heels:
            parts.append(self.tr("{n} only through a heel.").format(n=len(heels)))
        if not page.trace.reach_complete:
            parts.append(self.tr("Part of it is of unknown source: the reach is not complete."))
        return " ".join(parts)

    def _counted(self, rows: tuple[Ancestor, ...]) -> str:
        yards = sum(row.kind == "yard" for row in rows)
        others = len(rows) - yards
        words = self.tr("1 yard.") if yards == 1 else self.tr("{n} yards.").format(n=yards)
        if others:
            words += " " + self.tr("{n} other sources.").format(n=others)
        return words

    def yard_rows(self, page: TracePage) -> tuple[YardRow, ...]:
        """The table, share by share; those with grams first, none left out."""
        rows = []
        shares = format_shares([line.row.share for line in page.yards])
        for line, share in zip(page.yards, shares, strict=True):
            row = line.row
            direct = "grams" in row.how and not row.only_through_heel
            how = "direct" if direct else HOW_WORDS[row.how[0]] if row.how else ""
            if row.only_through_heel:
                how = "heel only"
            rows.append(
                YardRow(
                    code=row.code,
                    how=how,
                    only_heel=row.only_through_heel,
                    name=row.name,
                    place=line.place,
                    pulled=_days(line.pulled),
                    forage=line.forage,
                    share=share.removesuffix(" %"),
                    share_value=row.share,
                    grams=f"{row.grams:,}".replace(",", "\u202f") if row.grams else "< 1",
                )
            )
        return tuple(rows)

    def reached_rows(self, page: ForwardPage) -> tuple[ReachedRow, ...]:
        """Customers first, then what still stands in the house."""
        rows = [
            ReachedRow(one.code, one.name, ", ".join(one.lots), format_mass(one.grams), _jars(one))
            for one in page.trace.customers
        ]
        rows += [
            ReachedRow(
                one.lot,
                self.tr("here: {place}").format(place=page.places[one.place]),
                one.lot,
                format_mass(one.grams),
                str(one.pieces) if one.pieces else "",
            )
            for one in page.trace.on_hand
        ]
        return tuple(rows)

    def forward_answer(self, page: ForwardPage) -> str:
        """Where it went, in one sentence."""
        trace = page.trace
        words = self.tr("{lots} lots hold some of it: {customers} customers, {mass} still here.")
        return words.format(
            lots=len(trace.lots),
            customers=len(trace.customers),
            mass=format_mass(trace.on_hand_g),
        )


def _jars(row: CustomerReach) -> str:
    return str(row.jars) if row.jars else ""


def _days(days: tuple[str, ...]) -> str:
    """Days of the pulls, in few words."""
    if not days:
        return ""
    first = format_day(date.fromisoformat(days[0]))
    if len(days) == 1:
        return first
    return f"{first} +{len(days) - 1}"
