"""One line in five sizes, each as large as it would be."""

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.first_run.lines_view import Lines
from honeyledger.settings import SCALES


def test_each_line_is_larger_than_the_one_before(qtbot: QtBot) -> None:
    lines = Lines("100")
    qtbot.addWidget(lines)
    fonts = [line.line_font().pixelSize() for line in lines.lines]
    assert fonts == [18, 22, 27, 32, 36]
    assert [line.scale for line in lines.lines] == list(SCALES)
    assert all(line.height() >= 40 for line in lines.lines)


def test_a_line_is_as_large_however_large_the_window_is_now(qtbot: QtBot) -> None:
    lines = Lines("200")
    qtbot.addWidget(lines)
    assert lines.scale() == "200"
    assert [line.line_font().pixelSize() * 2 for line in lines.lines] == [18, 22, 28, 32, 36]


def test_arrows_choose_and_enter_goes_on(qtbot: QtBot) -> None:
    lines = Lines("100")
    qtbot.addWidget(lines)
    with qtbot.waitExposed(lines):
        lines.show()
    lines.activateWindow()
    qtbot.waitUntil(lines.isActiveWindow)
    lines.take_focus()
    with qtbot.waitSignal(lines.moved):
        qtbot.keyClick(lines.lines[0], Qt.Key.Key_Down)
    assert lines.scale() == "125"
    with qtbot.waitSignal(lines.submitted):
        qtbot.keyClick(lines.lines[1], Qt.Key.Key_Return)
    assert lines.lines[1].accessibleName() == "125 per cent"
