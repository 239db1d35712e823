"""What a season comes to by arithmetic, and which part of the house holds it up.

Each part of the house is asked how many days it would take alone; the longest holds the season up.
What rests on a figure that cannot be is None, all else is told. The arithmetic knows no waiting:
bands over many simulated seasons are for `season_forecast`. Days are calendar days, with work days
a week and days of bad weather counted.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from honeyledger.services.season_plan import CROP, DAYS_A_WEEK, MINUTES_A_DAY, HousePlan

FURTHEST_DAYS = 366
"""An end that is further off than a year is none."""

HALF_A_DAY_MIN = 12 * 60
"""How long a warm pallet still stands until it is through: common practice, no source."""

PULLING, HOT_ROOM, UNCAPPING = "pulling", "hot room", "uncapping"
EXTRACTORS, CREW, TANKS, DRUMS = "extractors", "crew", "tanks", "drums"
PARTS = (PULLING, HOT_ROOM, UNCAPPING, EXTRACTORS, CREW, TANKS, DRUMS)
"""In the order in which honey meets them; the crew works at three of them."""

_FRAMES = (*CROP, "frames")
_HONEY = (*CROP, "honey_g", "kept_permille")
_DAY = ("shifts", "shift_tenths", "clean_minutes", "days_a_week", "stop_minutes")
_UNCAP = (*_FRAMES, "uncappers", "uncapped_an_hour")
_SPIN = (*_FRAMES, "extractors", "frames_a_load", "spin_tenths", "load_tenths")
_DRUM = (*_HONEY, "drum_g", "drum_tenths")
_NEEDS: Mapping[str, tuple[str, ...]] = {
    PULLING: (*CROP, "pulled_a_day", "weather_permille", "days_a_week"),
    HOT_ROOM: (*CROP, "places", "supers_a_place", "warm_hours"),
    UNCAPPING: (*_UNCAP, *_DAY),
    EXTRACTORS: (*_SPIN, *_DAY),
    CREW: (*_UNCAP, *_SPIN, *_DRUM, *_DAY, "crew"),
    TANKS: (*_UNCAP, *_SPIN, *_DRUM, *_DAY, "tanks", "tank_g", "settle_hours"),
    DRUMS: (*_DRUM, *_DAY),
}
"""The figures on which each part's days rest."""


@dataclass(frozen=True, slots=True)
class Needs:
    """What is left of the season comes to; None where a figure it rests on cannot be.

    Args:
        minutes: the line's work, by its slowest machine, stops in it.
        work_minutes: of all people together.
        drums_short: empty drums that are missing; None where nobody knows how many there are.
        pallets: places the hot room needs so that it does not hold up the rest.
        part_days: days each part would take, if it alone held the season up.
    """

    supers: int | None
    frames: int | None
    loads: int | None
    honey_g: int | None
    drums: int | None
    drums_short: int | None
    jars: int | None
    minutes: int | None
    work_minutes: int | None
    days: int | None
    ends: date | None
    pallets: int | None
    part_days: Mapping[str, float]
    bottleneck: str | None


