"""A season by its seed: nothing is lost, chance is the seed's alone, and arithmetic bounds it."""

import random
from dataclasses import replace
from datetime import date
from itertools import pairwise
from statistics import fmean, pstdev

from honeyledger.optimisation.house_simulation import SPELLS, Weather, season_of
from honeyledger.services.season_needs import needs
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

PLAN = HousePlan(
    date(2026, 7, 6),
    (PlanYard("All", 150),),
    (PlanBox("medium", 1_000, 9, 15_000),),
    pulled_a_day=60,
    places=6,
    supers_a_place=24,
)
CERTAIN = replace(
    PLAN,
    weather_permille=0,
    stops_100h_tenths=0,
    pace_percent=0,
    spread_percent=0,
    truck_percent=0,
)


def test_the_same_seed_is_the_same_season() -> None:
    assert season_of(PLAN, 7) == season_of(PLAN, 7)
    assert len({season_of(PLAN, seed) for seed in range(5)}) > 1


def test_every_frame_comes_out_and_honey_with_it() -> None:
    for seed in range(5):
        season = season_of(CERTAIN, seed)
        assert season.by_day[-1] == 390 * 9
        assert list(season.by_day) == sorted(season.by_day)
        assert len(season.by_day) == season.days
        assert season.honey_g == round(390 * 15_000 * 0.92)
        assert season.pallets <= PLAN.places


def test_no_season_is_quicker_than_its_slowest_part() -> None:
    longest = max(needs(CERTAIN).part_days.values())
    assert all(season_of(CERTAIN, seed).days >= longest * 0.9 for seed in range(5))


def test_nothing_is_extracted_on_days_off() -> None:
    season = season_of(replace(CERTAIN, days_a_week=5), 1)
    for day in range(season.days):
        if day % 7 >= 5:  # it begins on a Monday
            assert season.by_day[day] == season.by_day[day - 1]


def test_a_full_hot_room_stops_the_trucks() -> None:
    wide = season_of(replace(CERTAIN, pulled_a_day=400, places=40), 1)
    tight = season_of(replace(CERTAIN, pulled_a_day=400, places=2), 1)
    assert tight.pallets <= 2
    assert wide.pallets > 2
    assert tight.days > wide.days


def test_what_stands_in_the_house_goes_first() -> None:
    here = season_of(replace(CERTAIN, here=390), 1)
    assert here.by_day[0] > 0
    assert season_of(CERTAIN, 1).by_day[0] == 0


def test_a_season_that_cannot_end_in_a_year_says_so() -> None:
    season = season_of(replace(CERTAIN, pulled_a_day=1), 1)
    assert season.days == 0
    assert season.by_day[-1] < 390 * 9


def test_one_uncapper_alone_with_two_people_waits_for_nobody() -> None:
    season = season_of(replace(CERTAIN, crew=50), 1)
    assert season.waits[1] == 0
    alone = season_of(replace(CERTAIN, crew=1, uncappers=3), 1)
    assert alone.waits[1] > 0


def test_rain_comes_in_spells_and_as_often_as_it_did() -> None:
    weather = Weather(replace(PLAN, weather_permille=300, weather_days=10**6), random.Random(1))
    days = [weather.next_is_wet() for _ in range(20_000)]
    assert abs(fmean(days) - 0.3) < 0.02
    after_wet = fmean(day for before, day in pairwise(days) if before)
    after_dry = fmean(day for before, day in pairwise(days) if not before)
    assert abs(after_wet - after_dry - SPELLS) < 0.03


def test_the_fewer_days_tell_of_weather_and_trucks_the_wider_the_band() -> None:
    def spread(days: int) -> float:
        plan = replace(PLAN, weather_days=days, truck_days=days, truck_percent=40)
        return pstdev([season_of(plan, seed).days for seed in range(60)])

    assert spread(3) > 1.1 * spread(10_000)
