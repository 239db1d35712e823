"""Seasons of a house made up by another mechanism than the simulation's, as its scans tell them.

Rain comes in spells, the pace drifts from day to day and sags in the afternoon, people eat, the
line breaks down for hours, scans are late or forgotten; pallets stand warm for a whole day. What a
house does is drawn anew with each seed: its crop, trucks, pace, days off.
"""

import random
from dataclasses import dataclass
from datetime import date, timedelta

from honeyledger.services.floor_pace import stretches_between
from honeyledger.services.season_fit import DayLog, fitted
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

MINUTE_MS = 60_000
FIRST = date(2026, 7, 6)
FRAMES = 9
ON_A_PALLET = 30


@dataclass(frozen=True, slots=True)
class MadeSeason:
    """One season: what every day's scans say, and what truly was."""

    supers: int
    days: tuple[DayLog, ...]
    places: int

    def half(self) -> int:
        """The first day at whose end half of the supers were through."""
        through = 0
        for at, day in enumerate(self.days):
            through += day.through
            if through * 2 >= self.supers:
                return at
        return len(self.days) - 1


@dataclass(slots=True)
class _House:
    chance: random.Random
    supers: int
    truck: int
    pace: float  # frames a minute
    work_min: int
    days_off: frozenset[int]
    wet_after_dry: float
    wet_after_wet: float
    breakdown: float
    forgets: float
    places: int


def made_season(seed: int) -> MadeSeason:
    """A season by its seed."""
    chance = random.Random(f"season {seed}")
    house = _House(
        chance,
        supers=chance.randint(900, 3_200),
        truck=chance.randint(70, 190),
        pace=chance.uniform(170, 320) / 60,
        work_min=chance.randint(330, 560),
        days_off=frozenset(chance.choice(((6,), (5, 6), ()))),
        wet_after_dry=chance.uniform(0.05, 0.25),
        wet_after_wet=chance.uniform(0.3, 0.6),
        breakdown=chance.uniform(0.0, 0.12),
        forgets=chance.uniform(0.0, 0.06),
        places=chance.randint(10, 30),
    )
    days: list[DayLog] = []
    out, warm, coming, wet, drift = house.supers, 0, 0, False, 1.0
    while len(days) < 200 and (out or warm or coming):
        day = FIRST + timedelta(days=len(days))
        wet = chance.random() < (house.wet_after_wet if wet else house.wet_after_dry)
        drift = 1 + 0.7 * (drift - 1) + chance.gauss(0, 0.05)
        off = day.weekday() in house.days_off
        log, through = _worked(house, day, warm, drift) if warm and not off else (None, 0)
        warm += coming - through
        room = house.places * ON_A_PALLET - warm
        coming = 0
        if not off and not wet and out:
            coming = min(out, max(0, room), round(house.truck * chance.uniform(0.6, 1.3)))
            out -= coming
        made = log or DayLog(day, 0, 0, 0)
        days.append(DayLog(day, coming, through, made.minutes, made.good, made.gaps))
    return MadeSeason(house.supers, tuple(days), house.places)


def _worked(house: _House, day: date, warm: int, drift: float) -> tuple[DayLog, int]:
    """A day at the line: pallet after pallet until the shift is over or none is warm."""
    chance, now, through = house.chance, 0.0, 0
    broken_at = chance.uniform(0, house.work_min) if chance.random() < house.breakdown else None
    lunch, scans = chance.uniform(210, 270), []
    while warm - through > 0 and now < house.work_min:
        supers = min(ON_A_PALLET, warm - through)
        if chance.random() >= house.forgets:
            scans.append((now + chance.uniform(0, 3), supers * FRAMES))
        elif scans:  # the next pallet is scanned for both, its own time unknown
            scans[-1] = (scans[-1][0], scans[-1][1] + supers * FRAMES)
        slow = 1 - 0.01 * now / 60
        took = supers * FRAMES / (house.pace * drift * slow) * chance.lognormvariate(0, 0.09)
        if now <= lunch < now + took:
            took += chance.uniform(25, 50)
        if broken_at is not None and now <= broken_at < now + took:
            took += chance.uniform(60, 300)
        now += took
        through += supers
    found = stretches_between([(int(at * MINUTE_MS), frames) for at, frames in scans])
    return DayLog(day, 0, through, round(now), found.good, found.gaps), through


def plan_at(season: MadeSeason, half: int) -> HousePlan:
    """The plan of what is left after a day, fitted on the days up to it."""
    past = season.days[: half + 1]
    through = sum(day.through for day in past)
    here = sum(day.received for day in past) - through
    plan = HousePlan(
        past[-1].day + timedelta(days=1),
        (PlanYard("All", season.supers),),
        (PlanBox("medium", 1_000, FRAMES, 15_000),),
        supers_hundredths=100,
        through=through,
        here=here,
        places=season.places,
        supers_a_place=ON_A_PALLET,
        crew=3,
        warm_hours=36,
        clean_minutes=0,
    )
    return fitted(plan, past)[0]


def truth_after(season: MadeSeason, half: int) -> tuple[int, int]:
    """Days until the last super was through, and hours of the line, after a day."""
    rest = season.days[half + 1 :]
    worked = [at for at, day in enumerate(rest, 1) if day.through]
    return max(worked, default=0), round(sum(day.minutes for day in rest) / 60)
