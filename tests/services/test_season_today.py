"""A run day by the hour, against a usual hour."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.services.season_books import season_books
from honeyledger.services.season_pace import day_paces
from honeyledger.services.season_today import DayHours, HourPace, day_hours
from tests.support.books import code_in
from tests.support.houses import BuiltHouse

DAY_MIN = 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Ash")
    made.vessel("Line")
    made.vessel("Tank", fed_by="Line")
    return made


def _hours(house: BuiltHouse) -> DayHours | None:
    def question(view):  # type: ignore[no-untyped-def]
        books = season_books(view, 2026, house.now_ms)
        return day_hours(books, day_paces(books))

    found: DayHours | None = house.house.ask(question)
    return found


def _run(house: BuiltHouse, *at_min: int) -> str:
    """A run that loads ten supers at each of these minutes after 08:40."""
    run = code_in(house.do(OpenRun("Line", tank="Tank"), at_min=at_min[0]), "R")
    for minute in at_min:
        _, tag = house.pull("Ash", 150_000, count=10, at_min=minute)
        house.do(Load(tag, "Line"), run=run, at_min=minute)
    return run


def test_each_hour_from_the_first_scan_to_the_last(house: BuiltHouse) -> None:
    run = _run(house, 30, 40, 180)
    house.do(Fill("Tank", Weight(net_g=290_000)), run=run, at_min=190)
    house.do(CloseRun(run), at_min=200)
    found = _hours(house)
    assert found is not None
    # 09:10, 09:20, 11:40 and the drum at 11:50.
    assert found.hours == (
        HourPace(9, 20, 0),
        HourPace(10, 0, 0),
        HourPace(11, 10, 290_000),
    )
    assert (found.day.supers, found.usual_permille) == (30, 0)


def test_a_usual_hour_is_that_of_the_other_days(house: BuiltHouse) -> None:
    house.do(CloseRun(_run(house, 0, 60)), at_min=70)
    house.do(CloseRun(_run(house, DAY_MIN, DAY_MIN + 180)), at_min=DAY_MIN + 190)
    _run(house, 2 * DAY_MIN)
    found = _hours(house)
    assert found is not None
    # 40 supers in one hour and three.
    assert found.usual_permille == 10_000


def test_the_hour_that_goes_on_is_open(house: BuiltHouse) -> None:
    _run(house, 30)
    house.wait(110)
    found = _hours(house)
    assert found is not None
    assert [(one.hour, one.supers, one.is_open) for one in found.hours] == [
        (9, 10, False),
        (10, 0, False),
        (11, 0, True),
    ]


def test_without_a_run_there_is_no_day(house: BuiltHouse) -> None:
    house.pull("Ash", 150_000)
    assert _hours(house) is None
