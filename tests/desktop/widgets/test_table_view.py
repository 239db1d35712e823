"""Rows by keyboard, by mouse, and as they arrive."""

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QEnterEvent, QMouseEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.models.rows import Column, ColumnKind, RowsModel
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table import Table
from honeyledger.desktop.widgets.table_view import RowsView

COLUMNS: tuple[Column[str], ...] = (
    Column("code", "Drum", lambda row: row, ColumnKind.CODE),
    Column("name", "Where", lambda _row: "the far end of the long store", ColumnKind.NAME),
)


@pytest.fixture
def view(qtbot: QtBot) -> RowsView:
    model = RowsModel(COLUMNS, lambda row: row)
    made = RowsView(model, Density.FLOOR)
    made.empty = "Nothing received today. Scan a pull sheet, or press F2."
    made.delegate.right_pads = made.head.right_pads = [12, 12]
    qtbot.addWidget(made)
    made.resize(400, 300)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    made.setColumnWidth(0, 150)
    made.setColumnWidth(1, 230)
    model.show([f"D26-{number:04}-Y" for number in range(12)])
    return made


def test_rows_are_targets_and_enter_opens_the_one_with_the_keyboard(
    qtbot: QtBot, view: RowsView
) -> None:
    assert view.rowHeight(0) == 48
    opened: list[str] = []
    view.opened.connect(opened.append)
    view.setFocus()
    qtbot.waitUntil(view.hasFocus)
    assert view.currentIndex().row() == 0, "the first row takes the keyboard"
    qtbot.keyClick(view, Qt.Key.Key_Down)
    qtbot.keyClick(view, Qt.Key.Key_Return)
    assert opened == ["D26-0001-Y"]


