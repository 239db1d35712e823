"""What was recorded is said in its own place, and can be taken back once."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, recorded
from honeyledger.desktop.widgets.shell import Shell
from honeyledger.desktop.widgets.toast import STAYS_MS, Toast
from tests.desktop.gallery import build

DONE = recorded("Received 36 supers as S26-0417-5.", 48_212)


@pytest.fixture
def shell(qtbot: QtBot) -> Shell:
    made = build()
    qtbot.addWidget(made)
    made.resize(1280, 728)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_it_covers_the_status_bar_and_no_control(qtbot: QtBot, shell: Shell) -> None:
    toast = Toast(shell)
    toast.show_message(DONE)
    assert toast.isVisible()
    assert toast.geometry().top() == 728 - 48
    assert toast.geometry().top() >= shell.status.y() - 16
    shell.resize(853, 640)
    assert toast.geometry() == shell.line.geometry(), "a narrow window has no status bar"
    toast.grab()


def test_its_offer_can_be_taken_once(qtbot: QtBot, shell: Shell) -> None:
    toast = Toast(shell)
    acted: list[object] = []
    toast.acted.connect(acted.append)
    toast.show_message(DONE)
    assert toast.action.height() >= 40
    assert toast.message() == DONE
    qtbot.mouseClick(toast.action, Qt.MouseButton.LeftButton)
    toast.act()
    assert acted == [48_212]
    assert toast.message() is None


def test_a_message_without_an_offer_can_be_put_away(qtbot: QtBot, shell: Shell) -> None:
    toast = Toast(shell)
    toast.show_message(Message(Mark.REVERSED, "Entry 48 212 is reversed by entry 48 213."))
    assert not toast.action.isVisible()
    toast.focus_action()
    qtbot.mouseClick(toast.away, Qt.MouseButton.LeftButton)
    assert not toast.isVisible()


def test_what_matters_no_more_is_taken_back_and_nothing_else(qtbot: QtBot, shell: Shell) -> None:
    toast = Toast(shell)
    first, second = Message(Mark.REFUSED, "Not opened."), Message(Mark.REFUSED, "Not found.")
    toast.show_message(first)
    toast.take_back(second)
    assert toast.message() is first
    toast.take_back(first)
    assert toast.message() is None


def test_a_warning_stays_and_a_note_waits_until_it_is_put_away(qtbot: QtBot, shell: Shell) -> None:
    toast = Toast(shell)
    warning = Message(Mark.WARNING, "Not backed up for 4 days.", action="Back up now", about=1)
    note = Message(Mark.NOTE, "Who works here?", action="Choose", about=2)
    toast.show_message(warning)
    toast.show_message(note)
    assert toast.message() == warning
    toast.put_away()
    assert toast.message() == note
    toast.put_away()
    assert toast.message() is None


def test_what_was_recorded_takes_the_place_of_a_warning(qtbot: QtBot, shell: Shell) -> None:
    toast = Toast(shell)
    toast.show_message(Message(Mark.WARNING, "Not backed up for 4 days."))
    toast.show_message(DONE)
    assert toast.message() == DONE


def test_a_refusal_fills_it_and_stays(qtbot: QtBot, shell: Shell) -> None:
    toast = Toast(shell)
    toast.show_message(Message(Mark.REFUSED, "Not reversed.", "A drum was filled from it."))
    image = toast.grab().toImage()
    assert image.pixelColor(700, 2).name() == look.colour("alert").name()
    assert toast.toolTip() == "Not reversed. A drum was filled from it."
    assert STAYS_MS >= 10_000, "long enough to be read at the other end of the room"
