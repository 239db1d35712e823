"""How the line worked: by hand, with a stop that was said and a gap that nobody explained."""

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.floor import Load, OpenRun
from honeyledger.ledger.verbs.stops import Stop
from honeyledger.services.season_books import season_books
from honeyledger.services.season_work import SeasonWork, season_work
from tests.support.books import code_in
from tests.support.houses import BuiltHouse

DAY_MIN = 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Ash", colonies=20)
    made.vessel("Line")
    made.vessel("Tank", fed_by="Line")
    return made


def _work(house: BuiltHouse) -> SeasonWork:
    return house.house.ask(lambda view: season_work(season_books(view, 2026, house.now_ms)))


def _run(house: BuiltHouse, scans: tuple[int, ...], crew: str = "") -> str:
    """20 supers of 9 frames at each of these minutes after the run is opened."""
    tags = [house.pull("Ash", 300_000, count=20)[1] for _ in scans]
    run = code_in(house.do(OpenRun("Line", tank="Tank", crew=crew)), "R")
    before = 0
    for tag, at in zip(tags, scans, strict=True):
        house.wait(max(0, at - before - 1))
        before = at
        house.do(Load(tag, "Line"), run=run)
    return run


def test_a_day_of_work_by_hand(house: BuiltHouse) -> None:
    run = _run(house, (0, 40, 100, 140), crew="Ann, Joe")
    house.do(Stop("Line", "pump", 20, "the seal"), run=run, at_min=house.now_min - 60)
    work = _work(house)
    (day,) = work.days
    # 540 frames whose end was scanned in 40 + 40 + 40 minutes, the stop taken off: 270 an hour.
    assert day.pace.frames_an_hour == work.frames_an_hour == 270
    # 30 frames at 270 an hour take 6.6 min, where the machine's own is 5.
    assert day.tenths_a_load == 66
    assert (day.stood_minutes, day.gap_minutes) == (20, 0)
    assert [(one.reason, one.why) for one in day.stood] == [("pump", "the seal")]


def test_hours_of_people_are_their_runs(house: BuiltHouse) -> None:
    _run(house, (0, 30, 60), crew="Ann, Joe, Sue")
    (day,) = _work(house).days
    minutes = day.pace.minutes
    assert day.crew_minutes == 3 * minutes
    assert day.supers_an_hour_tenths == 60 * 600 // minutes


def test_nobody_said_who_worked(house: BuiltHouse) -> None:
    _run(house, (0, 30))
    assert _work(house).days[0].crew_minutes is None


def test_a_gap_that_nobody_explained_is_told_as_one(house: BuiltHouse) -> None:
    _run(house, (0, 40, 80, 380))
    work = _work(house)
    assert work.days[0].gap_minutes == work.gap_minutes == 300
    assert work.waited == ()


def test_what_the_line_stood_for_the_longest_first(house: BuiltHouse) -> None:
    run = _run(house, (0, 40, 80))
    for reason, minutes in (("pump", 10), ("break", 30), ("pump", 15)):
        house.do(Stop("Line", reason, minutes), run=run)
    wrong = house.do(Stop("Line", "power", 600), run=run).entries[0].id
    house.do(Reverse(wrong, "another line"))
    waited = _work(house).waited
    assert [(one.reason, one.times, one.minutes) for one in waited] == [
        ("break", 1, 30),
        ("pump", 2, 25),
    ]


def test_without_work_there_is_nothing(house: BuiltHouse) -> None:
    assert _work(house) == SeasonWork((), ())
    assert _work(house).frames_an_hour == 0
