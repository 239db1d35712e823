"""The divider gives the river its height, and can be moved by hand and by key."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.widgets.divider import Divider


def _divider(qtbot: QtBot, height: int) -> Divider:
    divider = Divider(QWidget(), QWidget(), upper_least=248)
    qtbot.addWidget(divider)
    divider.resize(900, height)
    with qtbot.waitExposed(divider):
        divider.show()
    divider.activateWindow()
    return divider


def test_the_upper_part_keeps_its_least_and_the_lower_gets_three_rows_where_it_can(
    qtbot: QtBot,
) -> None:
    assert _divider(qtbot, 400).sizes() == [248, 144]
    upper, lower = _divider(qtbot, 600).sizes()
    assert upper >= 248
    assert lower >= 208


def test_up_and_down_move_it(qtbot: QtBot) -> None:
    divider = _divider(qtbot, 600)
    handle = divider.handle(1)
    before = divider.sizes()[0]
    handle.setFocus()
    qtbot.waitUntil(handle.hasFocus)
    qtbot.keyClick(handle, Qt.Key.Key_Up)
    assert divider.sizes()[0] == before - 24
    qtbot.keyClick(handle, Qt.Key.Key_Down)
    assert divider.sizes()[0] == before
    handle.grab()


def test_once_it_was_dragged_it_stays(qtbot: QtBot) -> None:
    divider = _divider(qtbot, 600)
    handle = divider.handle(1)
    start = handle.rect().center()
    qtbot.mousePress(handle, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(handle, start + QPoint(0, 60))
    qtbot.mouseRelease(handle, Qt.MouseButton.LeftButton, pos=start + QPoint(0, 60))
    QApplication.processEvents()
    moved = divider.sizes()[0]
    divider.resize(901, 600)
    QApplication.processEvents()
    assert abs(divider.sizes()[0] - moved) <= 1
