"""The strip that asks, and says, when what is typed from the pad happened."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop import tokens
from honeyledger.desktop.widgets.pad_strip import ASKING_HEIGHT, PadStrip


@pytest.fixture
def strip(qtbot: QtBot) -> PadStrip:
    made = PadStrip()
    made.resize(1280, made.height())
    qtbot.addWidget(made)
    return made


def test_it_is_not_there_until_it_has_something_to_say(strip: PadStrip) -> None:
    assert strip.isHidden()
    strip.say("From the pad: 14:20.")
    assert not strip.isHidden()
    assert strip.accessibleName() == "From the pad: 14:20."
    assert strip.height() == tokens.MAST_HEIGHT
    assert not strip.is_asking()
    strip.say("")
    assert strip.isHidden()


def test_a_time_and_how_sure_it_is_are_answered_by_enter(strip: PadStrip, qtbot: QtBot) -> None:
    strip.ask()
    assert strip.is_asking()
    assert strip.height() == ASKING_HEIGHT
    QTest.keyClicks(strip.time.editor, "14:20")
    with qtbot.waitSignal(strip.answered) as heard:
        QTest.keyClick(strip.time.editor, Qt.Key.Key_Return)
        first = next(made for made in strip.unsure.buttons() if made.isChecked())
        QTest.keyClick(first, Qt.Key.Key_Return)
    assert heard.args == ["14:20", "30"]


def test_it_says_why_a_time_is_none_and_escape_leaves(strip: PadStrip, qtbot: QtBot) -> None:
    strip.ask("That is no time.")
    assert strip.words.text() == "That is no time."
    assert strip.time.box.refused
    with qtbot.waitSignal(strip.left):
        QTest.keyClick(strip, Qt.Key.Key_Escape)


def test_its_buttons(strip: PadStrip, qtbot: QtBot) -> None:
    strip.say("From the pad: 14:20.")
    with qtbot.waitSignal(strip.again):
        strip.other.click()
    with qtbot.waitSignal(strip.ended):
        strip.now.click()
