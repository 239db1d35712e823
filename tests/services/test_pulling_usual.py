"""What is usual of truck and room, by the days that were worked."""

from datetime import date, timedelta

from honeyledger.domain.distances import Spot
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.pulling_usual import (
    USUAL_TRUCK,
    fullest,
    home_of,
    run_day,
    usual_truck,
)
from honeyledger.services.season_pace import DayPace
from tests.support.houses import BuiltHouse


def _days(*worked: tuple[int, int]) -> list[DayPace]:
    first = date(2026, 7, 1)
    return [
        DayPace(first + timedelta(days=at), received=came, supers=through)
        for at, (came, through) in enumerate(worked)
    ]


WORKED = _days((100, 0), (80, 60), (0, 90), (120, 70), (60, 80), (40, 0))


def test_the_largest_day_is_a_truck_after_some_days() -> None:
    assert usual_truck(WORKED) == 120
    assert usual_truck(WORKED[:4]) == USUAL_TRUCK == 120
    assert usual_truck(_days((9, 0), (8, 0), (7, 0), (6, 0), (5, 0))) == 9


def test_the_middle_run_day() -> None:
    assert run_day(WORKED) == 70
    assert run_day([]) == 0


def test_the_fullest_evening_reckoned_back_from_now() -> None:
    # 100, 120, 30, 80, 60 and 100 stood there in the evenings.
    assert fullest(WORKED, 100) == 120
    assert fullest(WORKED[:4], 80) is None


def test_where_the_house_stands() -> None:
    house = BuiltHouse()
    assert house.house.ask(home_of) is None
    spot = {"latitude": 494_200_000, "longitude": -988_000_000}
    house.do(Register("house", {"name": "Test House", "zone": "UTC", "margin_ms": 0, **spot}))
    assert house.house.ask(home_of) == Spot(494_200_000, -988_000_000)
