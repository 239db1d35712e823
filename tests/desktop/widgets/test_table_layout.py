"""A person sets the columns; the table does the rest, and cuts no code and no figure."""

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.column_choices import ColumnChoices
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.widgets.table import Table

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE),
    Column("where", "Where", lambda _row: "the far end of the long store", ColumnKind.NAME),
    Column("age", "Age", lambda _row: "12", ColumnKind.NUMBER, unit="days", from_width=900),
    Column("net", "Net", lambda _row: "1\u202f300.5", ColumnKind.NUMBER, unit="kg"),
)


@pytest.fixture
def table(qtbot: QtBot) -> Table:
    made = Table(COLUMNS, lambda row: row)
    qtbot.addWidget(made)
    made.resize(700, 400)
    made.show()
    made.show_rows(["D26-0611-Y", "D26-0612-W"])
    made.show_totals("On hand", {"net": Total("2\u202f601.0", "kg")})
    return made


def _keys(table: Table) -> list[str]:
    return [column.key for column in table.columns.columns()]


def test_a_column_without_room_is_shown_where_a_person_wants_it_and_away_where_not(
    table: Table,
) -> None:
    assert _keys(table) == ["code", "where", "net"]
    table.columns.show_column("age", True)
    assert _keys(table) == ["code", "where", "age", "net"]
    table.columns.show_column("where", False)
    assert table.view.isColumnHidden(1)
    table.columns.show_column("code", False)
    assert _keys(table)[0] == "code", "what a row is called by stays"


def test_a_column_moves_past_those_that_are_shown(table: Table) -> None:
    table.columns.move_column("net", -1)
    assert _keys(table) == ["code", "net", "where"]
    head = table.view.head
    assert head.visualIndex(3) < head.visualIndex(1)
    table.columns.move_column("net", -1)
    assert _keys(table) == ["code", "net", "where"]
    table.columns.move_column("net", 1)
    assert _keys(table) == ["code", "where", "net"]
    table.columns.move_column("age", 1)
    assert _keys(table) == ["code", "where", "net"], "what is not shown has no place"


def test_a_moved_number_keeps_its_distance_and_its_total_goes_with_it(table: Table) -> None:
    before = table.foot._spans["net"]
    table.columns.move_column("net", -1)
    after = table.foot._spans["net"]
    assert after[1] < before[1]
    assert table.view.head.right_pads[3] == 24


def test_words_become_narrow_and_a_figure_only_wider(table: Table) -> None:
    net = table.view.columnWidth(3)
    table.columns.widen_column("net", -3)
    assert table.view.columnWidth(3) == net
    table.columns.choose(ColumnChoices())
    table.columns.widen_column("net", 2)
    assert table.view.columnWidth(3) == net + 48
    where = table.view.columnWidth(1)
    table.columns.show_column("age", True)
    table.columns.widen_column("where", -1)
    assert table.view.columnWidth(1) < where
    assert sum(table.view.columnWidth(at) for at in range(4)) == table.view.viewport().width()


def test_a_width_holds_in_another_window_and_all_goes_back_to_what_it_was(table: Table) -> None:
    told: list[bool] = []
    table.columns.chosen.connect(lambda: told.append(True))
    widths = [table.view.columnWidth(at) for at in range(4)]
    table.columns.widen_column("net", 1)
    chosen = table.view.columnWidth(3)
    table.resize(1000, 400)
    assert table.view.columnWidth(3) == chosen
    table.resize(700, 400)
    table.columns.choose(ColumnChoices())
    assert [table.view.columnWidth(at) for at in range(4)] == widths
    assert len(told) == 2


def test_rows_are_measured_once_and_anew_when_they_or_their_columns_are_others(
    qtbot: QtBot,
) -> None:
    asked: list[str] = []

    def text(row: str) -> str:
        asked.append(row)
        return row

    made = Table((Column("code", "Drum", text, ColumnKind.CODE),), lambda row: row)
    qtbot.addWidget(made)
    made.show_rows(["A", "B"])
    assert asked == ["A", "B"]
    made.resize(700, 400)
    made.show_totals("On hand", {})
    made.columns.lay_out()
    assert asked == ["A", "B"], "room and totals are no reason"
    made.show_rows(["A", "C" * 40])
    assert asked[2:] == ["A", "C" * 40]
    wide = made.wanted_width()
    made.model.set_columns((Column("code", "Drum", lambda _row: "A", ColumnKind.CODE),))
    made.columns.lay_out()
    assert made.wanted_width() < wide
