"""A table as the stations use it."""

from dataclasses import dataclass

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.table import Table, TablePlan


@dataclass(frozen=True)
class Pull:
    code: str
    yard: str
    supers: int
    note: str = ""


PULLS = tuple(
    Pull(f"S26-{number:04}-A", "Coulee Bend", number, "by dip" if number == 3 else "")
    for number in range(9)
)
COLUMNS: tuple[Column[Pull], ...] = (
    Column("code", "Pull", lambda row: row.code, ColumnKind.CODE),
    Column("yard", "Yard", lambda row: row.yard, ColumnKind.NAME, note=lambda row: row.note),
    Column("supers", "Supers", lambda row: str(row.supers), ColumnKind.NUMBER),
)


def _table(qtbot: QtBot, plan: TablePlan | None = None, **more: object) -> Table:
    table = Table(COLUMNS, lambda row: row.code, plan=plan or TablePlan(), **more)  # type: ignore[arg-type]
    qtbot.addWidget(table)
    table.resize(500, 400)
    table.show()
    table.show_rows(PULLS)
    return table


def test_the_chosen_row_stays_chosen_when_rows_arrive_above_it(qtbot: QtBot) -> None:
    table = _table(qtbot)
    heard: list[str] = []
    table.selected.connect(heard.append)
    table.select("S26-0004-A")
    assert heard == ["S26-0004-A"]
    table.show_rows([Pull("S26-0100-A", "Osier Ford", 40), *PULLS])
    assert table.selected_key() == "S26-0004-A"
    assert table.view.currentIndex().row() == 5
    table.select("S26-9999-A")
    assert table.selected_key() == ""


def test_columns_fill_the_table_and_numbers_stay_narrow(qtbot: QtBot) -> None:
    table = _table(qtbot)
    view = table.view
    assert sum(view.columnWidth(at) for at in range(3)) == view.viewport().width()
    narrow = view.columnWidth(2)
    table.resize(900, 400)
    assert view.columnWidth(2) == narrow
    assert view.columnWidth(1) > view.columnWidth(0)


def test_a_row_with_a_note_is_higher(qtbot: QtBot) -> None:
    table = _table(qtbot)
    assert [table.view.rowHeight(row) for row in (2, 3)] == [48, 64]
    pitched = _table(qtbot, TablePlan(pitch=40))
    assert [pitched.view.rowHeight(row) for row in (2, 3)] == [40, 80]
    pitched.fold_columns("supers")
    assert pitched.view.rowHeight(2) == 64
    assert pitched.view.isColumnHidden(2)
    pitched.fold_columns()
    assert pitched.view.rowHeight(2) == 40
    assert not pitched.view.isColumnHidden(2)


def test_the_foot_is_pinned_and_its_totals_end_with_their_columns(qtbot: QtBot) -> None:
    table = _table(qtbot, TablePlan(foot_height=71))
    table.show_totals("Today", {"supers": Total("412")})
    assert table.foot.geometry().bottom() == table.height() - 1
    assert table.foot.height() == 71
    assert table.foot.words() == "Today"


def test_a_table_about_to_be_signed_says_which_rows_are_seen(qtbot: QtBot) -> None:
    table = _table(qtbot)
    table.show_totals("Out", {})
    table.say_rows()
    table.resize(500, 48 + 3 * 48 + 48)
    assert table.foot.words() == "Out, rows 1 to 3 of 9"
    table.view.scrollToBottom()
    assert table.foot.words().endswith("to 9 of 9")
    table.show_rows([])
    assert table.foot.words() == "Out"


def test_what_stands_above_the_foot_gives_way_to_the_rows(qtbot: QtBot) -> None:
    table = _table(qtbot)
    figures = KeyFigures()
    figures.show_figures("Against the pull sheets", [KeyFigure("118", "of 118 supers")])
    above = table.set_above_foot(figures)
    table.resize(500, 500)
    assert figures.isVisible()
    table.resize(500, 260)
    assert not figures.isVisible()
    above.want(True)
    assert not figures.isVisible(), "there is still no room for it"
    table.resize(500, 500)
    assert figures.isVisible()
    above.want(False)
    table.resize(500, 510)
    assert not figures.isVisible()


def test_a_cell_may_reach_over_others(qtbot: QtBot) -> None:
    table = _table(qtbot)
    table.set_spans(lambda row: 2 if row.note else 1)
    table.show_rows(PULLS)
    assert table.view.columnSpan(3, 0) == 2
    assert table.view.columnSpan(2, 0) == 1


def test_a_recorded_row_is_tinted_until_the_rows_are_replaced(qtbot: QtBot) -> None:
    table = _table(qtbot)
    table.mark_arrived("S26-0002-A")
    assert table.view.arrived_place() == 2
    table.mark_arrived("S26-9999-A")
    assert table.view.arrived_place() == 2
    table.show_rows(PULLS)
    assert table.view.arrived_place() == -1


@pytest.mark.parametrize("rows", [5, 50_000])
def test_a_long_table_is_shown_as_soon_as_a_short_one(qtbot: QtBot, rows: int) -> None:
    table = Table(COLUMNS, lambda row: row.code, empty="Nothing here.")
    qtbot.addWidget(table)
    table.resize(500, 400)
    table.show()
    table.show_rows([Pull(f"S26-{number:05}-A", "Coulee Bend", number) for number in range(rows)])
    assert table.model.rowCount() == rows
    table.take_focus()
    assert isinstance(table.view, QWidget)
    assert table.wanted_width() > table.wanted_width(tight=True) - 1
    table.order_by("supers")
    assert table.view.head.sorted_by == "supers"


def test_rows_whose_second_line_went_are_low_again(qtbot: QtBot) -> None:
    columns = [
        Column("code", "Drum", lambda row: row[0], ColumnKind.CODE),
        Column("where", "Where", lambda row: row[1], ColumnKind.NAME),
        Column("net", "Net", lambda row: "290", ColumnKind.NUMBER),
    ]
    table = Table(columns, lambda row: row[0])
    qtbot.addWidget(table)
    table.show_rows([("D26-0001-C", "hot room")])
    low = table.view.rowHeight(0)
    table.fold_columns("net")
    assert table.view.rowHeight(0) > low
    table.fold_columns()
    assert table.view.rowHeight(0) == low
