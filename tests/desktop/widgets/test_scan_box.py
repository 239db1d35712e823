"""One box takes every code, and gives the keyboard back to where it was."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop import style, tokens
from honeyledger.desktop.widgets.scan_box import ScanBox


class Page(QWidget):
    """The box beside a field that has the keyboard."""

    def __init__(self) -> None:
        super().__init__()
        self.box = ScanBox()
        self.field = QLineEdit()
        row = QHBoxLayout(self)
        row.addWidget(self.box)
        row.addWidget(self.field)


@pytest.fixture
def page(qtbot: QtBot) -> Page:
    made = Page()
    qtbot.addWidget(made)
    made.resize(900, 60)
    with qtbot.waitExposed(made):
        made.show()
    made.activateWindow()
    made.field.setFocus()
    qtbot.waitUntil(made.field.hasFocus)
    return made


def test_a_typed_code_is_entered_and_the_keyboard_goes_back(qtbot: QtBot, page: Page) -> None:
    page.box.begin()
    assert page.box.editor.hasFocus()
    qtbot.keyClicks(page.box.editor, " d26-0611-y ")
    with qtbot.waitSignal(page.box.entered) as caught:
        qtbot.keyClick(page.box.editor, Qt.Key.Key_Return)
    assert caught.args == ["d26-0611-y"]
    assert page.box.editor.text() == ""
    assert page.field.hasFocus()


def test_escape_leaves_without_a_code(qtbot: QtBot, page: Page) -> None:
    entered: list[str] = []
    page.box.entered.connect(entered.append)
    page.box.begin()
    qtbot.keyClicks(page.box.editor, "D26")
    qtbot.keyClick(page.box.editor, Qt.Key.Key_Escape)
    assert entered == []
    assert page.field.hasFocus()
    page.box.begin()
    qtbot.keyClick(page.box.editor, Qt.Key.Key_Return)
    assert entered == [], "an empty box enters nothing"


def test_a_scanned_code_is_shown_large_for_a_while(qtbot: QtBot, page: Page) -> None:
    quiet = page.box.grab().toImage()
    page.box.show_scanned("D26-0611-Y")
    assert page.box.scanned_code() == "D26-0611-Y"
    assert page.box.grab().toImage() != quiet
    assert page.field.hasFocus(), "a scan takes no keyboard away"
    page.box.show_scanned("J26-0147-00382-F", refused=True)
    page.box.resize(240, 40)
    page.box.grab()
    qtbot.waitUntil(lambda: page.box.scanned_code() == "", timeout=tokens.SCANNED_MS + 2000)
    assert page.box.editor.isVisible()


def test_it_is_a_target_and_keeps_the_masts_colours_in_both_themes(
    page: Page, dressed: object
) -> None:
    assert page.box.height() == 40
    light = page.box.editor.palette().text().color().name()
    assert light.upper() == tokens.LIGHT.on_mast
    style.wear(dressed, tokens.DARK)  # type: ignore[arg-type]
    dark = page.box.editor.palette().text().color().name()
    assert dark.upper() == tokens.DARK.on_mast
