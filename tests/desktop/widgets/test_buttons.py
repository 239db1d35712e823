"""Buttons: large enough, pressable at all times but while their job runs."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look, tokens
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button, IconButton, Kind


@pytest.mark.parametrize("kind", list(Kind))
@pytest.mark.parametrize("density", list(Density))
def test_every_button_is_a_target_for_gloves(qtbot: QtBot, kind: Kind, density: Density) -> None:
    button = Button("Add", kind, density=density)
    qtbot.addWidget(button)
    size = button.sizeHint()
    assert size.height() == tokens.control_height(density)
    assert size.width() >= (40 if kind is Kind.PLAIN else 120)
    button.resize(size)
    button.grab()


def test_a_press_by_mouse_by_space_and_by_enter_counts_once(qtbot: QtBot) -> None:
    button = Button("Receive", Kind.PRIMARY)
    qtbot.addWidget(button)
    pressed: list[bool] = []
    button.clicked.connect(lambda: pressed.append(True))
    button.resize(button.sizeHint())
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert len(pressed) == 2


def test_while_its_job_runs_a_button_takes_no_second_press(qtbot: QtBot) -> None:
    button = Button("Receive", Kind.PRIMARY)
    qtbot.addWidget(button)
    pressed: list[bool] = []
    button.clicked.connect(lambda: pressed.append(True))
    button.set_working(True)
    assert button.is_working()
    button.resize(button.sizeHint())
    button.grab()
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    qtbot.keyClick(button, Qt.Key.Key_Space)
    assert pressed == []
    assert button.isEnabled(), "a working button keeps the keyboard"
    button.set_working(False)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert len(pressed) == 1


def test_a_primary_button_is_filled_and_darkens_under_a_press(qtbot: QtBot) -> None:
    button = Button("Receive", Kind.PRIMARY)
    qtbot.addWidget(button)
    button.resize(200, 56)
    assert button.grab().toImage().pixelColor(100, 6).name() == look.colour("act").name()
    button.setDown(True)
    assert button.grab().toImage().pixelColor(100, 6).name() == look.colour("act_down").name()


def test_a_text_that_is_cut_stands_in_the_tip(qtbot: QtBot) -> None:
    button = Button("Receive and print pallet tag", Kind.SECONDARY)
    qtbot.addWidget(button)
    button.resize(button.sizeHint())
    button.grab()
    assert not button.is_cut()
    button.resize(140, 56)
    button.grab()
    assert button.is_cut()
    assert button.toolTip() == "Receive and print pallet tag"


def test_an_icon_button_has_a_name(qtbot: QtBot) -> None:
    button = IconButton("close", "Close the card")
    qtbot.addWidget(button)
    assert button.accessibleName() == button.toolTip() == "Close the card"
    assert button.width() == button.height() == 40
    button.set_icon("print")
    button.grab()
