"""Rows are narrowed as one types, Enter goes to them, Esc shows all again."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.widgets.table import Table

COLUMNS: tuple[Column[str], ...] = (Column("code", "Drum", lambda row: row, ColumnKind.CODE),)


@pytest.fixture
def table(qtbot: QtBot) -> Table:
    made = Table(COLUMNS, lambda row: row)
    qtbot.addWidget(made)
    made.resize(500, 400)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    made.show_rows([f"D26-{number:04}-Y" for number in range(12)])
    return made


def test_what_is_typed_narrows_and_the_words_say_how_many_are_left(
    qtbot: QtBot, table: Table
) -> None:
    table.begin_find()
    find = table.finding
    assert find is not None
    qtbot.waitUntil(find.editor.hasFocus)
    assert table.has_keyboard()
    assert find.counts.text() == "all 12 rows"
    assert find.editor.accessibleName() == "Find in the table"
    qtbot.keyClicks(find.editor, "001")
    assert [code[4:8] for code in table.model.rows()] == ["0001", "0010", "0011"]
    assert find.counts.text() == "3 of 12 rows"
    table.show_totals("On hand", {"code": Total("3")})
    table.show_rows(["D26-0001-Y", "D26-0002-Y"])
    assert find.counts.text() == "1 of 2 rows; totals of all"
    qtbot.keyClick(find.editor, Qt.Key.Key_Return)
    assert table.view.hasFocus()


def test_escape_shows_all_rows_again_and_gives_the_keyboard_to_them(
    qtbot: QtBot, table: Table
) -> None:
    table.begin_find()
    find = table.finding
    assert find is not None
    qtbot.keyClicks(find.editor, "0007")
    assert table.selected_key() == ""
    qtbot.keyClick(find.editor, Qt.Key.Key_Escape)
    assert table.model.rowCount() == 12
    assert find.isHidden()
    assert table.view.hasFocus()
    table.begin_find()
    assert find.editor.text() == ""
    assert find.away.width() >= 40
    find.away.click()
    assert find.isHidden()


def test_the_chosen_row_is_chosen_again_when_it_comes_back(table: Table) -> None:
    table.select("D26-0003-Y")
    table.begin_find()  # as in life: with the keyboard among the rows, the first one would have it
    table.narrow("0007")
    assert table.selected_key() == ""
    table.narrow("000")
    assert table.selected_key() == "D26-0003-Y"
