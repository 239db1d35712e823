"""Which yards are on which truck, in which order, and what is said where something is missing."""

from datetime import date

import pytest

from honeyledger.domain.distances import Spot
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.weather import Weather
from honeyledger.ledger.verbs.yards import SupersOn, Treat
from honeyledger.optimisation.routes import SolverRouter
from honeyledger.services.pulling import Asked, PullingPlan, pulling_plan
from tests.support.houses import BuiltHouse

# Along one road, so many hundredths of a degree east of the house.
EAST = {"Ash": 10, "Birch": 40, "Cedar": 20, "Dogwood": 30, "Elm": 50}
HOME = Spot(494_000_000, -988_000_000)


@pytest.fixture
def house() -> BuiltHouse:
    """Five yards with 40 supers each, on since June in the order of the alphabet."""
    made = BuiltHouse()
    for at, (name, east) in enumerate(EAST.items()):
        spot = {"latitude": HOME.latitude, "longitude": HOME.longitude + east * 100_000}
        made.yard(name, colonies=20, **spot)
        made.do(SupersOn(name, 40, f"2026-06-0{at + 1}"))
    return made


def _plan(house: BuiltHouse, **asked: object) -> PullingPlan:
    given = Asked(**{"home": HOME, "truck": 120, **asked})  # type: ignore[arg-type]
    now_ms = house.now_ms
    return house.house.ask(lambda view: pulling_plan(view, given, SolverRouter(), now_ms))


def _days(plan: PullingPlan) -> list[tuple[int, list[str]]]:
    return [(trip.day.day, [stop.yard.name for stop in trip.stops]) for trip in plan.trips]


def test_the_longest_on_with_its_neighbours_in_the_order_of_the_road(house: BuiltHouse) -> None:
    plan = _plan(house)
    # Ash was first on; Cedar and Dogwood are nearest to it. The round may run either way.
    first, second = _days(plan)
    assert first[0] == 24
    assert sorted(first[1]) == ["Ash", "Cedar", "Dogwood"]
    assert first[1][1] == "Cedar"
    assert (second[0], sorted(second[1])) == (25, ["Birch", "Elm"])
    trip = plan.trips[0]
    # 0.3 degrees east at 49.4 degrees north and back, by road: 21.7 km each way, a third more.
    assert trip.tenths_km == pytest.approx(579, abs=2)
    assert trip.proved
    assert trip.supers == 120
    assert plan.not_yet == ()


def test_wet_yards_come_last_and_treated_ones_not_before_their_day(house: BuiltHouse) -> None:
    pull, _ = house.pull("Ash", 15_000, count=1)
    house.do(Measure(pull, moisture=2_010))
    house.do(Treat("Birch", "Strips", "", "2026-07-01", clear_day="2026-07-26", supers_on=False))
    house.do(Treat("Cedar", "Pads", "", "2026-07-20", supers_on=False))
    plan = _plan(house, room=500)
    days = _days(plan)
    # Ash was wet: it only fills the truck up.
    assert days == [(24, ["Ash", "Dogwood", "Elm"]), (26, ["Birch"])] or days == [
        (24, ["Elm", "Dogwood", "Ash"]),
        (26, ["Birch"]),
    ]
    assert [(one.yard.name, one.supers, one.why) for one in plan.not_yet] == [
        ("Cedar", 40, "Pads is not out yet")
    ]
    assert "Labels and your local code decide when a treated yard may be pulled." in plan.says


def test_a_wet_yard_does_not_fill_up_a_truck_while_a_dry_one_waits(house: BuiltHouse) -> None:
    pull, _ = house.pull("Cedar", 30_000, count=20)
    house.do(Measure(pull, moisture=2_010))
    plan = _plan(house, truck=60, days=5, room=500)
    # Of Cedar 20 are left, which would fit beside each of the others; it waits for the last.
    assert [trip.supers for trip in plan.trips] == [40, 40, 40, 60]
    assert "Cedar" in _days(plan)[-1][1]


