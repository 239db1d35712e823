"""A scanner ends with Enter, and that Enter is the scan's: it presses nothing, on no page."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QRadioButton
from pytestqt.qtbot import QtBot

from honeyledger.desktop.main_window import ENTRIES
from tests.desktop.rig import Rig

# A code of somebody else's goods: it has no card, and means nothing on any page.
FOREIGN = "LOT-4006381-X"


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path)
    yield made
    made.close()


def test_the_enter_of_a_scan_presses_no_button(rig: Rig) -> None:
    for key in (
        *("yards", "dock", "hot_room", "extraction", "drums", "bottling", "dispatch"),
        *("trace", "season", "setup", "keys", ENTRIES),
    ):
        _scan_presses_nothing(rig, key)


def _scan_presses_nothing(rig: Rig, key: str) -> None:
    rig.window.open_station(key)
    rig.settle()
    page = rig.window.station().widget
    pressed: list[str] = []
    buttons = [
        one
        for one in page.findChildren(QAbstractButton)
        if one.isVisible() and one.isEnabled() and not isinstance(one, QRadioButton)
    ]
    for button in buttons:
        button.clicked.connect(lambda _on=False, button=button: pressed.append(button.text()))
    head = rig.head()
    for button in buttons:
        if button.focusPolicy() & Qt.FocusPolicy.TabFocus:
            button.setFocus()
            rig.scan(FOREIGN)
            assert (pressed, rig.window.shell.open_key(), rig.head()) == ([], key, head)
    rig.window.station().begin()
    rig.scan(FOREIGN)
    assert (pressed, rig.window.shell.open_key(), rig.head()) == ([], key, head)


def test_a_person_s_enter_presses_what_has_the_keyboard(rig: Rig) -> None:
    rig.window.open_station("setup")
    rig.settle()
    (skip,) = (
        one
        for one in rig.window.station().widget.findChildren(QAbstractButton)
        if one.text() == "Skip"
    )
    pressed: list[bool] = []
    skip.clicked.connect(lambda: pressed.append(True))
    skip.setFocus()
    rig.keys("Return")
    assert pressed == [True]


def test_the_scanner_sees_nothing_while_a_page_is_made(rig: Rig) -> None:
    told: list[str] = []
    rig.window.scanner.scanned.connect(told.append)
    with rig.window.scanner.resting():
        rig.scan(FOREIGN)
        with rig.window.scanner.resting():
            pass
        rig.scan(FOREIGN)
    assert told == []
    rig.scan(FOREIGN)
    assert told == [FOREIGN]
