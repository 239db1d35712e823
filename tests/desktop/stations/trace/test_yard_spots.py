"""The yards of a trace on the map: marks by share, and who is not on it."""

from honeyledger.desktop.stations.trace.yard_spots import yard_spots
from honeyledger.services.trace_page import trace_page
from tests.support.houses import BuiltHouse

DEGREE = 10_000_000


def test_a_mark_says_share_and_state_and_the_note_who_has_no_place() -> None:
    built = BuiltHouse(margin_min=30)
    tank = built.vessel("Tank 1")
    north = built.yard("Long Field", latitude=49 * DEGREE, longitude=-98 * DEGREE)
    built.load(north, 90_000, tank)
    built.load(built.yard("Mill Lane"), 210_000, tank)
    south = built.yard("Creek", latitude=-(DEGREE // 2), longitude=0)
    built.load(south, 100_000, built.vessel("Tank 2"))
    drum = built.drum(tank, 300_000)
    spots, note = yard_spots(built.house.ask(lambda view: trace_page(view, drum)))
    (spot,) = spots
    assert (spot.key, spot.name, spot.is_strong) == (north, "Long Field", True)
    assert spot.share == 0.3
    assert spot.words == "30.0 %, direct"
    assert note == "The area of a mark is its share. 1 without a place: Mill Lane."


def test_on_the_equator_is_a_place_too() -> None:
    built = BuiltHouse()
    tank = built.vessel("Tank 1")
    built.load(built.yard("Creek", latitude=0, longitude=0), 100_000, tank)
    drum = built.drum(tank, 100_000)
    spots, note = yard_spots(built.house.ask(lambda view: trace_page(view, drum)))
    assert [(one.latitude, one.longitude) for one in spots] == [(0, 0)]
    assert note == "The area of a mark is its share."