def test_the_hot_room_takes_no_more_than_it_has_room_for(house: BuiltHouse) -> None:
    house.do(Receive((Line("Elm", 40),)))
    plan = _plan(house, room=100, days=2)
    assert plan.waiting == 40
    # 40 stand there and nothing goes through: 60 more, which is one yard and no half one.
    assert [trip.supers for trip in plan.trips] == [40, 20]
    assert plan.trips[1].stops[0].supers == 20
    assert {one.why for one in plan.not_yet} == {"no room in these days"}


def test_what_the_room_takes_is_known_after_some_days_of_work(house: BuiltHouse) -> None:
    for _ in range(4):
        house.do(Receive((Line("Elm", 5),)))
        house.wait(24 * 60)
    assert _plan(house).room is None
    house.do(Receive((Line("Elm", 5),)))
    assert _plan(house).room == 25


def test_a_yard_that_is_more_than_a_truck_goes_in_parts(house: BuiltHouse) -> None:
    house.do(SupersOn("Ash", 200, "2026-06-02"))
    plan = _plan(house, days=2, room=None, yards=("ash",))
    assert [[stop.supers for stop in trip.stops] for trip in plan.trips] == [[120], [120]]


def test_a_yard_without_coordinates_is_planned_still(house: BuiltHouse) -> None:
    house.yard("Fir", colonies=20)
    house.do(SupersOn("Fir", 40, "2026-06-01"))
    plan = _plan(house, yards=("Fir", "Birch"))
    assert _days(plan) == [(24, ["Birch", "Fir"])]
    assert plan.trips[0].stops[1].tenths_km is None
    assert plan.says[0] == (
        "No coordinates are on record of Fir: planned last on their trip. Setup takes them."
    )


def test_what_is_not_known_is_said(house: BuiltHouse) -> None:
    house.yard("Gale", colonies=10)
    house.do(Weather("rain", "2026-07-23"))
    for name in ("Hale", "Ivy", "June", "Kale"):
        house.yard(name, colonies=10)
    words = "Of 5 yards nobody said how many supers are on: guessed by their colonies."
    assert words in _plan(house).says
    yards = (*EAST, "Gale")
    plan = _plan(house, home=None, truck=None, yards=yards)
    assert plan.truck == 120
    assert plan.says == (
        "No coordinates are on record of Gale: planned last on their trip. Setup takes them.",
        "Where the house stands is not on record: the way there is not in it. Setup takes "
        "its latitude and longitude.",
        "Nobody said how many supers are on Gale: guessed by their colonies.",
        "Nobody said how many supers the hot room takes: not looked at.",
        "It rained on 23 Jul 2026: read the moisture under the lid before supers come off.",
    )
    assert plan.trips[0].stops[0].tenths_km is None
    spot = {"latitude": HOME.latitude, "longitude": HOME.longitude}
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "margin_ms": 0, **spot}))
    assert _plan(house, home=None).trips[0].tenths_km == _plan(house).trips[0].tenths_km


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"yards": ("Yew",)}, "Yew is no yard of this house. Name it as its record does."),
        (
            {"first": date(2026, 7, 23)},
            "23 Jul 2026 is over. Type a day from today on, or leave it out.",
        ),
        (
            {"truck": 0},
            "A truck that takes 0 supers pulls nothing. Type what fits on it.",
        ),
        ({"days": 0}, "Type a number of days from 1 to 60: 0 is no plan."),
        (
            {"room": 0},
            "The hot room cannot take 0 supers. Type how many stand there when it is full.",
        ),
    ],
)
def test_impossible_plans_are_refused(
    house: BuiltHouse, asked: dict[str, object], sentence: str
) -> None:
    with pytest.raises(Refusal) as refused:
        _plan(house, **asked)
    assert str(refused.value) == sentence
