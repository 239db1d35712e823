"""Whatever can be done with a table can be done from its list of commands."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.widgets.row_drag import RowDrag
from honeyledger.desktop.widgets.table import Table
from honeyledger.desktop.widgets.table_menu import Taking, table_menu

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE),
    Column("net", "Net", lambda row: row[-3:], ColumnKind.NUMBER, unit="kg"),
)


@pytest.fixture
def table(qtbot: QtBot) -> Table:
    made = Table(COLUMNS, lambda row: row)
    qtbot.addWidget(made)
    made.resize(500, 400)
    made.show()
    made.show_rows(["A-300", "B-100", "C-200"])
    return made


@pytest.fixture
def said() -> list[str]:
    return []


def _words(menu: QMenu) -> Iterator[str]:
    for action in menu.actions():
        if not action.isSeparator():
            yield action.text()


def _do(table: Table, said: list[str], *path: str) -> None:
    """Choose a command by its words, through the menus it stands in."""
    taking = Taking(
        copy_all=lambda: said.append("copy"),
        save=lambda: said.append("save"),
        save_book=lambda: said.append("book"),
    )
    menu = table_menu(table, taking, table)
    for word in path[:-1]:
        menu = _action(menu, word).menu()
        assert isinstance(menu, QMenu)
    _action(menu, path[-1]).trigger()


def _action(menu: QMenu, words: str):  # type: ignore[no-untyped-def]
    return next(action for action in menu.actions() if action.text() == words)


def test_rows_are_ordered_turned_and_as_they_were_given(table: Table, said: list[str]) -> None:
    _do(table, said, "Order by", "Net")
    assert table.model.rows() == ("B-100", "C-200", "A-300")
    _do(table, said, "Order by", "Net, now")
    assert table.model.rows() == ("A-300", "C-200", "B-100")
    assert table.view.head.descending
    _do(table, said, "Order by", "As they were given")
    assert table.model.rows() == ("A-300", "B-100", "C-200")


def test_columns_are_set_and_as_at_first(table: Table, said: list[str]) -> None:
    width = table.view.columnWidth(1)
    _do(table, said, "Columns", "Net", "Wider")
    assert table.view.columnWidth(1) > width
    _do(table, said, "Columns", "Net", "Narrower")
    assert table.view.columnWidth(1) == width
    _do(table, said, "Columns", "Net", "Shown")
    assert table.view.isColumnHidden(1)
    _do(table, said, "Columns", "Net", "Shown")
    assert not table.view.isColumnHidden(1)
    _do(table, said, "Columns", "All as at first")
    assert table.columns.choices.are_none


def test_a_column_moves_and_the_first_has_no_such_command(table: Table, said: list[str]) -> None:
    table.model.set_columns([*COLUMNS, Column("where", "Where", lambda _row: "store")])
    table.show_rows(["A-300"])
    _do(table, said, "Columns", "Where", "To the left")
    assert [one.key for one in table.columns.columns()] == ["code", "where", "net"]
    _do(table, said, "Columns", "Where", "To the right")
    assert [one.key for one in table.columns.columns()] == ["code", "net", "where"]
    menu = table_menu(table, Taking(*[lambda: None] * 3), table)
    columns = _action(menu, "Columns").menu()
    assert list(_words(_action(columns, "Drum").menu())) == ["Wider", "Narrower"]


def test_the_rest(table: Table, said: list[str]) -> None:
    _do(table, said, "Copy all rows")
    _do(table, said, "Save as a file")
    _do(table, said, "Save as a workbook")
    assert said == ["copy", "save", "book"]
    _do(table, said, "Find")
    assert table.finding is not None
    assert table.finding.isVisible()


def test_where_a_row_s_place_is_decided_by_hand_there_is_no_other_order(table: Table) -> None:
    RowDrag(table)
    menu = table_menu(table, Taking(*[lambda: None] * 3), table)
    assert "Order by" not in list(_words(menu))
    table.order_by("net")
    assert table.model.rows() == ("A-300", "B-100", "C-200")


def test_it_is_asked_for_with_the_other_button_on_rows_and_head(
    qtbot: QtBot, table: Table
) -> None:
    for part in (table.view, table.view.head):
        with qtbot.waitSignal(table.menu_asked):
            part.customContextMenuRequested.emit(QPoint(10, 10))


def test_each_command_is_a_target_for_a_glove(table: Table) -> None:
    menu = table_menu(table, Taking(*[lambda: None] * 3), table)
    menu.popup(QPoint(0, 0))
    for shown in (menu, _action(menu, "Columns").menu()):
        commands = [one for one in shown.actions() if not one.isSeparator()]
        assert min(shown.actionGeometry(one).height() for one in commands) >= 40
    menu.close()
