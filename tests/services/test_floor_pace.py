"""How fast a run goes by its scans, with gaps in them, and when it will be through."""

import pytest

from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.floor import CloseRun, Load, OpenRun
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stops import Stop
from honeyledger.services.floor import run_sheet
from honeyledger.services.floor_pace import (
    Ahead,
    BoxFrames,
    Pace,
    ahead,
    is_pause,
    scanned_pace,
    stretches_of,
)
from tests.support.books import code_in
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse


class Floor:
    """A line with a run on it, and pallets of 30 supers of 10 frames."""

    def __init__(self) -> None:
        self.built = BuiltHouse()
        self.built.yard("Creek")
        self.built.vessel("Line")
        ten = {"name": "ten", "honey_g": 14_800, "tare_g": 6_000, "frames": 10}
        self.built.do(Register("box", ten))
        self.run = code_in(self.built.do(OpenRun("Line"), at_min=0), "R")

    def load(self, at_min: int, unsure_min: int = 0, supers: int = 30) -> None:
        facts = Receive((Line("Creek", supers, box="ten"),))
        tag = code_in(self.built.do(facts, at_min=at_min), "G")
        said = {"at_min": at_min, "unsure_ms": unsure_min * MINUTE_MS}
        self.built.do(Load(tag, "Line"), run=self.run, **said)

    def pace(self, at_min: int) -> Pace:
        now_ms = START_MS + at_min * MINUTE_MS
        sheet = self.built.house.ask(lambda view: run_sheet(view, self.run, now_ms))
        assert sheet is not None
        return sheet.pace


@pytest.fixture
def floor() -> Floor:
    return Floor()


def test_the_next_scan_ends_the_pallet_before(floor: Floor) -> None:
    for at_min in (10, 70, 130):
        floor.load(at_min)
    pace = floor.pace(150)
    assert (pace.frames, pace.loads, pace.minutes) == (900, 30, 150)
    assert (pace.frames_an_hour, pace.left_out_minutes) == (300, 0)
    assert pace.tenths_a_load == 60, "30 frames at 300 an hour take 6.0 minutes"
    assert (pace.last_frames, pace.since_ms) == (300, START_MS + 130 * MINUTE_MS)
    view_of = floor.built.house.ask
    assert view_of(lambda view: scanned_pace(view, view.entries_of_run(floor.run))) == 300


def test_dinner_is_no_work(floor: Floor) -> None:
    """Four hours over one pallet of three: somebody was away, or a scan is missing."""
    for at_min in (0, 60, 120, 360):
        floor.load(at_min)
    pace = floor.pace(370)
    assert (pace.frames_an_hour, pace.left_out_minutes) == (300, 240)


def test_one_pallet_alone_has_no_pace(floor: Floor) -> None:
    assert floor.pace(5) == Pace(minutes=5)
    floor.load(10)
    pace = floor.pace(600)
    assert (pace.frames_an_hour, pace.tenths_a_load) == (0, 0)
    floor.load(10 + 5 * 60)
    assert floor.pace(320).frames_an_hour == 0, "nobody takes five hours over a pallet"
    assert floor.pace(320).left_out_minutes == 300


def test_times_that_are_not_sure_say_nothing_of_the_pace(floor: Floor) -> None:
    floor.load(0, unsure_min=30)
    floor.load(60)
    assert floor.pace(70).frames_an_hour == 0
    floor.load(120)
    assert floor.pace(130).frames_an_hour == 300


def test_two_pallets_scanned_at_one_moment_are_one(floor: Floor) -> None:
    floor.load(0)
    floor.load(0)
    floor.load(120)
    assert floor.pace(125).frames_an_hour == 300


def test_the_last_pallet_of_a_closed_run_is_not_timed(floor: Floor) -> None:
    for at_min in (0, 60):
        floor.load(at_min)
    floor.built.do(CloseRun(floor.run), at_min=61)
    assert floor.pace(900).frames_an_hour == 300
    assert floor.pace(900).minutes == 60


def test_what_is_ahead_and_when_it_is_through() -> None:
    pace = Pace(30, 600, 20, 90, 300, since_ms=START_MS, last_frames=300)
    now_ms = START_MS + 30 * MINUTE_MS
    assert ahead(pace, 450, now_ms) == Ahead(600, now_ms + 120 * MINUTE_MS)
    late_ms = START_MS + 90 * MINUTE_MS
    assert ahead(pace, 300, late_ms) == Ahead(300, late_ms + 60 * MINUTE_MS), "none below 0"
    silent_ms = START_MS + 200 * MINUTE_MS
    assert ahead(pace, 300, silent_ms) == Ahead(300, silent_minutes=200), "no time to rely on"
    assert ahead(Pace(last_frames=90), 300, now_ms) == Ahead(390)


@pytest.mark.parametrize(
    ("took_min", "usual_min", "expected"), [(29, 5, False), (31, 5, True), (170, 60, False)]
)
def test_a_pause_is_long_by_itself_and_against_the_usual(
    took_min: int, usual_min: int, *, expected: bool
) -> None:
    assert is_pause(took_min * MINUTE_MS, usual_min * MINUTE_MS) is expected


def test_frames_by_the_boxs_record_else_the_usual_ones(floor: Floor) -> None:
    def asked(box: str) -> int:
        return floor.built.house.ask(lambda view: BoxFrames(view).of_box(box))

    assert (asked("ten"), asked("of nobody")) == (10, 9)


def test_minutes_somebody_said_it_stood_are_taken_off_their_pallet(floor: Floor) -> None:
    """20 minutes in a pallet of 60: 40 of them at work, so 450 frames an hour, not 300."""
    for at_min in (0, 60, 120):
        floor.load(at_min)
    for at_min, minutes in ((50, 20), (45, 10), (100, 20)):
        floor.built.do(Stop("Line", "pump", minutes), at_min=at_min, run=floor.run)
    pace = floor.pace(130)
    assert (pace.frames_an_hour, pace.left_out_minutes, pace.stood_minutes) == (450, 0, 40)


def test_a_long_stop_that_was_said_is_no_gap(floor: Floor) -> None:
    for at_min in (0, 60, 120, 360):
        floor.load(at_min)
    floor.built.do(Stop("Line", "break", 180), at_min=350, run=floor.run)
    pace = floor.pace(370)
    assert (pace.frames_an_hour, pace.left_out_minutes, pace.stood_minutes) == (300, 0, 180)
    found = floor.built.house.ask(lambda view: stretches_of(view, view.entries_of_run(floor.run)))
    assert [one.took_ms // MINUTE_MS for one in found.good] == [60, 60, 60]
    assert found.gaps == ()
