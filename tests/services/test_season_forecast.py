"""Bands over simulated seasons, what more buys, and what is told where none can be simulated."""

from dataclasses import replace
from datetime import date, timedelta

from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.season_forecast import Band, band, forecast
from honeyledger.services.season_needs import UNCAPPING
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

# Uncapping holds it up: 900 frames at 60 an hour, all else has room.
PLAN = HousePlan(
    date(2026, 7, 6),
    (PlanYard("All", 40),),
    (PlanBox("medium", 1_000, 9, 15_000),),
    uncapped_an_hour=30,
    pulled_a_day=100,
    places=40,
    supers_a_place=10,
    crew=4,
)


def _go_on(_done: int, _of: int) -> bool:
    return True


def test_a_band_is_four_of_five() -> None:
    assert band(range(101)) == Band(10, 50, 90)
    assert band([4]) == Band(4, 4, 4)
    assert band([2, 1]) == Band(1, 1, 2)


def test_what_more_buys_is_what_holds_it_up() -> None:
    made = forecast(PLAN, HouseSimulator(1), _go_on, count=24)
    assert made.needs.bottleneck == UNCAPPING
    gains = {gain.what: gain for gain in made.gains}
    assert gains["uncapper"].sure
    assert gains["uncapper"].days.low >= 2
    assert gains["shift"].sure
    assert not gains["extractor"].sure
    assert not gains["places"].sure


def test_figures_are_bands_and_the_curve_ends_with_all_frames() -> None:
    made = forecast(PLAN, HouseSimulator(1), _go_on, count=20, changes=())
    assert made.days is not None
    assert made.ends is not None
    assert made.hours is not None
    assert made.drums is not None
    assert made.ends[1] == PLAN.begins + timedelta(days=made.days.middle - 1)
    assert made.ends[0] <= made.ends[1] <= made.ends[2]
    # The last frames of all seasons are on the last day; 104 supers of 9 frames.
    assert made.curve[-1] == Band(936, 936, 936)
    assert made.curve[0].low == 0
    # By hand: 936 frames at 30 an hour are 31.2 h; stops and the year's pace come to it.
    assert 28 <= made.hours.middle <= 48
    assert made.drums.low <= 5 <= made.drums.high + 1
    assert (made.seasons, made.late, made.stopped) == (20, 0, False)


def test_a_plan_that_cannot_be_is_told_and_the_rest_reckoned() -> None:
    made = forecast(replace(PLAN, frames_a_load=0), HouseSimulator(1), _go_on)
    assert [one.field for one in made.wrong] == ["frames_a_load"]
    assert made.needs.frames == 936
    assert made.days is None
    assert made.curve == ()


def test_it_stops_when_told_and_keeps_what_it_has() -> None:
    made = forecast(PLAN, HouseSimulator(1), lambda done, _of: done < 5, count=20)
    assert (made.seasons, made.stopped, made.gains) == (5, True, ())
    assert made.days is not None
    none = forecast(PLAN, HouseSimulator(1), lambda _done, _of: False, count=20)
    assert (none.seasons, none.days, none.stopped) == (0, None, True)


def test_seasons_that_do_not_end_are_counted() -> None:
    slow = replace(PLAN, yards=(PlanYard("All", 200),), pulled_a_day=1)
    made = forecast(slow, HouseSimulator(1), _go_on, count=3, changes=())
    assert (made.late, made.seasons) == (3, 3)
    assert made.needs.ends is None
    assert len(made.curve) == 366
