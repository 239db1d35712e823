"""The slot says the worst first, says the next step when there is nothing, and never moves."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QToolTip, QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.message_slot import MessageSlot, show_whole

WET = Message(Mark.WARNING, "Above 18 %.", "Tag it dry first: wet honey ferments.")
SHORT = Message(Mark.WARNING, "Two short.", "The pull sheet says 38.")
TARE = Message(Mark.REFUSED, "Not recorded:", "the gross 12.5 kg is below the tare 18 kg.")


def _slot(qtbot: QtBot, width: int = 502) -> MessageSlot:
    slot = MessageSlot("Scan the pull sheet of the first yard.")
    qtbot.addWidget(slot)
    slot.resize(width, slot.height())
    slot.show()
    return slot


def test_an_empty_slot_says_the_next_step(qtbot: QtBot) -> None:
    slot = _slot(qtbot)
    assert slot.sentence() == "Scan the pull sheet of the first yard."
    assert slot.accessibleName() == slot.sentence()
    slot.set_next_step("Scan the next pallet.")
    assert slot.sentence() == "Scan the next pallet."
    slot.grab()


def test_the_worst_is_shown_and_the_others_are_counted(qtbot: QtBot) -> None:
    slot = _slot(qtbot)
    slot.show_messages([WET, TARE, SHORT])
    assert slot.shown() == TARE
    assert slot.sentence().endswith("(and 2 more)")
    assert WET.sentence in slot.toolTip()
    slot.clear()
    assert slot.shown() is None


def test_a_refusal_fills_the_slot_and_a_warning_only_tints_it(qtbot: QtBot) -> None:
    slot = _slot(qtbot)
    slot.show_messages([TARE])
    assert slot.grab().toImage().pixelColor(2, 2).name() == look.colour("alert").name()
    slot.show_messages([WET])
    image = slot.grab().toImage()
    assert image.pixelColor(2, 24).name() == look.colour("alert").name()
    assert image.pixelColor(12, 2).name() == look.colour("alert_tint").name()


def test_its_height_is_the_same_whatever_it_says(qtbot: QtBot) -> None:
    slot = _slot(qtbot)
    heights = set()
    for messages in ([], [WET], [TARE, WET, SHORT], [recorded("Received.", 1)]):
        slot.show_messages(messages)
        heights.add(slot.height())
    assert heights == {48}
    assert MessageSlot(tall=True).height() == 72


def test_a_long_sentence_takes_two_lines_and_only_then_is_cut(qtbot: QtBot) -> None:
    slot = _slot(qtbot, width=420)
    slot.show_messages([TARE])
    assert not slot.is_cut()
    long = Message(Mark.HOLD, "Hold: treatment record.", "Nothing of this yard leaves. " * 8)
    slot.show_messages([long])
    assert slot.is_cut()
    assert slot.toolTip() == long.sentence
    slot.grab()


def test_what_was_recorded_can_be_reversed_from_the_slot(qtbot: QtBot) -> None:
    slot = _slot(qtbot)
    slot.show_messages([recorded("Received 36 supers as S26-0417-5.", 48_212)])
    assert slot.action.isVisible()
    assert slot.action.height() >= 40
    with qtbot.waitSignal(slot.action_pressed) as caught:
        qtbot.mouseClick(slot.action, Qt.MouseButton.LeftButton)
    assert caught.args == [48_212]
    slot.focus_action()
    slot.show_messages([WET])
    assert not slot.action.isVisible()


def test_a_slot_in_a_bar_has_the_bars_ground(qtbot: QtBot) -> None:
    slot = MessageSlot("Sign, then print.", density=Density.DESK, tall=True, ground="well")
    qtbot.addWidget(slot)
    slot.resize(400, 72)
    assert slot.grab().toImage().pixelColor(2, 40).name() == look.colour("well").name()


LONG = Message(Mark.REFUSED, "Not on the note.", "It is on hold. " * 20 + "Put it aside.")


def test_all_of_a_message_without_room_is_shown_by_a_press_and_by_the_key(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    slot = MessageSlot("Scan the next pallet.")
    slot.setParent(page)
    slot.resize(502, slot.height())
    page.show()
    show_whole(page)
    assert not QToolTip.isVisible(), "all of it is seen"
    slot.show_messages([LONG])
    QTest.mouseClick(slot, Qt.MouseButton.LeftButton, pos=QPoint(60, 20))
    assert QToolTip.text() == LONG.sentence
    QToolTip.hideText()
    qtbot.waitUntil(lambda: not QToolTip.isVisible())
    show_whole(page)
    assert QToolTip.text() == LONG.sentence
    QToolTip.hideText()
    qtbot.waitUntil(lambda: not QToolTip.isVisible())
