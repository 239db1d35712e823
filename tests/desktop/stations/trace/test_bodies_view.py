"""River and table: both where there is room, one of them where there is not."""

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.trace.bodies_view import BOTH_LEAST, Bodies
from honeyledger.desktop.stations.trace.columns import ReachedRow, YardRow
from honeyledger.desktop.widgets.river_picture import at_once
from tests.desktop.gallery_trace import graph

YARD = YardRow("Y26-0001-P", "direct", False, "Mill Lane", "", "", "", "100.0", 1.0, "280 000")


@pytest.fixture
def bodies(qtbot: QtBot) -> Bodies:
    made = Bodies(at_once)
    qtbot.addWidget(made)
    made.resize(1200, BOTH_LEAST)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_with_room_both_are_seen(bodies: Bodies) -> None:
    bodies.show_back(graph(), [YARD], "1 yard", "280 000")
    assert bodies.river.isVisible()
    assert bodies.yards.isVisible()
    assert bodies.totals()["grams"].text == "280 000"
    assert bodies.chosen() == "Y26-0001-P"


def test_without_room_the_river_goes_first_and_is_turned_over(bodies: Bodies) -> None:
    turned: list[bool] = []
    bodies.turned.connect(turned.append)
    bodies.show_back(graph(), [YARD], "1 yard", "280 000")
    bodies.resize(600, BOTH_LEAST - 1)
    assert turned == [True]
    assert (bodies.river.isVisible(), bodies.yards.isVisible()) == (True, False)
    assert bodies.shows_river()
    bodies.turn_over()
    assert (bodies.river.isVisible(), bodies.yards.isVisible()) == (False, True)
    bodies.resize(600, BOTH_LEAST)
    assert bodies.river.isVisible()
    assert bodies.yards.isVisible()


def test_without_a_river_there_is_the_table_alone(bodies: Bodies) -> None:
    bodies.resize(600, BOTH_LEAST - 1)
    bodies.show_forward(None)
    bodies.list_reached([ReachedRow("corner-shop", "Corner Shop", "", "", "")])
    assert not bodies.river.isVisible()
    assert bodies.reached.isVisible()
    assert not bodies.shows_river()
    assert bodies.totals() == {}
    bodies.name_table("Where it went")
    assert bodies.reached.view.accessibleName() == "Where it went"
