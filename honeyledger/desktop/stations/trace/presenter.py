"""What the trace page knows: the code in hand, what was answered, and how it is said."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import LaneClosed, Outcome
from honeyledger.desktop.language import say
from honeyledger.desktop.models.paper import Paper
from honeyledger.desktop.models.river_graph import RiverGraph
from honeyledger.desktop.page_print import PagesOnPaper, picture_page, print_pages
from honeyledger.desktop.stations.trace.columns import ReachedRow, YardRow, yard_rows
from honeyledger.desktop.stations.trace.river_rows import river_forward, river_of
from honeyledger.domain.units import format_mass, format_share, format_shares
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.services.printed import TRACE_RIVER
from honeyledger.services.store import View
from honeyledger.services.trace_page import ForwardPage, TracePage, forward_page, trace_page

# What has so many figures in a row is meant as a code, even where it is none.
_LIKE_A_CODE = re.compile(r"\d{3}")
_FEW = 3


@dataclass(frozen=True, slots=True)
class Timed:
    """An answer, how long it took in seconds, its river where it has one, and its table."""

    answer: TracePage | ForwardPage
    seconds: float
    river: RiverGraph | None = None
    yards: tuple[YardRow, ...] = ()
    reached: tuple[ReachedRow, ...] = ()


class TracePresenter(QObject):
    """The trace of one code.

    What is on the page stays there, and is followed, until another answer comes.

    Signals:
        answered: a trace back or forward has come, as a `Timed`.
        refused: a `Refusal`, with the codes that may have been meant.
        printed: the file that was written, or the `Refusal` it ended with.
        printing: pages written, and how many there are, where it takes a while.
    """

    answered = Signal(object)
    refused = Signal(object)
    printed = Signal(object)
    printing = Signal(int, int)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.code = ""
        self.forward = False
        self._is_source = False
        desk.refresh.watch(EVERYTHING, self.again)

    def find(self, text: str) -> None:
        """Trace what was scanned or typed: a yard or a name forward, since traces end there."""
        letter = self._desk.letter_of(text)
        is_name = not letter and not _LIKE_A_CODE.search(text)
        self.trace(text, forward=letter == "Y" or is_name)

    def trace(self, code: str, *, forward: bool = False) -> None:
        """Trace a code back, or forward."""
        self._ask(code.strip(), forward)

    def again(self) -> None:
        """Something was recorded: the trace on the page may have changed."""
        if self.code:
            self._ask(self.code, self.forward)

    def turn(self) -> None:
        """Trace the same code the other way; a yard has no way back."""
        if self.can_turn():
            self._ask(self.code, not self.forward)

    def can_turn(self) -> bool:
        """Whether what is on the page can be traced the other way too."""
        return bool(self.code) and not (self.forward and self._is_source)

    def _ask(self, code: str, forward: bool) -> None:
        def question(view: View) -> Timed:
            began = perf_counter()
            if forward:
                went = forward_page(view, code)
                seconds = perf_counter() - began
                return Timed(went, seconds, river_forward(went), reached=self.reached_rows(went))
            page = trace_page(view, code)
            seconds = perf_counter() - began
            return Timed(page, seconds, river_of(page), yards=self.yard_rows(page))

        def answered(outcome: Outcome[Timed]) -> None:
            if outcome.refusal is not None:
                self.refused.emit(outcome.refusal)
            elif outcome.value is not None:
                self._answered(outcome.value, forward)

        self._desk.jobs.read(
            lambda: self._desk.house.ask(question), answered, about=(self, "trace")
        )

    def beside(self, about: str, task: Callable[[], Any], then: Callable[[Any], None]) -> None:
        """Lay out or paint beside the window's thread; only the newest of its kind comes back.

        It runs among the questions, since a long print would keep it waiting among the papers.
        """

        def done(outcome: Outcome[Any]) -> None:
            if outcome.value is not None:
                then(outcome.value)
            elif outcome.error is not None and not isinstance(outcome.error, LaneClosed):
                raise outcome.error

        self._desk.jobs.read(task, done, about=(self, about))

    def _answered(self, timed: Timed, forward: bool) -> None:
        page = timed.answer
        self.code, self.forward = page.trace.code, forward
        self._is_source = isinstance(page, ForwardPage) and page.is_source
        self.answered.emit(timed)

    # On paper.

    def print(self, page: TracePage | ForwardPage, paper: Paper, *, picture: bool) -> None:
        """Write a paper among the papers, as pages or as one picture."""
        way = "trace" if isinstance(page, TracePage) else "trace-forward"
        # The head's number tells two prints of the same code apart.
        name = f"{way}-{page.trace.code}-{page.entries}"
        if picture:
            picture_page(self._desk, name, paper, self._printed)
            return
        of = page.trace.code if way == "trace" else f"{page.trace.code} forward"
        pages = PagesOnPaper(name, TRACE_RIVER, of, [paper])
        print_pages(self._desk, pages, self._printed, self.printing.emit)

    def _printed(self, outcome: Outcome[Path]) -> None:
        self.printed.emit(outcome.value or refusal_of(outcome))

    # How it is said.

    def heading(self, page: TracePage) -> str:
        """The line above the answer: what is traced."""
        trace = page.trace
        mass = format_mass(trace.made_g, self._desk.unit)
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
        parts = [self.counted(rows) + "."]
        if rows and rows[0].share > 0:
            words = self.tr("{share} from {name}.")
            share = say(format_shares([row.share for row in rows])[0])
            parts.append(words.format(share=share, name=rows[0].name))
        indirect = [row for row in rows if row.only_through_heel]
        if indirect:
            who = str(len(indirect)) if len(indirect) > 1 else indirect[0].name
            parts.append(self.tr("{who} {only}.").format(who=who, only=self._only(indirect)))
        added = [row for row in page.trace.added if row.grams]
        if added:
            words = ", ".join(f"{say(format_share(row.share))} {row.name}" for row in added)
            parts.append(self.tr("With {added}.").format(added=words))
        if not page.trace.reach_complete:
            parts.append(self.tr("Not complete: part of it is of unknown source."))
        return " ".join(parts)

    def _only(self, rows: Sequence[Ancestor]) -> str:
        """How those are in that no grams lead to directly."""
        ways = {way for row in rows for way in row.how}
        words = {
            frozenset({"heel"}): self.tr("only through a heel"),
            frozenset({"margin"}): self.tr("only within the margin"),
            frozenset({"heel", "margin"}): self.tr("only through a heel or within the margin"),
        }
        return words.get(frozenset(ways), self.tr("only indirectly"))

    def counted(self, rows: Sequence[Ancestor]) -> str:
        """How many first ancestors there are, yards apart from other sources."""
        yards = sum(row.kind == "yard" for row in rows)
        others = len(rows) - yards
        counted = []
        if yards or not others:
            words = self.tr("1 yard") if yards == 1 else self.tr("{n} yards")
            counted.append(words.format(n=yards))
        if others:
            words = self.tr("1 other source") if others == 1 else self.tr("{n} other sources")
            counted.append(words.format(n=others))
        return self.tr(" and ").join(counted)

    def yard_rows(self, page: TracePage) -> tuple[YardRow, ...]:
        """The table, share by share; those with grams first, none left out."""
        return yard_rows(page)

    def reached_rows(self, page: ForwardPage, *, in_full: bool = False) -> tuple[ReachedRow, ...]:
        """Customers first, then what still stands in the house.

        Args:
            in_full: every lot a customer got by its code, as on paper.
        """
        unit = self._desk.unit
        most = None if in_full else _FEW
        rows = [
            ReachedRow(
                one.code,
                one.name,
                _few(one.lots, most),
                format_mass(one.grams, unit),
                _jars(one.jars),
            )
            for one in page.trace.customers
        ]
        rows += [
            ReachedRow(
                one.lot,
                self.tr("here: {place}").format(place=page.places[one.place]),
                "",
                format_mass(one.grams, unit),
                _jars(one.pieces),
            )
            for one in page.trace.on_hand
        ]
        return tuple(rows)

    def forward_answer(self, page: ForwardPage) -> str:
        """Where it went, in one sentence."""
        trace = page.trace
        lots, customers = len(trace.lots), len(trace.customers)
        held = self.tr("1 lot holds") if lots == 1 else self.tr("{n} lots hold").format(n=lots)
        who = self.tr("1 customer")
        if customers != 1:
            who = self.tr("{n} customers").format(n=customers)
        words = self.tr("{held} some of it. {who} got it; {mass} of those lots are still here.")
        mass = format_mass(trace.on_hand_g, self._desk.unit)
        return words.format(held=held, who=who, mass=mass)


def _jars(count: int) -> str:
    return str(count) if count else ""


def _few(lots: Sequence[str], most: int | None = _FEW) -> str:
    """The first codes by name, and how many more there are."""
    if most is None or len(lots) <= most:
        return ", ".join(lots)
    return f"{', '.join(lots[: most - 1])} +{len(lots) - most + 1}"
