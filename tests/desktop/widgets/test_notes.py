"""Sentences are told whole, however long, each with its mark."""

from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.widgets.notes import Notes

LONG = "The house is in a folder that is copied to other computers, which can damage it. " * 3


def _notes(qtbot: QtBot) -> Notes:
    made = Notes()
    qtbot.addWidget(made)
    made.resize(400, 300)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_they_are_told_in_order_and_replaced_as_a_whole(qtbot: QtBot) -> None:
    notes = _notes(qtbot)
    notes.show_messages([Message(Mark.WARNING, "First.", LONG), Message(Mark.READY, "Second.")])
    assert notes.sentences() == [f"First. {LONG}".strip(), "Second."]
    assert notes.accessibleName().splitlines()[-1] == "Second."
    notes.show_messages([Message(Mark.NOTE, "Third.")])
    assert notes.sentences() == ["Third."]
    notes.show_messages(())
    assert notes.sentences() == []


def test_a_long_one_is_wrapped_and_none_of_it_is_cut(qtbot: QtBot) -> None:
    notes = _notes(qtbot)
    notes.show_messages([Message(Mark.READY, "Short."), Message(Mark.WARNING, "Long.", LONG)])
    short, long = (notes._column.itemAt(at).widget() for at in range(2))
    qtbot.waitUntil(lambda: long.height() > 3 * short.height())
    assert long.width() <= 400


def test_a_warning_has_its_ground(qtbot: QtBot) -> None:
    notes = _notes(qtbot)
    notes.show_messages([Message(Mark.WARNING, "See to it.")])
    tint = look.colour("alert_tint").name()

    def ground() -> str:
        return notes.grab().toImage().pixelColor(300, 6).name()

    qtbot.waitUntil(lambda: ground() == tint)
