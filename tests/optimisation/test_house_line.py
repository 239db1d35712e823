"""The simulated line against the formulas of queueing, in the limits where they hold.

A test simulates a stretch many times; the formula must lie within the band that these give for
the mean (99.9 %, Student's t), and a formula that is not meant must lie outside of it.
"""

import random
from collections.abc import Callable, Sequence
from datetime import date
from statistics import fmean, stdev

import pytest
import simpy

from honeyledger.domain.queueing import wait_m_d_1, wait_m_g_1, wait_m_m_1, wait_m_m_c
from honeyledger.optimisation.house_line import AlwaysOpen, Draws, Hours, Line
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

TIMES, LOADS, FIRST = 24, 1_500, 200  # the first loads come to an empty line: they are left out
T_999 = (
    3.768  # Student's t, 23 degrees of freedom, two-sided 99.9 %: scipy.stats.t.ppf(0.9995, 23)
)
HOUR = 60.0
FOREVER = 1e9
Time = Callable[[random.Random], float]


def _plan(uncappers: int = 1, extractors: int = 1, crew: int = 200) -> HousePlan:
    return HousePlan(
        date(2026, 7, 6),
        (PlanYard("All", 1),),
        (PlanBox("medium", 1_000, 9, 15_000),),
        uncappers=uncappers,
        extractors=extractors,
        crew=crew,
        places=1,
        tank_g=10**15,
        drum_g=10**14,
    )


def _steady(minutes: float) -> Time:
    return lambda _chance: minutes


def _random(minutes: float) -> Time:
    return lambda chance: chance.expovariate(1 / minutes)


def _simulated(
    plan: HousePlan, per_hour: float, uncap: Time, spin: Time, seed: int
) -> tuple[float, float]:
    """Mean hours of wait before uncapping and before the extractors."""
    env, chance = simpy.Environment(), random.Random(seed)
    draws = Draws(
        lambda _frames: uncap(chance), lambda: 0.0, lambda: spin(chance), lambda: 0.0, _no_stop
    )
    total = LOADS * plan.frames_a_load
    line = Line(env, plan, AlwaysOpen(), draws, total, 1.0)
    line.room = 10**9

    def arrive() -> object:
        for _ in range(LOADS):
            yield env.timeout(chance.expovariate(per_hour / HOUR))
            line.bring(plan.frames_a_load)

    env.process(arrive())  # type: ignore[arg-type]
    env.run(until=line.done)
    return fmean(line.uncap_waits[FIRST:]) / HOUR, fmean(line.spin_waits[FIRST:]) / HOUR


def _no_stop(_minutes: float) -> float:
    return 0.0


def _band(means: Sequence[float]) -> tuple[float, float]:
    middle, half = fmean(means), T_999 * stdev(means) / len(means) ** 0.5
    return middle - half, middle + half


def _waits(plan: HousePlan, per_hour: float, uncap: Time, spin: Time, at: int) -> list[float]:
    return [_simulated(plan, per_hour, uncap, spin, seed)[at] for seed in range(TIMES)]


def test_one_random_uncapper_waits_as_m_m_1() -> None:
    low, high = _band(_waits(_plan(), 6.0, _random(6.0), _steady(0.0), 0))
    assert low <= wait_m_m_1(6.0, 10.0) <= high
    assert not low <= wait_m_d_1(6.0, 10.0) <= high


def test_one_steady_uncapper_waits_as_m_d_1() -> None:
    low, high = _band(_waits(_plan(), 6.0, _steady(6.0), _steady(0.0), 0))
    assert low <= wait_m_d_1(6.0, 10.0) <= high
    assert not low <= wait_m_m_1(6.0, 10.0) <= high


def test_three_extractors_wait_as_erlang_c() -> None:
    low, high = _band(_waits(_plan(extractors=3), 22.0, _steady(0.0), _random(6.0), 1))
    assert low <= wait_m_m_c(22.0, 10.0, 3) <= high
    assert not low <= wait_m_m_1(22.0 / 3, 10.0) <= high


def test_an_uneven_pace_waits_between_the_two() -> None:
    def uneven(chance: random.Random) -> float:
        return chance.gammavariate(4.0, 1.5)  # a mean of 6 min, half of it as spread

    low, high = _band(_waits(_plan(), 6.0, uneven, _steady(0.0), 0))
    assert low <= wait_m_g_1(6.0, 10.0, 0.5) <= high


def test_hands_are_a_server_too() -> None:
    """Four uncappers and two people wait as two servers: Erlang C again."""
    plan = _plan(uncappers=4, crew=2)
    low, high = _band(_waits(plan, 14.0, _random(6.0), _steady(0.0), 0))
    assert low <= wait_m_m_c(14.0, 10.0, 2) <= high


def test_thirty_frames_in_five_minutes_are_360_an_hour() -> None:
    """A line that never waits for frames: common practice, no source."""
    env, plan = simpy.Environment(), _plan()
    draws = Draws(lambda _f: 0.1, lambda: 0.0, lambda: 5.0, lambda: 0.0, _no_stop)
    line = Line(env, plan, AlwaysOpen(), draws, 3_600, 1.0)
    line.bring(3_600)
    env.run(until=line.done)
    assert 3_600 / (env.now - 0.1) * HOUR == pytest.approx(360.0)


def test_the_line_stands_still_outside_its_hours() -> None:
    hours = Hours(0, 6, 480)  # Monday first, Sundays off, 7 to 15 o'clock
    assert hours.until_open(0.0) == 7 * 60
    assert hours.until_open(10 * 60.0) == 0
    assert hours.until_open(15 * 60.0) == 16 * 60
    assert hours.until_open(5 * 1_440 + 15 * 60.0) == 40 * 60  # Saturday to Monday
    assert hours.so_far(8 * 60.0) == 60
    assert hours.so_far(7 * 1_440.0) == 6 * 480
    assert Hours(0, 7, 1_440).until_open(1_440.0) == 0


def test_honey_that_rests_makes_the_extractor_wait() -> None:
    """Two tanks of two loads rest 10 h: four loads go through, then none until one is free."""
    env = simpy.Environment()
    plan = HousePlan(
        date(2026, 7, 6),
        (PlanYard("All", 1),),
        (PlanBox("medium", 1_000, 9, 15_000),),
        tanks=2,
        tank_g=60,
        settle_hours=10,
        drum_g=60,
    )
    draws = Draws(lambda _f: 1.0, lambda: 0.0, lambda: 5.0, lambda: 6.0, _no_stop)
    line = Line(env, plan, AlwaysOpen(), draws, 150, 1.0)
    line.bring(150)
    env.run(until=line.done)
    # A tank is full with its second load, and rests when the third finds no room: at 16 min.
    assert env.now == pytest.approx(16 + 600 + 6)
    assert line.out == 150
    assert line.waited[4] == pytest.approx(env.now - 26)
