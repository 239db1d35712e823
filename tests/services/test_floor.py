"""The floor: the list of runs, a run's sheet as it goes, and what signing it ties together."""

from datetime import datetime
from functools import partial

import pytest

from honeyledger.domain.moments import moment_at
from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Cappings, CloseRun, Heel, Load, OpenRun
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.floor import (
    CameOut,
    HeelIn,
    Pace,
    RunSheet,
    WentIn,
    recent_runs,
    run_row,
    run_sheet,
    runs,
    runs_of_year,
    usual_spread,
)
from tests.support.books import code_in, place
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """Two yards; a line that feeds Tank 1, and Tank 3 apart; container 17."""
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.vessel("Tank 3")
    house.container("17")
    house.container("18")
    return house


def _open(house: BuiltHouse, **said: int) -> str:
    return code_in(house.do(OpenRun("Line", tank="Tank 3"), **said), "R")


def _sheet(house: BuiltHouse, run: str) -> RunSheet:
    sheet = house.house.ask(lambda view: run_sheet(view, run, house.now_ms))
    assert sheet is not None
    return sheet


def test_runs_newest_first(house: BuiltHouse) -> None:
    first = _open(house, at_min=0)
    second = _open(house, at_min=60)
    house.do(CloseRun(first), at_min=90)
    rows = house.house.ask(runs)
    assert [(row.code, row.line_name, row.closed_ms) for row in rows] == [
        (second, "Line", None),
        (first, "Line", START_MS + 90 * MINUTE_MS),
    ]
    assert rows[0].opened_ms == START_MS + 60 * MINUTE_MS
    assert rows[0].line == place(house, "Line").partition("/")[2]
    assert house.house.ask(lambda view: run_sheet(view, "R26-9999-X", 0)) is None


def test_a_sheet_as_it_goes(house: BuiltHouse) -> None:
    house.load("Hill", 50_000, "Tank 1")
    house.drum("Tank 1", 40_000)
    run = _open(house)
    creek, tag = house.pull("Creek", 300_000, count=20)
    _, waiting = house.pull("Hill", 100_000)
    house.do(Load(tag, "Line"), run=run)
    drum = house.do(Fill("Tank 1", container="17", pending=True), run=run).codes[-1]
    barrel = house.do(Cappings("Line", 30_000), run=run).codes[-1]
    house.do(Measure(drum, moisture=17_50, colour=340))
    house.do(Amend(drum, "number misread", container="18"))
    sheet = _sheet(house, run)
    yard = sheet.went_in[0].yard
    assert sheet.went_in == (WentIn(creek, yard, "Creek", 20, 300_000),)
    tank = place(house, "Tank 1").partition("/")[2]
    assert sheet.heels_in == (HeelIn(tank, "Tank 1", 10_000),)
    assert sheet.came_out == (
        CameOut(drum, "D", place(house, "18").partition("/")[2], 290_000, True, 17_50, 340, "18"),
        CameOut(barrel, "W", "", 30_000, False, None, None),
    )
    assert [(row.name, row.grams) for row in sheet.vessels] == [
        ("Line", 0),
        ("Tank 1", 20_000),
        ("Tank 3", 0),
    ]
    assert sheet.pallets_open == (waiting,)
    assert sheet.balance.in_g == 310_000


def test_a_pull_amended_shows_the_yard_it_is_from_now(house: BuiltHouse) -> None:
    run = _open(house)
    pull, tag = house.pull("Creek", 300_000)
    house.do(Load(tag, "Line"), run=run)
    house.do(Amend(pull, "misread", yard="Hill"))
    assert _sheet(house, run).went_in[0].yard_name == "Hill"


def test_vessels_say_since_when_they_were_washed(house: BuiltHouse) -> None:
    house.load("Creek", 50_000, "Tank 3", at_min=0)
    house.wash("Tank 3", at_min=10)
    house.wash("Line", at_min=20)
    house.load("Creek", 50_000, "Line", at_min=30)
    run = _open(house)
    washed = {row.name: row.washed_ms for row in _sheet(house, run).vessels}
    assert washed == {
        "Line": START_MS + 20 * MINUTE_MS,
        "Tank 1": None,
        "Tank 3": START_MS + 10 * MINUTE_MS,
    }
    house.wash("Line", at_min=25)  # late: it cuts nothing
    washed = {row.name: row.washed_ms for row in _sheet(house, run).vessels}
    assert washed["Line"] is None


def test_ties_are_what_a_recall_of_each_yard_would_recall(house: BuiltHouse) -> None:
    """Hill is in by the heel alone, and in one drum of an earlier run besides."""
    house.load("Hill", 100_000, "Tank 1")
    house.drum("Tank 1", 90_000)
    run = _open(house)
    _, tag = house.pull("Creek", 190_000)
    house.do(Load(tag, "Line"), run=run)
    for _ in range(2):
        house.drum("Tank 1", 100_000, run=run)
    ties = _sheet(house, run).ties
    assert [(tie.name, tie.grams, tie.only_through_heel) for tie in ties] == [
        ("Creek", 190_000, False),
        ("Hill", 10_000, True),
    ]
    assert [tie.share for tie in ties] == pytest.approx([0.95, 0.05])
    assert [(tie.drums, tie.others) for tie in ties] == [(2, 0), (2, 1)]


