"""The pace of a season by day, and when it ends at that pace."""

from datetime import date

import pytest

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.ledger.verbs.leftovers import SetAside
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.yards import SupersOn
from honeyledger.services.season_books import season_books
from honeyledger.services.season_pace import DayPace, Outlook, day_paces, outlook
from honeyledger.services.season_yields import yields
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


def _days(house: BuiltHouse) -> tuple[DayPace, ...]:
    return house.house.ask(lambda view: day_paces(season_books(view, 2026, house.now_ms)))


def _outlook(house: BuiltHouse) -> Outlook:
    def question(view):  # type: ignore[no-untyped-def]
        books = season_books(view, 2026, house.now_ms)
        return outlook(books, yields(view, 2026), day_paces(books))

    found: Outlook = house.house.ask(question)
    return found


def _run_day(house: BuiltHouse, supers: int, *, minutes: int = 60, closes: bool = True) -> str:
    """Supers come in, are loaded in two halves so many minutes apart, and the run is closed."""
    _, tag = house.pull("Ash", supers * 15_000, count=supers)
    run = code_in(house.do(OpenRun("Line", tank="Tank")), "R")
    house.do(Load(tag, "Line", supers // 2), run=run)
    house.wait(minutes - 1)
    house.do(Load(tag, "Line"), run=run)
    if closes:
        house.do(CloseRun(run))
    return run


def test_a_day_counts_supers_frames_and_the_minutes_between_its_scans(house: BuiltHouse) -> None:
    _run_day(house, 30, minutes=50)
    house.wait(DAY_MIN)
    house.pull("Ash", 150_000, count=10)
    house.drum("Tank", 290_000)
    first, second = _days(house)
    assert first == DayPace(
        date(2026, 7, 24), 30, 450_000, 30, 270, 450_000, 0, minutes=50, frames_an_hour=162
    )
    assert first.loads == 9, "and 135 frames in 50 minutes, as the second pallet has no end"
    assert second == DayPace(date(2026, 7, 25), 10, 150_000, drummed_g=290_000)
    assert (second.frames_an_hour, second.loads) == (0, 0), "nothing went through"


def test_while_a_run_is_open_today_its_minutes_go_on(house: BuiltHouse) -> None:
    run = _run_day(house, 30, minutes=50, closes=False)
    house.wait(10)
    (day,) = _days(house)
    assert (day.minutes, day.is_open, day.frames_an_hour) == (60, True, 162)
    house.do(CloseRun(run))
    house.wait(30)
    assert [(day.minutes, day.is_open) for day in _days(house)] == [(50, False)]


def test_how_many_people_it_takes_goes_by_the_crews_of_runs(house: BuiltHouse) -> None:
    assert _outlook(house).people == 0
    for name in "ABCD":
        house.do(Register("operator", {"name": name}))
    shift = {"name": "Day shift", "begins": "06:00", "ends": "14:00", "people": "A, B, C, D"}
    house.do(Register("shift", shift))
    for crew in ("Ann, Joe", "Day shift", "Ann, Joe, Kit", ""):
        run = code_in(house.do(OpenRun("Line", tank="Tank", crew=crew)), "R")
        _, tag = house.pull("Ash", 150_000, count=10)
        house.do(Load(tag, "Line"), run=run)
        house.wait(30)
        house.do(CloseRun(run))
    # Two, four by the shift's list, and three; of one nobody said.
    found = _outlook(house)
    assert found.people == 3
    assert found.work_minutes == 3 * found.minutes


def test_what_was_set_aside_at_the_uncapper_did_not_go_through(house: BuiltHouse) -> None:
    _, tag = house.pull("Ash", 300_000, count=20)
    run = code_in(house.do(OpenRun("Line", tank="Tank")), "R")
    house.do(Load(tag, "Line"), run=run)
    house.wait(DAY_MIN)
    house.do(SetAside(tag, "brood", count=4, loaded=True))
    (day,) = _days(house)
    assert (day.supers, day.frames, day.loaded_g) == (16, 144, 240_000)


def test_a_load_that_was_reversed_is_none(house: BuiltHouse) -> None:
    _, tag = house.pull("Ash", 300_000, count=20)
    load = house.do(Load(tag, "Line")).entries[0].id
    house.do(Reverse(load, "wrong pallet"))
    (day,) = _days(house)
    assert (day.received, day.supers) == (20, 0)


def test_what_is_left_at_the_pace_of_the_last_fortnight(house: BuiltHouse) -> None:
    house.do(SupersOn("Ash", 200, "2026-06-01"))
    for supers in (40, 60, 40):
        _run_day(house, supers)
        house.wait(2 * DAY_MIN)
    house.pull("Ash", 300_000, count=20)
    found = _outlook(house)
    assert (found.waiting, found.waiting_g) == (20, 300_000)
    assert found.out == 200 - 160
    assert found.left == 60
    assert (found.run_day, found.fortnight) == (40, 140)
    assert found.a_super_g == 15_000
    assert found.crop_g == 160 * 15_000 + 40 * 15_000
    # 60 supers at 140 in fourteen days are six days; at 40 a day two. Today is 30 July.
    assert (found.ends, found.soonest) == (date(2026, 8, 5), date(2026, 8, 1))


def test_what_the_rest_still_takes(house: BuiltHouse) -> None:
    """60 supers of 9 frames at 180 an hour are 3 h; 2,030 of 2,100 kg became drums of 290 kg."""
    house.do(SupersOn("Ash", 200, "2026-06-01"))
    for supers in (40, 60, 40):
        _run_day(house, supers)
        house.wait(2 * DAY_MIN)
    house.pull("Ash", 300_000, count=20)
    assert (_outlook(house).minutes, _outlook(house).drums) == (180, 0)
    for _ in range(7):
        house.drum("Tank", 290_000)
    assert _outlook(house).drums == 3


def test_without_a_run_in_the_last_fortnight_no_end_can_be_told(house: BuiltHouse) -> None:
    house.pull("Ash", 300_000, count=20)
    assert (_outlook(house).ends, _outlook(house).soonest) == (None, None)
    _run_day(house, 40)
    house.wait(20 * DAY_MIN)
    found = _outlook(house)
    assert (found.fortnight, found.ends) == (0, None)
    assert found.soonest == date(2026, 8, 14)
    assert found.unsaid == 1


def test_with_nothing_left_it_ends_today(house: BuiltHouse) -> None:
    house.do(SupersOn("Ash", 40, "2026-06-01"))
    _run_day(house, 40)
    found = _outlook(house)
    assert (found.left, found.ends, found.crop_g) == (0, date(2026, 7, 24), 600_000)


def test_an_empty_season_has_no_days(house: BuiltHouse) -> None:
    assert _days(house) == ()
    assert _outlook(house).crop_g == 0
