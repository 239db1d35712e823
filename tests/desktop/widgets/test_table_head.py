"""Heads stand over their columns, say the unit once, and show the order."""

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.rows import Column, ColumnKind
from honeyledger.desktop.tokens import HEAD_HEIGHT
from honeyledger.desktop.widgets.table import Table
from honeyledger.desktop.widgets.table_head import TableHead, head_width

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE, sort_key=lambda row: row),
    Column("net", "Net", lambda _row: "300.5", ColumnKind.NUMBER, unit="kg"),
)
TARE: Column[str] = Column("tare", "Tare", lambda _row: "18.0", ColumnKind.NUMBER, unit="kg")


def test_a_head_is_as_wide_as_its_longer_line() -> None:
    assert head_width(Column("a", "Share", unit="%")) == head_width(Column("b", "Share"))
    assert head_width(Column("a", "Net", unit="Pfund mm")) > head_width(Column("b", "Net"))


def test_a_click_orders_by_the_column_and_another_turns_the_order(qtbot: QtBot) -> None:
    table = Table(COLUMNS, lambda row: row, sorts_itself=True)
    qtbot.addWidget(table)
    table.resize(500, 300)
    table.show()
    table.show_rows(["D26-0612-W", "D26-0611-Y"])
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
    qtbot.mouseClick(head.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert table.model.rows() == ("D26-0612-W", "D26-0611-Y"), "as they were given"
    assert head.grab().toImage() == plain


def test_columns_are_moved_and_made_wider_with_the_mouse(qtbot: QtBot) -> None:
    table = Table([*COLUMNS, TARE], lambda row: row)
    qtbot.addWidget(table)
    table.resize(600, 300)
    table.show()
    table.show_rows(["D26-0612-W", "D26-0611-Y"])
    told: list[bool] = []
    table.columns.chosen.connect(lambda: told.append(True))
    head = table.view.head
    edge = QPoint(head.sectionPosition(1) + head.sectionSize(1) - 1, 24)
    before = head.sectionSize(1)
    _drag(qtbot, head.viewport(), edge, edge + QPoint(40, 0))
    assert table.columns.choices.widths == {"net": before + 40}
    assert head.sectionSize(1) == before + 40
    middle = QPoint(head.sectionPosition(2) + 20, 24)
    _drag(qtbot, head.viewport(), middle, QPoint(head.sectionPosition(1) + 4, 24))
    assert [column.key for column in table.columns.columns()] == ["code", "tare", "net"]
    assert len(told) == 2
    qtbot.mouseDClick(head.viewport(), Qt.MouseButton.LeftButton, pos=_edge_of(head, 1))
    assert table.columns.choices.widths == {}, "as wide as by itself"
    assert table.view.head.sorted_by == "", "nothing was ordered by the way"


def _edge_of(head: TableHead, at: int) -> QPoint:
    return QPoint(head.sectionViewportPosition(at) + head.sectionSize(at) - 1, 24)


def _drag(qtbot: QtBot, on: QWidget, start: QPoint, end: QPoint) -> None:
    left = Qt.MouseButton.LeftButton
    qtbot.mousePress(on, left, pos=start)
    for share in (0.3, 0.6, 1.0):
        at = QPointF(start + (end - start) * share)
        move = QMouseEvent(
            QEvent.Type.MouseMove,
            at,
            on.mapToGlobal(at),
            left,
            left,
            Qt.KeyboardModifier.NoModifier,
        )
        QApplication.sendEvent(on, move)
    qtbot.mouseRelease(on, left, pos=end)


def test_a_head_says_its_whole_title_and_unit_in_its_tip(qtbot: QtBot) -> None:
    table = Table((*COLUMNS, TARE), lambda row: row)
    qtbot.addWidget(table)
    table.resize(500, 300)
    table.show()
    head = table.view.head
    ends = [head.sectionViewportPosition(place) + 5 for place in range(3)]
    assert [head.tip_at(QPoint(x, 20)) for x in ends] == ["Drum", "Net kg", "Tare kg"]
    assert head.tip_at(QPoint(10_000, 20)) == ""
