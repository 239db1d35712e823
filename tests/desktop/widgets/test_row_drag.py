"""Rows dragged to another place with the mouse."""

from dataclasses import dataclass

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.widgets.row_drag import RowDrag
from honeyledger.desktop.widgets.table import Table

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


@dataclass(frozen=True)
class Row:
    code: str


@pytest.fixture
def table(qtbot: QtBot) -> Table:
    column: Column[Row] = Column("code", "Code", lambda row: row.code, ColumnKind.CODE)
    made = Table([column], lambda row: row.code)
    made.show_rows([Row("A"), Row("B"), Row("C")])
    made.resize(400, 300)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    return made


def drag(table: Table, start: int, to: QPoint) -> list[tuple[str, int]]:
    """Drag a row, and let it go: what was told."""
    told: list[tuple[str, int]] = []
    dragging = RowDrag(table)
    dragging.moved.connect(lambda key, place: told.append((key, place)))
    port = table.view.viewport()
    QTest.mousePress(port, LEFT, NONE, table.view.row_rect(start).center())
    QTest.mouseMove(port, to)
    QTest.mouseRelease(port, LEFT, NONE, to)
    return told


def test_a_row_let_go_on_another_is_moved_there(table: Table) -> None:
    assert drag(table, 2, table.view.row_rect(0).center()) == [("C", 0)]
    assert table.selected_key() == "C", "and is the one that is chosen"


def test_above_the_first_is_the_first_and_below_the_last_is_the_last(table: Table) -> None:
    assert drag(table, 0, QPoint(30, table.view.viewport().height() - 5)) == [("A", 2)]
    assert drag(table, 1, QPoint(30, -20)) == [("B", 0)]


def test_a_press_alone_moves_nothing(table: Table) -> None:
    assert drag(table, 1, table.view.row_rect(1).center() + QPoint(1, 1)) == []
    assert table.selected_key() == "B"
