"""How many of a paper, with real keys."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import CopiesAsked
from honeyledger.desktop.widgets.copies_ask import CopiesAsk


@pytest.fixture
def heard() -> list[int]:
    return []


@pytest.fixture
def dialog(qtbot: QtBot, heard: list[int]) -> Iterator[CopiesAsk]:
    parent = QWidget()
    parent.resize(640, 400)
    qtbot.addWidget(parent)
    made = CopiesAsk(CopiesAsked("The run sheet", 2, "Office"), heard.append, parent)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(made)
    made.open()
    yield made
    parent.close()


def test_enter_prints_as_many_as_are_typed(dialog: CopiesAsk, heard: list[int]) -> None:
    assert "this is reprint 2" in dialog.slot.sentence()
    dialog.copies.editor.selectAll()
    QTest.keyClicks(dialog.copies.editor, "4")
    QTest.keyClick(dialog.copies.editor, Qt.Key.Key_Return)
    assert heard == [4]


def test_escape_prints_nothing(dialog: CopiesAsk, heard: list[int]) -> None:
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert heard == [0]


def test_what_is_no_number_of_copies_is_refused_in_words(
    dialog: CopiesAsk, heard: list[int]
) -> None:
    dialog.copies.editor.setText("1000")
    dialog.print.click()
    assert not heard
    assert "1000 copies cannot be right: say a number from 1 to 999." in dialog.slot.sentence()