def test_a_run_without_drums_ties_nothing(house: BuiltHouse) -> None:
    run = _open(house)
    sheet = _sheet(house, run)
    assert (sheet.ties, sheet.came_out, sheet.went_in, sheet.heels_in) == ((), (), (), ())
    assert (sheet.pace.supers, sheet.pace.frames, sheet.pace.loads) == (0, 0, 0)


def test_pace_by_arithmetic_from_what_was_scanned(house: BuiltHouse) -> None:
    """The next scan ends the pallet before: 40 supers of 10 frames in two hours, 200 an hour."""
    house.do(Register("box", {"name": "ten", "honey_g": 14_800, "tare_g": 6_000, "frames": 10}))
    run = _open(house, at_min=0)
    first, second = (
        code_in(house.do(Receive((Line("Creek", count, box="ten"),))), "G") for count in (40, 10)
    )
    house.do(Load(first, "Line"), run=run, at_min=5)
    house.now_ms = START_MS + 100 * MINUTE_MS
    since_ms = START_MS + 5 * MINUTE_MS
    alone = Pace(40, 400, 14, 100, since_ms=since_ms, last_frames=400)
    assert _sheet(house, run).pace == alone, "nobody knows yet when the first one ends"
    house.do(Load(second, "Line"), run=run, at_min=125)
    house.now_ms = START_MS + 130 * MINUTE_MS
    since_ms = START_MS + 125 * MINUTE_MS
    assert _sheet(house, run).pace == Pace(
        50, 500, 17, 130, 200, since_ms=since_ms, last_frames=100
    )
    house.do(CloseRun(run), at_min=300)  # once closed, only its work counts
    assert _sheet(house, run).pace.minutes == 125


def test_supers_of_a_box_nobody_described_have_the_usual_frames(house: BuiltHouse) -> None:
    run = _open(house)
    house.load("Creek", 100_000, "Line", run=run)
    assert _sheet(house, run).pace.frames == 90


def test_recent_runs_are_those_of_two_seasons_and_what_is_open(house: BuiltHouse) -> None:
    forgotten, closed = _open(house), _open(house)
    house.do(CloseRun(closed))
    year_ms = 365 * 24 * 60 * MINUTE_MS

    def codes(after_ms: int) -> list[str]:
        rows = house.house.ask(partial(recent_runs, now_ms=house.now_ms + after_ms))
        return [row.code for row in rows]

    assert codes(0) == codes(year_ms) == [row.code for row in house.house.ask(runs)]
    assert set(codes(year_ms)) == {closed, forgotten}
    assert codes(2 * year_ms) == [forgotten]
    row = house.house.ask(partial(run_row, code=closed))
    assert row in house.house.ask(runs)
    assert house.house.ask(partial(run_row, code="R26-0999-X")) is None


def test_the_runs_of_a_year_are_those_opened_in_it_by_the_clock_of_the_house() -> None:
    house = BuiltHouse(zone="Pacific/Auckland")
    house.vessel("Line")

    def opened(text: str) -> str:
        at = moment_at(int(datetime.fromisoformat(text).timestamp() * 1000), "Pacific/Auckland")
        house.now_ms = max(house.now_ms, at.at_ms)
        (run,) = house.do(OpenRun("Line")).given
        house.do(CloseRun(run))
        return run

    first = opened("2026-12-31T23:30:00+13:00")
    house.do(Register("house", {"name": "Test House", "zone": "Pacific/Auckland", "prefix": "TH"}))
    second = opened("2027-01-01T00:30:00+13:00")
    third = opened("2027-12-31T23:30:00+13:00")
    (fourth,) = house.do(OpenRun("Line")).given

    def of_year(year: int) -> list[str]:
        rows = house.house.ask(lambda view: runs_of_year(view, year, "Pacific/Auckland"))
        every = {row.code: row for row in house.house.ask(runs)}
        assert all(row == every[row.code] for row in rows)
        return [row.code for row in rows]

    assert of_year(2026) == [first]
    assert of_year(2027) == [fourth, third, second]
    assert (of_year(2025), of_year(2028)) == ([], [])


def test_recent_runs_have_the_letters_of_the_house_before_them(house: BuiltHouse) -> None:
    house.do(Register("house", {"name": "Test House", "margin_ms": 0, "prefix": "TH"}))
    (run,) = house.do(OpenRun("Line", tank="Tank 3")).given
    house.do(CloseRun(run))
    assert run.startswith("TH-R26")
    rows = house.house.ask(partial(recent_runs, now_ms=house.now_ms))
    assert [row.code for row in rows] == [run]


def test_the_houses_own_spread_once_it_has_five_runs(house: BuiltHouse) -> None:
    """Gaps of 1, 2, 3, 4 and 5 % of what went in: 3 % is usual here."""
    assert house.house.ask(partial(usual_spread, now_ms=house.now_ms)) == 60
    house.do(
        Register("house", {"name": "Test House", "margin_ms": 0, "usual_spread_permille": 80})
    )
    for percent in range(1, 6):
        house.wash("Line", "Tank 1")
        run = _open(house)
        _, tag = house.pull("Creek", 100_000)
        house.do(Load(tag, "Line"), run=run)
        house.drum("Tank 1", 90_000, run=run)
        assert house.house.ask(partial(usual_spread, now_ms=house.now_ms)) == 80
        house.do(CloseRun(run, (Heel("Tank 1", 10_000 - percent * 1_000),)))
    assert house.house.ask(partial(usual_spread, now_ms=house.now_ms)) == 30
    assert _sheet(house, run).usual_permille == 30
