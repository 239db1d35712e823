"""The first free label of a sheet, asked with real keys."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import PartUsed
from honeyledger.desktop.widgets.first_label import FirstLabel
from tests.support import printing

SHEET = PartUsed(printing.stocks().named("a4-24-70x37"), 6, 4)


@pytest.fixture
def heard() -> list[int]:
    return []


@pytest.fixture
def dialog(qtbot: QtBot, heard: list[int]) -> Iterator[FirstLabel]:
    parent = QWidget()
    parent.resize(640, 400)
    qtbot.addWidget(parent)
    made = FirstLabel(SHEET, heard.append, parent)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    made.open()
    yield made
    parent.close()


def test_enter_prints_from_the_label_that_is_marked(dialog: FirstLabel, heard: list[int]) -> None:
    assert dialog.height() <= 400
    assert dialog.look.first == 4
    QTest.keyClick(dialog.look, Qt.Key.Key_Down)
    QTest.keyClick(dialog.look, Qt.Key.Key_Return)
    assert heard == [7]
    assert dialog.result() == QDialog.DialogCode.Accepted.value


def test_escape_prints_nothing(dialog: FirstLabel, heard: list[int]) -> None:
    QTest.keyClick(dialog.look, Qt.Key.Key_Escape)
    assert heard == [0]


def test_the_buttons_are_reached_by_tab(dialog: FirstLabel, heard: list[int]) -> None:
    QTest.keyClick(dialog.look, Qt.Key.Key_Tab)
    assert dialog.focusWidget() is dialog.print
    QTest.keyClick(dialog.print, Qt.Key.Key_Tab)
    QTest.keyClick(dialog.leave, Qt.Key.Key_Space)
    assert heard == [0]
