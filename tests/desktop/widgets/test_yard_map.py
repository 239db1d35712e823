"""The map of yards: chosen by mouse, by arrows, opened by Enter."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look
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
    assert shown.accessibleName() == (
        "Map of the yards: South East, 53 km south-east of the middle"
    )
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


SHARED = [
    Spot("A", "Long Field", 490_000_000, -980_000_000, True, 0.7, "70.0 %, direct"),
    Spot("B", "Mill Lane", 490_000_000, -980_000_000, True, 0.3, "30.0 %, heel"),
    Spot("C", "Far Hill", 491_000_000, -979_000_000, False, 0.0, "margin"),
]


def test_shares_are_told_and_so_is_what_has_no_place(qtbot: QtBot, shown: YardsMap) -> None:
    shown.show_spots(SHARED, "The area of a mark is its share. 1 yard has no coordinates.")
    assert shown.accessibleName() == (
        "Map of the yards: 3 yards. Arrows go from one to the next, Page Down through all."
    )
    assert shown.accessibleDescription().endswith("1 yard has no coordinates.")
    shown.choose("A")
    assert shown.accessibleName() == (
        "Map of the yards: Long Field, 70.0 %, direct, 6.6 km south-west of the middle"
    )
    assert shown.tip_at(point(shown, "C")) == "Far Hill, margin, 6.6 km north-east of the middle"
    assert shown.tip_at(QPoint(300, 20)).startswith("The area of a mark")


def test_two_yards_at_one_place_are_both_reached_by_key(shown: YardsMap) -> None:
    shown.show_spots(SHARED)
    told: list[str] = []
    shown.selected.connect(told.append)
    for key in (Qt.Key.Key_PageDown, Qt.Key.Key_PageDown, Qt.Key.Key_PageUp, Qt.Key.Key_PageUp):
        QTest.keyClick(shown, key)
    assert told == ["A", "B", "A", "C"]


def test_a_yard_that_is_not_shown_any_more_is_not_chosen(shown: YardsMap) -> None:
    shown.choose("NE")
    shown.show_spots(SHARED)
    assert shown.chosen == ""


def test_the_mark_of_a_larger_share_covers_more(shown: YardsMap) -> None:
    def inked(spots: list[Spot]) -> int:
        shown.show_spots(spots)
        image = shown.grab().toImage()
        ink = look.colour("ink").rgb()
        at = point(shown, "A")
        return sum(
            image.pixel(x, y) == ink
            for x in range(at.x() - 30, at.x() + 30)
            for y in range(at.y() - 30, at.y() + 30)
            if image.valid(x, y)
        )

    large, small = (
        [Spot("A", "", 490_000_000, -980_000_000, True, share)] for share in (0.8, 0.2)
    )
    # Four times the area, but for the edge.
    assert 3.2 < inked(large) / inked(small) < 4.8
