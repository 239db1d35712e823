"""The calculator before there is a house: Esc closes it."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from honeyledger.desktop.first_run.reckoning_view import Reckoning


def test_it_reckons_without_a_house_and_escape_closes_it(qtbot: QtBot) -> None:
    window = Reckoning(date(2026, 7, 24))
    qtbot.addWidget(window)
    with qtbot.waitExposed(window):
        window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    calculator = window.calculator
    figure = calculator.fields["moisture"]["figure"]
    qtbot.waitUntil(lambda: figure.isAncestorOf(QApplication.focusWidget()))
    qtbot.keyClicks(QApplication.focusWidget(), "1.4900")
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    qtbot.keyClicks(QApplication.focusWidget(), "20")
    assert calculator.notes.sentences()[0].startswith("water: 18.60 %")
    qtbot.keyClick(window, Qt.Key.Key_Escape)
    assert not window.isVisible()
