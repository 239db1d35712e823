"""How many of a paper, with real keys."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.desk import CopiesAsked, Seen
from honeyledger.desktop.seen import SeenPaper
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


def test_its_pages_are_seen_and_drawn_anew_for_other_copies(
    qtbot: QtBot, heard: list[int]
) -> None:
    drawn: list[int] = []

    def see(
        copies: int, tell: Callable[[Seen], None], progress: Callable[[int, int], None]
    ) -> None:
        drawn.append(copies)
        progress(1, 2)
        tell(SeenPaper("The run sheet", b"", 2 * copies, (210, 297)))

    dialog = CopiesAsk(CopiesAsked("The run sheet", see=see), heard.append, None)
    qtbot.addWidget(dialog)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    dialog.open()
    assert dialog.paper.words() == "The run sheet as it will print, 210 × 297 mm, page 1 of 2"
    dialog.paper.on.click()
    assert dialog.paper.words().endswith("page 2 of 2")
    dialog.paper.back.click()
    assert dialog.paper.words().endswith("page 1 of 2")
    dialog.copies.editor.selectAll()
    QTest.keyClicks(dialog.copies.editor, "3")
    qtbot.waitUntil(lambda: drawn == [1, 3])
    assert dialog.paper.words().endswith("page 1 of 6")
    dialog.accept()
    assert heard == [3]