def test_a_double_click_opens_a_row(qtbot: QtBot, view: RowsView) -> None:
    opened: list[str] = []
    view.opened.connect(opened.append)
    at = view.row_rect(2).center()
    qtbot.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=at)
    qtbot.mouseDClick(view.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert opened == ["D26-0002-Y"]


def test_the_ring_goes_round_the_whole_row(qtbot: QtBot, view: RowsView) -> None:
    view.setFocus()
    qtbot.waitUntil(view.hasFocus)
    image = view.viewport().grab().toImage()
    rect = view.row_rect(0)
    assert rect.width() == view.viewport().width()
    focus = look.colour("focus").name()
    assert image.pixelColor(rect.center().x(), rect.top() + 1).name() == focus
    assert image.pixelColor(rect.right() - 1, rect.center().y()).name() == focus


def test_a_chosen_row_has_a_tint_and_a_bar(qtbot: QtBot, view: RowsView) -> None:
    view.selectRow(3)
    view.clearFocus()
    image = view.viewport().grab().toImage()
    rect = view.row_rect(3)
    assert image.pixelColor(1, rect.center().y()).name() == look.colour("act").name()
    tint = look.colour("act_tint").name()
    assert image.pixelColor(rect.right() - 4, rect.top() + 6).name() == tint


def test_a_row_under_the_mouse_is_lit(view: RowsView) -> None:
    rect = view.row_rect(4)
    at = QPointF(rect.right() - 4, rect.top() + 6)
    enter = QEnterEvent(at, at, at)
    QApplication.sendEvent(view.viewport(), enter)
    move = QMouseEvent(
        QEvent.Type.MouseMove,
        at,
        view.viewport().mapToGlobal(at),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(view.viewport(), move)
    image = view.viewport().grab().toImage()
    assert image.pixelColor(at.toPoint()).name() == look.colour("well").name()
    QApplication.sendEvent(view.viewport(), QEvent(QEvent.Type.Leave))
    image = view.viewport().grab().toImage()
    assert image.pixelColor(at.toPoint()).name() == look.colour("sheet").name()


def test_a_recorded_row_arrives_tinted_and_with_motion_it_fades(
    qtbot: QtBot, view: RowsView
) -> None:
    view.mark_arrived(0)
    assert view.arrived_place() == 0
    rect = view.row_rect(0)
    at = QPoint(rect.right() - 4, rect.top() + 6)
    image = view.viewport().grab().toImage()
    assert image.pixelColor(at).name() == look.colour("act_tint").name()
    view.forget_arrived()
    assert view.arrived_place() == -1
    look.change(moving=True)
    view.mark_arrived(1)
    qtbot.waitUntil(lambda: view.arrived_place() == -1, timeout=4000)


def test_an_empty_table_says_how_to_begin(view: RowsView) -> None:
    full = view.viewport().grab().toImage()
    view.rows.show([])
    empty = view.viewport().grab().toImage()
    assert empty != full
    quiet = look.colour("ink2").name()
    assert any(
        empty.pixelColor(x, y).name() == quiet for x in range(20, 300) for y in range(10, 60)
    )
    assert view.rows_in_view() is None


def test_a_cut_cell_says_the_whole_in_its_tip(view: RowsView) -> None:
    at = view.visualRect(view.model().index(0, 1)).center()
    assert view.tip_at(at) == "the far end of the long store"
    view.setColumnWidth(1, 400)
    assert view.tip_at(at) == ""
    assert view.tip_at(QPoint(5, 9000)) == ""


def test_several_rows_are_chosen_with_the_keys_and_asked_for(qtbot: QtBot, view: RowsView) -> None:
    asked: list[list[int]] = []
    view.copy_asked.connect(lambda: asked.append(view.chosen_places()))
    view.setFocus()
    view.selectRow(1)
    qtbot.keyClick(view, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(view, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(view, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(view, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    assert asked == [[1, 2], list(range(12))]


def test_rows_seen_whole_are_counted(view: RowsView) -> None:
    first, last = view.rows_in_view() or (0, 0)
    assert first == 1
    assert last == view.viewport().height() // 48
    view.scrollToBottom()
    assert (view.rows_in_view() or (0, 0))[1] == 12


def test_many_rows_share_one_height(view: RowsView) -> None:
    view.rows.show([f"D26-{number:05}-Y" for number in range(2001)])
    view.set_heights(48, 64)
    assert view.rowHeight(7) == 64
    view.rows.show(["D26-0001-Y"])
    view.set_heights(48, 64)
    assert view.rowHeight(0) == 48


def test_no_row_is_cut_by_the_foot(view: RowsView) -> None:
    whole = view.viewport().height() // 48
    cut = view.cut_row()
    assert cut.top() == whole * 48
    assert cut.bottom() == view.viewport().height() - 1
    image = view.viewport().grab().toImage()
    lowest = {image.pixelColor(x, image.height() - 2).name() for x in range(0, image.width(), 7)}
    assert lowest == {look.colour("sheet").name()}
    view.scrollToBottom()
    assert view.cut_row().isEmpty(), "the last row is reached by scrolling"


def test_a_row_that_is_scrolled_to_leaves_no_half_row_under_the_head(view: RowsView) -> None:
    view.resize(400, 270)
    for row in (8, 3, 11, 0):
        view.scrollTo(view.model().index(row, 0))
        first = view.rowAt(0)
        is_end = view.verticalScrollBar().value() == view.verticalScrollBar().maximum()
        assert is_end or view.rowViewportPosition(first) == 0, row
        assert view.viewport().rect().contains(view.row_rect(row).center())


def test_a_view_at_its_end_that_gets_lower_has_no_half_row_under_the_head(view: RowsView) -> None:
    view.scrollToBottom()
    view.resize(400, 270)
    QApplication.processEvents()
    bar, first = view.verticalScrollBar(), view.rowAt(0)
    assert bar.value() < bar.maximum()
    assert view.rowViewportPosition(first) == 0


def test_what_more_there_is_to_know_is_in_the_tip_though_nothing_is_cut(qtbot: QtBot) -> None:
    column: Column[str] = Column(
        "code",
        "Drum",
        lambda row: row,
        note=lambda _row: "S26-0057-L: strips",
        detail=lambda row: "S26-0057-L, by way of T26-0018-1: strips" if row == "D1" else "",
    )
    table = Table((column,), lambda row: row)
    qtbot.addWidget(table)
    table.resize(500, 300)
    table.show()
    table.show_rows(["D1", "D2"])
    view = table.view
    ends = [QPoint(30, view.rowViewportPosition(place) + 10) for place in (0, 1)]
    assert [view.tip_at(end) for end in ends] == [
        "D1\nS26-0057-L, by way of T26-0018-1: strips",
        "",
    ]
