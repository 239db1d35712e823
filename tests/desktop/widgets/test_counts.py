"""A count is stepped with gloves on, or typed."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.counts import CountField


@pytest.fixture
def field(qtbot: QtBot) -> CountField:
    made = CountField("Supers", most=60)
    qtbot.addWidget(made)
    made.resize(220, 84)
    return made


def test_minus_and_plus_are_56_by_56(field: CountField) -> None:
    assert field.minus.size().toTuple() == (56, 56)
    assert field.plus.size().toTuple() == (56, 56)
    field.grab()


def test_at_a_desk_they_are_still_targets(qtbot: QtBot) -> None:
    field = CountField("Supers", density=Density.DESK)
    qtbot.addWidget(field)
    assert min(field.minus.size().toTuple()) >= 40


def test_steps_by_button_and_by_arrow(qtbot: QtBot, field: CountField) -> None:
    field.set_value(36)
    stepped: list[object] = []
    field.stepped.connect(stepped.append)
    qtbot.mouseClick(field.plus, Qt.MouseButton.LeftButton)
    qtbot.keyClick(field.editor, Qt.Key.Key_Up)
    qtbot.mouseClick(field.minus, Qt.MouseButton.LeftButton)
    qtbot.keyClick(field.editor, Qt.Key.Key_Down)
    assert stepped == [37, 38, 37, 36]
    assert field.value() == 36


def test_steps_stop_at_the_ends(qtbot: QtBot, field: CountField) -> None:
    field.set_value(60)
    qtbot.keyClick(field.editor, Qt.Key.Key_Up)
    assert field.value() == 60
    field.set_value(0)
    qtbot.keyClick(field.editor, Qt.Key.Key_Down)
    assert field.value() == 0


def test_from_nothing_a_step_begins_at_the_least(qtbot: QtBot, field: CountField) -> None:
    assert field.value() is None
    qtbot.keyClick(field.editor, Qt.Key.Key_Up)
    assert field.value() == 0


@pytest.mark.parametrize("text", ["12,5", "-3", "forty", "4 0", "٣"])
def test_what_is_no_whole_number_is_kept_for_the_parser(
    qtbot: QtBot, field: CountField, text: str
) -> None:
    field.set_text(text)
    assert field.value() is None
    qtbot.keyClick(field.editor, Qt.Key.Key_Up)
    assert field.text() == text
