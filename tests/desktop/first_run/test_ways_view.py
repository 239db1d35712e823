"""Ways to begin: arrows move, Enter takes one."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.first_run.ways_view import Ways


def test_arrows_go_round_and_enter_takes_a_way(qtbot: QtBot) -> None:
    ways = Ways()
    qtbot.addWidget(ways)
    ways.add("make", "plus", "Make a house", "Your own, empty.")
    ways.add("look", "find", "Look around", "An invented one.")
    with qtbot.waitExposed(ways):
        ways.show()
    ways.activateWindow()
    qtbot.waitUntil(ways.isActiveWindow)
    ways.take_focus()
    for name in ("look", "make", "look"):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Down)
        assert ways.ways[name].hasFocus()
    with qtbot.waitSignal(ways.taken) as taken:
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    assert taken.args == ["look"]
    assert ways.ways["look"].accessibleDescription() == "An invented one."
