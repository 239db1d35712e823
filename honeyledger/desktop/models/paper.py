"""A page of the window as it is printed: what it answers, its river, every row of its table.

It is plain data, so that it can be painted beside the window's thread. Pages are laid out by
`pages_of`: what is drawn takes the first, the rows share it where there are few.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from honeyledger.desktop.models.charts import Chart
from honeyledger.desktop.models.river_graph import RiverGraph
from honeyledger.desktop.models.rows import Cell, Column, Total

ROW = 30.0
HEAD = 44.0
# A river keeps so much of a page that its rows share with it.
RIVER_LEAST = 440.0


@dataclass(frozen=True, slots=True)
class Paper:
    """One page of the window, to be printed.

    Args:
        heading: what stands above it, the first line small.
        river: the trace as it is drawn; None where there is nothing to draw.
        columns: the table's columns; their functions are not called any more.
        rows: the cells of every row.
        totals: what stands under the rows, by column key.
        foot: what tells this print from another: the head, and when it was made.
        chart: what is drawn where it is no river.
    """

    heading: tuple[str, ...]
    river: RiverGraph | None
    columns: tuple[Column[Any], ...]
    rows: tuple[tuple[Cell, ...], ...]
    lead: str = ""
    totals: tuple[tuple[str, Total], ...] = ()
    foot: str = ""
    chart: Chart | None = None

    @property
    def is_drawn(self) -> bool:
        """Whether there is more on it than a table."""
        return self.river is not None or self.chart is not None


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page: how high its river or chart is (0 for none), and which rows stand on it.

    Args:
        is_last: whether the totals stand under its rows.
    """

    river_high: float
    first: int
    end: int
    is_last: bool


def cells_of(columns: Sequence[Column[Any]], rows: Sequence[Any]) -> tuple[tuple[Cell, ...], ...]:
    """The rows of a table as they are printed."""
    return tuple(tuple(column.cell(row) for column in columns) for row in rows)


def pages_of(paper: Paper, room: float, heights: Sequence[float]) -> list[Sheet]:
    """The pages a paper takes, each with so much room under its heading.

    Args:
        heights: of every row, which may be of several lines.
    """
    count = len(paper.rows)
    sheets: list[Sheet] = []
    if paper.is_drawn:
        left = room - table_high(heights)
        if count and left >= RIVER_LEAST:
            return [Sheet(left, 0, count, is_last=True)]
        sheets.append(Sheet(room, 0, 0, is_last=not count))
    first, used = 0, 0.0
    for place, high in enumerate(heights):
        # The totals stand under the last row, so a page never fills up to its end.
        if used + high > room - HEAD - ROW and place > first:
            sheets.append(Sheet(0.0, first, place, is_last=False))
            first, used = place, 0.0
        used += high
    if count or not sheets:
        sheets.append(Sheet(0.0, first, count, is_last=True))
    return sheets


def table_high(heights: Sequence[float]) -> float:
    """How much room a table takes with its head and its totals."""
    return HEAD + sum(heights) + ROW
