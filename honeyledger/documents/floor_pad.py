"""The paper pad for when the computer stands still: blank lines, typed in later.

One sheet a place. What it asks for is what the forms ask for, in their order; the time stands
first, since it is all that nobody remembers in the evening.
"""

from dataclasses import dataclass

from honeyledger.documents.dispatch_note import NOT_ON_THIS_PAPER
from honeyledger.documents.fonts import HEAVY, STRONG, TEXT, Typefaces, elided
from honeyledger.documents.page import Page, new_page
from honeyledger.documents.setting import capital_mm
from honeyledger.documents.stock import PAPERS
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit

_MARGIN = 14.0
_ROW = 11.0
_HEAD = 10.0
_FOOT = 12.0
_TICK = 3.6
HOW = "One line a thing, as it happens, with its time. Typed in later, its times are approximate."


@dataclass(frozen=True, slots=True)
class _Column:
    """A column to write in: its head, its part of the width, words to tick in it."""

    head: str
    part: float
    ticks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Kind:
    """A sheet of the pad."""

    title: str
    columns: tuple[_Column, ...]


def _kinds(unit: MassUnit) -> tuple[_Kind, ...]:
    when = _Column("When", 1.2)
    return (
        _Kind(
            "Supers that come in",
            (
                when,
                _Column("Yard, or the code on its sheet", 3.4),
                _Column("Supers", 1),
                _Column("Box", 1.2),
                _Column(f"Gross {unit}", 1.4),
                _Column("", 2.2, ("sealed", "mixed", "green")),
                _Column("Crew", 1.8),
            ),
        ),
        _Kind(
            "On the floor",
            (
                when,
                _Column("", 2.6, ("load", "drum", "cappings", "wash")),
                _Column("Pallet, drum or vessel", 3),
                _Column("Supers", 1),
                _Column(f"Gross {unit}", 1.4),
                _Column(f"Tare {unit}", 1.4),
                _Column("Who", 1.4),
            ),
        ),
        _Kind(
            "At the filler and at the door",
            (
                when,
                _Column("", 2.6, ("change", "close", "sent", "back")),
                _Column("Drum, jars, or customer", 3),
                _Column("Counter, case", 1.4),
                _Column("Jars", 1.2),
                _Column(f"Net {unit}", 1.4),
                _Column("Who", 1.4),
            ),
        ),
    )


class _Sheet:
    """One sheet being drawn."""

    def __init__(self, page: Page, paper_mm: tuple[float, float], house: str) -> None:
        self.page, self.house = page, house
        self.width, self.height = paper_mm
        self.right = self.width - _MARGIN
        self.per_part = 0.0

    def draw(self, kind: _Kind) -> None:
        """Its title, how it is filled in, its head and its blank lines."""
        self.page.begin_page()
        y = _MARGIN + capital_mm(10)
        self._say(_MARGIN, y, self.house, STRONG, 10)
        self._say(self.right - 60, y, "Day", TEXT, 8.5)
        self.page.rule(self.right - 52, y + 0.5, self.right, y + 0.5)
        y += 10
        self._say(_MARGIN, y, kind.title, HEAVY, 18)
        y += 6
        self._say(_MARGIN, y, HOW, TEXT, 9)
        self._lines(kind, y + 4)

    def _lines(self, kind: _Kind, top: float) -> None:
        edges = self._edges(kind)
        base = top + _HEAD - 3
        for column, left in zip(kind.columns, edges, strict=False):
            self._say(left + 1, base, column.head, STRONG, 8.5)
        y = top + _HEAD
        self.page.rule(_MARGIN, y, self.right, y, 0.6)
        bottom = y
        while bottom + _ROW <= self.height - _FOOT:
            for column, left in zip(kind.columns, edges, strict=False):
                self._ticks(column, left, bottom)
            bottom += _ROW
            self.page.rule(_MARGIN, bottom, self.right, bottom, 0.1)
        for left in edges[1:-1]:
            self.page.rule(left - 1, y, left - 1, bottom, 0.1)

    def _ticks(self, column: _Column, left: float, top: float) -> None:
        """Two words a line, each behind its box."""
        half = column.part * self.per_part / 2
        for at, word in enumerate(column.ticks):
            row, side = divmod(at, 2)
            x, y = left + 0.5 + side * half, top + 1.4 + row * 4.6
            self.page.outline(x, y, _TICK, _TICK, 0.25)
            self._say(x + _TICK + 1, y + 3, word, TEXT, 7.5)

    def _edges(self, kind: _Kind) -> list[float]:
        """The left edge of each column, and the right edge of the last."""
        self.per_part = (self.right - _MARGIN) / sum(column.part for column in kind.columns)
        edges = [_MARGIN]
        for column in kind.columns:
            edges.append(edges[-1] + column.part * self.per_part)
        return edges

    def _say(self, x: float, y: float, text: str, face: str, size: float) -> None:
        checked = self.page.typefaces.checked(text, face)
        self.page.text(x, y, elided(checked, face, size, self.right - x), face, size)


def floor_pad(house: str, typefaces: Typefaces, *, paper: str, unit: MassUnit) -> bytes:
    """Print one sheet of each kind, to be copied.

    Raises:
        Refusal: another paper, or a sign in the house's name that cannot be printed.
    """
    if paper not in PAPERS:
        papers = " or ".join(PAPERS)
        raise Refusal(NOT_ON_THIS_PAPER, field="paper", papers=papers, paper=paper)
    page = new_page("Paper pad", PAPERS[paper], typefaces)
    sheet = _Sheet(page, PAPERS[paper], house)
    for kind in _kinds(unit):
        sheet.draw(kind)
    return page.finish()
