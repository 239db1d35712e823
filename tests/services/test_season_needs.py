"""What a season comes to, against arithmetic by hand; what rests on a slip is left open."""

from dataclasses import replace
from datetime import date

import pytest

from honeyledger.services.season_needs import (
    CREW,
    DRUMS,
    EXTRACTORS,
    HOT_ROOM,
    PARTS,
    PULLING,
    TANKS,
    UNCAPPING,
    frames_an_hour,
    needs,
)
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard, problems

# 100 colonies of 2 supers of 9 frames and 15 kg, nothing lost, no rain, no stop, no cleaning.
PLAN = HousePlan(
    date(2026, 7, 6),
    (PlanYard("Upper Tansel", 100),),
    (PlanBox("medium", 1_000, 9, 15_000),),
    supers_hundredths=200,
    pulled_a_day=50,
    weather_permille=0,
    days_a_week=7,
    places=2,
    supers_a_place=25,
    warm_hours=36,
    uncapped_an_hour=225,
    frames_a_load=30,
    spin_tenths=50,
    load_tenths=10,
    drum_g=300_000,
    drum_tenths=60,
    crew=2,
    shift_tenths=80,
    clean_minutes=0,
    stops_100h_tenths=0,
    kept_permille=1_000,
    empties=8,
    jars_percent=50,
    jar_g=500,
)


def test_thirty_frames_in_five_minutes_are_360_an_hour() -> None:
    # A medium radial extractor, common practice, no source.
    assert frames_an_hour(30, 5) == 360


def test_a_small_season_by_hand() -> None:
    made = needs(PLAN)
    # 200 supers; 1,800 frames; 60 loads of 30; 3,000 kg; 10 drums of 300; half in 500 g jars.
    assert (made.supers, made.frames, made.loads) == (200, 1_800, 60)
    assert (made.honey_g, made.drums, made.jars) == (3_000_000, 10, 3_000)
    assert made.drums_short == 2
    # 8 h at 225 an hour; 60 loads of 6 min; 480 min + 60 of loading + 60 of drums by two.
    assert made.part_days[UNCAPPING] == pytest.approx(1.0)
    assert made.part_days[EXTRACTORS] == pytest.approx(0.75)
    assert made.part_days[CREW] == pytest.approx(600 / 2 / 480)
    assert made.part_days[DRUMS] == pytest.approx(60 / 480)
    assert (made.minutes, made.work_minutes) == (480, 600)
    # 200 supers at 50 a day; 8 pallets that stay 36 + 12 h on two places.
    assert made.part_days[PULLING] == pytest.approx(4.0)
    assert made.part_days[HOT_ROOM] == pytest.approx(8.0)
    assert (made.bottleneck, made.days, made.ends) == (HOT_ROOM, 8, date(2026, 7, 13))
    assert made.pallets == 2


def test_days_off_rain_and_stops_take_longer() -> None:
    made = needs(replace(PLAN, days_a_week=5, weather_permille=200, stops_100h_tenths=100))
    assert made.part_days[PULLING] == pytest.approx(4 * 7 / 5 / 0.8)
    # 10 stops of 20 min in 100 h are 3 h 20 min more.
    assert made.part_days[UNCAPPING] == pytest.approx(7 / 5 * (1 + 200 / 6_000))


def test_honey_that_rests_holds_its_tank() -> None:
    assert needs(PLAN).part_days[TANKS] == 0
    made = needs(replace(PLAN, settle_hours=24, tank_g=1_500_000))
    # Two fills, each half of the line's day and of the drums', and a day of rest.
    assert made.part_days[TANKS] == pytest.approx(2 * (0.5 + 0.0625 + 1))
    twice = needs(replace(PLAN, settle_hours=24, tank_g=1_500_000, tanks=2))
    assert twice.part_days[TANKS] == pytest.approx(made.part_days[TANKS] / 2)


def test_what_is_in_the_house_needs_no_truck() -> None:
    made = needs(replace(PLAN, through=50, here=50))
    assert made.supers == 150
    assert made.part_days[PULLING] == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("wrong", "parts"),
    [
        ({"frames_a_load": 0}, [PULLING, HOT_ROOM, UNCAPPING, DRUMS]),
        ({"shift_tenths": -10}, [PULLING, HOT_ROOM]),
        ({"pulled_a_day": 0}, [HOT_ROOM, UNCAPPING, EXTRACTORS, CREW, TANKS, DRUMS]),
    ],
)
def test_what_rests_on_no_slip_is_planned_all_the_same(
    wrong: dict[str, int], parts: list[str]
) -> None:
    plan = replace(PLAN, **wrong)
    made = needs(plan, {one.field for one in problems(plan)})
    assert list(made.part_days) == parts
    assert (made.supers, made.frames, made.drums, made.jars) == (200, 1_800, 10, 3_000)
    assert made.days is made.ends is made.pallets is None


def test_without_colonies_there_is_no_figure_and_no_error() -> None:
    plan = replace(PLAN, yards=())
    made = needs(plan, {one.field for one in problems(plan)})
    assert made.supers is made.frames is made.honey_g is made.bottleneck is None
    assert made.part_days == {}


def test_an_end_further_off_than_a_year_is_none() -> None:
    made = needs(replace(PLAN, yards=(PlanYard("All", 100_000),)))
    assert made.ends is None
    assert set(made.part_days) == set(PARTS)
