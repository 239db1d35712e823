"""The map of yards: chosen by mouse, by arrows, opened by Enter."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.yard_places import Spot
from honeyledger.desktop.widgets.yard_map import YardsMap

SPOTS = [
    Spot("SW", "South West", 490_000_000, -980_000_000),
    Spot("SE", "South East", 490_000_000, -970_000_000, is_strong=True),
    Spot("NE", "North East", 497_000_000, -970_000_000),
]
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


@pytest.fixture
def shown(qtbot: QtBot) -> YardsMap:
    made = YardsMap("No yard has a place yet.")
    qtbot.addWidget(made)
    made.resize(600, 400)
    made.show_spots(SPOTS)
    with qtbot.waitExposed(made):
        made.show()
    return made


def point(shown: YardsMap, key: str) -> QPoint:
    at = next(one for one in shown.laid_out().placed if one.spot.key == key)
    return QPoint(round(at.x), round(at.y))


def test_a_press_chooses_the_yard_near_it_and_two_open_it(shown: YardsMap) -> None:
    told: list[str] = []
    shown.selected.connect(told.append)
    shown.opened.connect(lambda key: told.append(f"open {key}"))
    QTest.mouseClick(shown, LEFT, NONE, point(shown, "SE"))
    assert (told, shown.chosen) == (["SE"], "SE")
    assert shown.accessibleDescription() == "South East"
    QTest.mouseClick(shown, LEFT, NONE, QPoint(300, 60))
    assert shown.chosen == "SE", "nothing is there"
    QTest.mouseDClick(shown, LEFT, NONE, point(shown, "NE"))
    assert told[-1] == "open NE"


def test_arrows_go_to_the_next_yard_that_way_and_enter_opens(shown: YardsMap) -> None:
    told: list[str] = []
    shown.opened.connect(told.append)
    walked = []
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Up, Qt.Key.Key_Left):
        QTest.keyClick(shown, key)
        walked.append(shown.chosen)
    assert walked == ["SW", "SE", "NE", "NE", "SW"]
    QTest.keyClick(shown, Qt.Key.Key_Down)
    QTest.keyClick(shown, Qt.Key.Key_Return)
    assert told == ["SW"]


def test_the_chosen_yard_looks_other_than_the_rest(shown: YardsMap) -> None:
    before = shown.grab().toImage()
    shown.choose("NE")
    assert shown.grab().toImage() != before


def test_without_coordinates_it_says_so(qtbot: QtBot) -> None:
    made = YardsMap("No yard has a place yet.")
    qtbot.addWidget(made)
    made.resize(400, 300)
    blank = made.grab().toImage()
    made.show_spots(SPOTS)
    assert made.grab().toImage() != blank
    QTest.keyClick(YardsMap(""), Qt.Key.Key_Left)
