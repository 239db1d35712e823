"""What days that are past tell a plan, by hand; and how well it foretells the rest of a season."""

from dataclasses import replace
from datetime import date, timedelta

from honeyledger.services.floor_pace import Stretch
from honeyledger.services.season_fit import DayLog, fitted
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

MINUTE_MS = 60_000
MONDAY = date(2026, 7, 6)
PLAN = HousePlan(MONDAY, (PlanYard("All", 100),), (PlanBox("medium", 1_000, 9, 15_000),))


def _stretch(frames: int, minutes: int) -> Stretch:
    return Stretch(0, minutes * MINUTE_MS, frames, minutes * MINUTE_MS)


def test_nothing_is_learnt_of_no_days() -> None:
    assert fitted(PLAN, ()) == (PLAN, frozenset())


def test_pace_and_stops_by_hand() -> None:
    good = (_stretch(300, 75), _stretch(300, 75), _stretch(300, 75))
    # A gap of 95 min over a pallet that takes 75: 20 of them lost; a stop of 10 was said.
    day = DayLog(MONDAY, 0, 400, 330, good, (_stretch(300, 95),), (10,))
    plan, told = fitted(PLAN, (day,))
    assert plan.uncapped_an_hour == 240
    assert plan.pace_percent == 0
    # Two stops of 15 min at the mean in 3 h 45 min of running.
    assert plan.stop_minutes == 15
    assert plan.stops_100h_tenths == round(2 * 1_000 / 3.75)
    # 330 min on the line and 60 of cleaning are 6.5 h.
    assert plan.shift_tenths == 65
    assert told >= {"uncapped_an_hour", "stops_100h_tenths", "shift_tenths"}
    assert "pulled_a_day" not in told


def test_an_uneven_pace_is_told_for_a_load() -> None:
    """Pallets of four loads: a load is twice as uneven as a pallet."""
    good = (_stretch(120, 20), _stretch(120, 30), _stretch(120, 40))
    plan, _ = fitted(PLAN, (DayLog(MONDAY, 0, 40, 90, good),))
    assert plan.pace_percent == round(100 * (10 / 30) * 2)


def test_pulling_rain_and_days_off() -> None:
    days = [
        DayLog(MONDAY + timedelta(days=at), 80 if at % 2 == 0 else 0, 0, 0)
        for at in range(28)
        if at % 7 < 5
    ]
    plan, told = fitted(PLAN, days)
    assert plan.pulled_a_day == 80
    assert plan.days_a_week == 5
    # From Monday the 6th to Friday the 31st 20 work days; supers came in on every other one.
    out = len([day for day in days if day.received])
    fit = 20 if days[-1].received else 19
    assert plan.weather_permille == round(1_000 * (1 - (out - 1) / (fit - 1)))
    assert told >= {"pulled_a_day", "days_a_week", "weather_permille"}


def test_how_far_trucks_go_off_is_told_with_how_many_told_it() -> None:
    days = [DayLog(MONDAY + timedelta(days=at), 60 + 20 * at, 0, 0) for at in range(3)]
    plan, _ = fitted(PLAN, days)
    assert (plan.pulled_a_day, plan.truck_days) == (80, 3)
    assert plan.truck_percent == 25  # 20 of 80
    plan, _ = fitted(PLAN, days[:2])
    assert (plan.truck_percent, plan.truck_days) == (PLAN.truck_percent, 2)


def test_days_off_are_known_in_a_week_by_supers_that_stood_warm() -> None:
    """Ten days from a Monday: nobody came on the week-end, with and without warm supers."""
    days = [
        DayLog(MONDAY + timedelta(days=at), 80, 40 if at else 0, 300)
        for at in range(10)
        if at not in (5, 6)
    ]
    plan, told = fitted(PLAN, days)
    assert plan.days_a_week == 5
    assert "days_a_week" in told
    assert plan.weather_permille == 0
    assert plan.weather_days == 8
    # All that stood was through: nobody can say whether they would have come.
    plan, told = fitted(PLAN, [DayLog(day.day, 80, 80, 300) for day in days])
    assert plan.days_a_week == PLAN.days_a_week
    assert "days_a_week" not in told


def test_a_sunday_at_work_says_that_no_day_is_off() -> None:
    days = [DayLog(MONDAY + timedelta(days=at), 80, 40, 300) for at in range(8)]
    assert fitted(PLAN, days)[0].days_a_week == 7


def test_rain_until_now_counts_while_supers_are_still_out() -> None:
    days = [
        DayLog(MONDAY + timedelta(days=at), 80 if at < 8 else 0, 10, 300)
        for at in range(11)
        if at != 6
    ]
    rest = replace(PLAN, through=10, here=0)
    assert fitted(PLAN, days)[0].weather_permille == 0
    # Of ten days without the Sunday the first says nothing, and three had no trucks.
    assert fitted(rest, days)[0].weather_permille == 333


def test_a_short_time_says_nothing_of_weather() -> None:
    plan, told = fitted(
        PLAN, [DayLog(MONDAY, 50, 0, 0), DayLog(MONDAY + timedelta(days=3), 50, 0, 0)]
    )
    assert plan.pulled_a_day == 50
    assert "weather_permille" not in told


def test_what_cannot_be_planned_is_held_within_limits() -> None:
    plan, _ = fitted(PLAN, (DayLog(MONDAY, 0, 9, 1, (_stretch(90, 1),) * 3),))
    assert plan.uncapped_an_hour == 5_400
    assert plan.shift_tenths >= 1
