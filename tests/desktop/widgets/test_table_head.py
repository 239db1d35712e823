"""Heads stand over their columns, say the unit once, and show the order."""

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.tokens import HEAD_HEIGHT
from honeyledger.desktop.widgets.table import Table
from honeyledger.desktop.widgets.table_head import head_width

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE, sort_key=lambda row: row),
    Column("net", "Net", lambda _row: "300.5", ColumnKind.NUMBER, unit="kg"),
)


def test_a_head_is_as_wide_as_its_longer_line() -> None:
    assert head_width(Column("a", "Share", unit="%")) == head_width(Column("b", "Share"))
    assert head_width(Column("a", "Net", unit="Pfund mm")) > head_width(Column("b", "Net"))


def test_a_click_orders_by_the_column_and_another_turns_the_order(qtbot: QtBot) -> None:
    table = Table(COLUMNS, lambda row: row, sorts_itself=True)
    qtbot.addWidget(table)
    table.resize(500, 300)
    table.show()
    table.show_rows(["D26-0612-W", "D26-0611-Y"])
    asked: list[tuple[str, bool]] = []
    table.sort_requested.connect(lambda key, down: asked.append((key, down)))
    head = table.view.head
    assert head.height() == HEAD_HEIGHT
    where = head.viewport().rect().topLeft()
    where += type(where)(30, 24)
    plain = head.grab().toImage()
    qtbot.mouseClick(head.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert table.model.rows() == ("D26-0611-Y", "D26-0612-W")
    assert head.grab().toImage() != plain, "an arrow shows the order"
    qtbot.mouseClick(head.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert table.model.rows() == ("D26-0612-W", "D26-0611-Y")
    assert asked == [("code", False), ("code", True)]
    where += type(where)(table.view.columnWidth(0), 0)
    qtbot.mouseClick(head.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert len(asked) == 2, "a column without an order stays as it is"
