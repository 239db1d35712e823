"""The first free label of a sheet, asked with real keys."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import PartUsed
from honeyledger.desktop.tokens import TARGET_LEAST
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


@pytest.mark.parametrize("name", ["a4-24-70x37", "letter-10-101.6x50.8"])
def test_a_label_is_a_target_for_a_glove_and_the_one_in_hand_is_in_view(
    qtbot: QtBot, heard: list[int], name: str
) -> None:
    sheet = PartUsed(printing.stocks().named(name), 1, 1)
    parent = QWidget()
    parent.resize(640, 400)
    qtbot.addWidget(parent)
    dialog = FirstLabel(sheet, heard.append, parent)
    dialog.open()
    for _ in range(sheet.stock.cells - 1):
        QTest.keyClick(dialog.look, Qt.Key.Key_Right)
    cell = dialog.look.cell(sheet.stock.cells)
    assert dialog.look.first == sheet.stock.cells
    assert min(cell.width(), cell.height()) >= TARGET_LEAST
    seen = dialog.look.visibleRegion().boundingRect()
    assert seen.contains(cell.toRect())
    dialog.reject()


def test_escape_prints_nothing(dialog: FirstLabel, heard: list[int]) -> None:
    QTest.keyClick(dialog.look, Qt.Key.Key_Escape)
    assert heard == [0]


def test_the_buttons_are_reached_by_tab(dialog: FirstLabel, heard: list[int]) -> None:
    QTest.keyClick(dialog.look, Qt.Key.Key_Tab)
    assert dialog.focusWidget() is dialog.print
    QTest.keyClick(dialog.print, Qt.Key.Key_Tab)
    QTest.keyClick(dialog.leave, Qt.Key.Key_Space)
    assert heard == [0]