def needs(plan: HousePlan, bad: Collection[str] = ()) -> Needs:
    """What the season comes to; `bad` are the figures that cannot be, by `problems`."""
    told = frozenset(bad)
    if told & {"shifts", "shift_tenths", "clean_minutes"}:
        told |= {"shifts"}

    def fine(*fields: str) -> bool:
        return not told & set(fields)

    supers = plan.left if fine(*CROP) else None
    frames = frames_left(plan) if fine(*_FRAMES) else None
    loads = -(-frames // plan.frames_a_load) if frames and fine("frames_a_load") else None
    honey_g = honey_left(plan) if fine(*_HONEY) else None
    drums = -(-honey_g // plan.drum_g) if honey_g and fine("drum_g") else None
    jars = honey_g * plan.jars_percent // 100 // plan.jar_g if honey_g and fine("jar_g") else None
    days = {part: _DAYS[part](plan) for part in PARTS if fine(*_NEEDS[part])}
    whole = len(days) == len(PARTS)
    longest = max(days.values(), default=0.0)
    ends = None
    if whole and longest <= FURTHEST_DAYS:
        ends = plan.begins + timedelta(days=max(0, -int(-longest // 1) - 1))
    slowest = [days[part] for part in (UNCAPPING, EXTRACTORS) if part in days]
    a_day = plan.open_minutes * plan.days_a_week / DAYS_A_WEEK
    return Needs(
        supers=supers,
        frames=frames,
        loads=loads,
        honey_g=honey_g,
        drums=drums,
        drums_short=None if drums is None or plan.empties < 0 else max(0, drums - plan.empties),
        jars=jars,
        minutes=round(max(slowest) * a_day) if len(slowest) == 2 else None,
        work_minutes=round(_hands_minutes(plan)) if CREW in days else None,
        days=-int(-longest // 1) if whole else None,
        ends=ends,
        pallets=_pallets(plan, longest) if whole else None,
        part_days=days,
        bottleneck=max(days, key=lambda part: days[part]) if days else None,
    )


def frames_left(plan: HousePlan) -> int:
    """Frames still to go through."""
    return plan.left * plan.frames_a_1000 // 1_000


def honey_left(plan: HousePlan) -> int:
    """Honey still to come into drums, grams."""
    return plan.left * plan.super_g * plan.kept_permille // 1_000


def _slowed(plan: HousePlan, minutes: float) -> float:
    """Calendar days of so many minutes of work: stops, cleaning and days off in them."""
    stops = plan.stops_100h_tenths / 10 * plan.stop_minutes / (100 * 60)
    return minutes * (1 + stops) / plan.open_minutes * DAYS_A_WEEK / plan.days_a_week


def _pulling_days(plan: HousePlan) -> float:
    out = max(0, plan.left - plan.here)
    fit = plan.days_a_week / DAYS_A_WEEK * (1 - plan.weather_permille / 1_000)
    return out / (plan.pulled_a_day * fit)


def _stay_days(plan: HousePlan) -> float:
    return (plan.warm_hours * 60 + HALF_A_DAY_MIN) / MINUTES_A_DAY


def _room_days(plan: HousePlan) -> float:
    return plan.left / plan.supers_a_place * _stay_days(plan) / plan.places


def _pallets(plan: HousePlan, days: float) -> int:
    return -int(-plan.left / plan.supers_a_place * _stay_days(plan) / max(days, 1.0) // 1)


def _uncap_minutes(plan: HousePlan) -> float:
    return frames_left(plan) * 60 / plan.uncapped_an_hour


def _loads(plan: HousePlan) -> int:
    return -(-frames_left(plan) // plan.frames_a_load)


def _spin_minutes(plan: HousePlan) -> float:
    return _loads(plan) * (plan.spin_tenths + plan.load_tenths) / 10


def _drum_minutes(plan: HousePlan) -> float:
    return honey_left(plan) / plan.drum_g * plan.drum_tenths / 10


def _hands_minutes(plan: HousePlan) -> float:
    loading = _loads(plan) * plan.load_tenths / 10
    return _uncap_minutes(plan) + loading + _drum_minutes(plan)


def _tank_days(plan: HousePlan) -> float:
    """A tank is filled by the line, rests, and is drawn into drums; then it is free again."""
    if not plan.settle_hours:
        return 0.0
    line = max(_uncap_minutes(plan) / plan.uncappers, _spin_minutes(plan) / plan.extractors)
    fills = honey_left(plan) / plan.tank_g
    busy = _slowed(plan, line / fills + _drum_minutes(plan) / fills) if fills else 0.0
    return fills * (busy + plan.settle_hours / 24) / plan.tanks


_DAYS: Mapping[str, Callable[[HousePlan], float]] = {
    PULLING: _pulling_days,
    HOT_ROOM: _room_days,
    UNCAPPING: lambda plan: _slowed(plan, _uncap_minutes(plan) / plan.uncappers),
    EXTRACTORS: lambda plan: _slowed(plan, _spin_minutes(plan) / plan.extractors),
    CREW: lambda plan: _slowed(plan, _hands_minutes(plan) / plan.crew),
    TANKS: _tank_days,
    DRUMS: lambda plan: _slowed(plan, _drum_minutes(plan)),
}


def frames_an_hour(frames: int, minutes: float) -> float:
    """What a machine does by the hour: 30 frames in 5 minutes are 360 frames an hour."""
    return frames * 60 / minutes
