"""Tables of a report, their cells as words: the terminal shows them, and papers print them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

Row = TypeVar("Row")


@dataclass(frozen=True, slots=True)
class ReportColumn:
    """A column: its head, its part of a paper's width, how its cells are set."""

    head: str
    part: float = 2.0
    right: bool = False
    is_code: bool = False


@dataclass(frozen=True, slots=True)
class ReportTable:
    """A table under its title.

    Args:
        total: a last row; () where nothing is added up.
        none: what is said where there is no row.
        box_mm: how high its rows are where they are boxes to write in by hand, else 0. The first
            line of a cell is its caption then, each further one a word to tick.
    """

    key: str
    title: str
    columns: tuple[ReportColumn, ...]
    rows: tuple[tuple[str, ...], ...]
    total: tuple[str, ...] = ()
    none: str = ""
    box_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Report:
    """Tables with what is to be said before them, and who signs at the end.

    Args:
        facts: captions and what is said of each.
        head: the ledger's head, as on all papers.
        ticks: whether each row has a box to tick on paper.
        of: a code that stands at the right of the title.
        printed: when it was printed, and by whom, in words.
        again: which print of it this is, where it was printed before.
        bands: names with their parts of the whole, drawn as a river.
        scan: what the code at its top is read as; "" for no code.
    """

    title: str
    house: str
    head: str
    facts: tuple[tuple[str, str], ...]
    says: tuple[str, ...]
    tables: tuple[ReportTable, ...]
    ticks: bool = False
    sign: tuple[str, ...] = ()
    of: str = ""
    printed: str = ""
    again: int = 0
    bands: tuple[tuple[str, float], ...] = ()
    scan: str = ""


def name(head: str, part: float = 4.0) -> ReportColumn:
    """A column of words."""
    return ReportColumn(head, part)


def figure(head: str, part: float = 2.0) -> ReportColumn:
    """A column of figures."""
    return ReportColumn(head, part, right=True)


def code(head: str, part: float = 3.0) -> ReportColumn:
    """A column of codes."""
    return ReportColumn(head, part, is_code=True)


def cells(
    rows: Sequence[Row], of: Callable[[Row], tuple[str, ...]]
) -> tuple[tuple[str, ...], ...]:
    """Each row as its cells."""
    return tuple(of(row) for row in rows)
