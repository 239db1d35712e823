"""A page on paper: rows share the river's page where there are few, and never run off its end."""

from dataclasses import replace

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead
from honeyledger.desktop.models.paper import (
    HEAD,
    RIVER_LEAST,
    ROW,
    Paper,
    Sheet,
    cells_of,
    pages_of,
    table_high,
)
from honeyledger.desktop.models.rows import Cell, Column, ColumnKind
from tests.desktop.gallery_trace import graph

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Yard", lambda row: row, ColumnKind.CODE),
    Column("state", "State", lambda _row: "heel", ColumnKind.STATE, mark=lambda _row: Mark.HEEL),
)
ROOM = 900.0


def _paper(count: int, *, river: bool = True) -> Paper:
    rows = cells_of(COLUMNS, [f"Y26-{number:04}-A" for number in range(count)])
    return Paper(("Where it comes from", "2 yards."), graph() if river else None, COLUMNS, rows)


def _pages(count: int, *, river: bool = True) -> list[Sheet]:
    return pages_of(_paper(count, river=river), ROOM, [ROW] * count)


def test_rows_are_kept_as_cells() -> None:
    (row,) = _paper(1).rows
    assert row == (
        Cell("Y26-0000-A", ColumnKind.CODE),
        Cell("heel", ColumnKind.STATE, mark=Mark.HEEL),
    )


def test_a_few_rows_share_the_rivers_page() -> None:
    (sheet,) = _pages(3)
    assert (sheet.first, sheet.end, sheet.is_last) == (0, 3, True)
    assert sheet.river_high == ROOM - table_high([ROW] * 3) >= RIVER_LEAST


def test_many_rows_follow_the_river_and_none_is_lost_or_run_off_the_page() -> None:
    sheets = _pages(200)
    assert sheets[0] == Sheet(ROOM, 0, 0, is_last=False)
    assert [sheet.first for sheet in sheets[1:]] == [0, *(sheet.end for sheet in sheets[1:-1])]
    assert sheets[-1].end == 200
    assert [sheet.is_last for sheet in sheets] == [False] * (len(sheets) - 1) + [True]
    for sheet in sheets[1:]:
        assert HEAD + (sheet.end - sheet.first + 1) * ROW <= ROOM


def test_a_chart_takes_a_page_as_a_river_does() -> None:
    heads = (ChartHead("Yard", is_number=False),)
    chart = Chart(ChartForm.BARS, "Honey", "Honey", "kg", heads)
    paper = replace(_paper(3, river=False), chart=chart)
    assert paper.is_drawn
    assert pages_of(paper, ROOM, [ROW] * 3) == _pages(3)
    assert not _paper(3, river=False).is_drawn


def test_a_row_higher_than_a_page_has_one_of_its_own() -> None:
    sheets = pages_of(_paper(3, river=False), ROOM, [ROW, ROOM * 2, ROW])
    assert [(sheet.first, sheet.end) for sheet in sheets] == [(0, 1), (1, 2), (2, 3)]


def test_without_rows_there_is_still_a_page() -> None:
    assert _pages(0) == [Sheet(ROOM, 0, 0, is_last=True)]
    assert _pages(0, river=False) == [Sheet(0.0, 0, 0, is_last=True)]
