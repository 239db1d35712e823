"""A plan's figures learnt from days that are past: pace, its spread, stops, shift, pulling.

Only days of work count, and only what was seen: a pallet whose end was scanned tells the pace, a
gap or a stop that was said tells how long the line stands. A longest day tells the shift, since a
house that has no more supers stops early. What no day tells stays as it is in the plan.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import sqrt
from statistics import fmean, stdev
from typing import Any

from honeyledger.services.floor_pace import HOUR_MS, Stretch
from honeyledger.services.season_plan import DAYS_A_WEEK, LIMITS, HousePlan

_MINUTE_MS = 60_000
_LONG_DAYS = 0.75  # of all days of work, those below the one that tells the shift
FASTER = 1.25  # than the line's pace, at the least; common practice, no source
_FEW = 4  # a weekday with less than a fourth of the busiest one's days is a day off


@dataclass(frozen=True, slots=True)
class DayLog:
    """A day that is past.

    Args:
        received, through: supers.
        minutes: from the line's first scan to its last.
        good, gaps: its stretches from scan to scan; those of the gaps tell stops.
        stood: minutes of each stop that was said.
    """

    day: date
    received: int
    through: int
    minutes: int
    good: tuple[Stretch, ...] = ()
    gaps: tuple[Stretch, ...] = ()
    stood: tuple[int, ...] = ()


def fitted(plan: HousePlan, days: Sequence[DayLog]) -> tuple[HousePlan, frozenset[str]]:
    """The plan with what the days tell, and the names of the figures they told."""
    told = {**_pace(plan, days), **_stops(days), **_shift(plan, days), **_pulling(plan, days)}
    kept: dict[str, Any] = {name: _within(name, value) for name, value in told.items()}
    return replace(plan, **kept), frozenset(kept)


def _within(name: str, value: int) -> int:
    if name not in LIMITS:
        return value
    return min(max(value, LIMITS[name].least), LIMITS[name].most)


def _pace(plan: HousePlan, days: Sequence[DayLog]) -> dict[str, int]:
    good = [one for day in days for one in day.good if one.took_ms > 0]
    frames, took_ms = sum(one.frames for one in good), sum(one.took_ms for one in good)
    if not took_ms:
        return {}
    an_hour = frames * HOUR_MS / took_ms
    told = {"uncapped_an_hour": round(an_hour / plan.uncappers), **_machines(plan, an_hour)}
    if len(good) > 2:
        # A pallet is many loads: a load is more uneven than a pallet by the root of their number.
        each = [one.took_ms / one.frames for one in good]
        loads = fmean(one.frames for one in good) / max(1, plan.frames_a_load)
        uneven = stdev(each) / fmean(each) * sqrt(max(1.0, loads))
        told["pace_percent"] = min(100, round(100 * uneven))
    return told


def _machines(plan: HousePlan, an_hour: float) -> dict[str, int]:
    """Extractors are faster than the pace that was seen: where they seem not to be, they are."""
    most_tenths = plan.extractors * plan.frames_a_load * 600 / (an_hour * FASTER)
    if plan.spin_tenths + plan.load_tenths <= most_tenths:
        return {}
    spin = max(1, min(plan.spin_tenths, int(most_tenths)))
    return {"spin_tenths": spin, "load_tenths": max(0, int(most_tenths) - spin)}


def _stops(days: Sequence[DayLog]) -> dict[str, int]:
    """Each stop that was said, and of each gap what is over the usual time of its pallet."""
    good = [one for day in days for one in day.good]
    frames, took_ms = sum(one.frames for one in good), sum(one.took_ms for one in good)
    if not frames or not took_ms:
        return {}
    usual_ms = took_ms / frames
    lost = [float(minutes) for day in days for minutes in day.stood]
    for day in days:
        lost += [
            minutes
            for gap in day.gaps
            if (minutes := (gap.took_ms - usual_ms * gap.frames) / _MINUTE_MS) >= 1
        ]
    hours = took_ms / HOUR_MS
    return {
        "stops_100h_tenths": round(1_000 * len(lost) / hours),
        "stop_minutes": round(fmean(lost)) if lost else 0,
    }


def _shift(plan: HousePlan, days: Sequence[DayLog]) -> dict[str, int]:
    minutes = sorted(day.minutes for day in days if day.through > 0 and day.minutes > 0)
    if not minutes:
        return {}
    long_day = minutes[int(_LONG_DAYS * (len(minutes) - 1))]
    whole = min(long_day + plan.clean_minutes, 24 * 60)
    return {"shift_tenths": max(1, round(whole / 6 / max(1, plan.shifts)))}


def _pulling(plan: HousePlan, days: Sequence[DayLog]) -> dict[str, int]:
    pulled = [day for day in days if day.received > 0]
    if not pulled:
        return {}
    trucks = [day.received for day in pulled]
    told = {"pulled_a_day": round(fmean(trucks)), "truck_days": len(trucks)}
    if len(trucks) > 2:
        told["truck_percent"] = min(100, round(100 * stdev(trucks) / fmean(trucks)))
    first = min(day.day for day in pulled)
    # While supers are still out a day without pulling tells as much at the end as before.
    goes_on = plan.through > 0 and plan.left > plan.here
    last = max(day.day for day in (days if goes_on else pulled))
    whole = (last - first).days + 1
    if whole < DAYS_A_WEEK:
        return told
    on = _work_days(days) if whole >= 2 * DAYS_A_WEEK else _first_weeks(days)
    if on is None:
        on = frozenset(range(plan.days_a_week))
    else:
        told["days_a_week"] = len(on)
    fit = sum((first.toordinal() + at - 1) % DAYS_A_WEEK in on for at in range(whole))
    out = sum(day.day.weekday() in on for day in pulled)
    # The first day is one on which something came in, so it says nothing of the others.
    told["weather_permille"] = round(1_000 * (1 - (out - 1) / (fit - 1))) if fit > 1 else 0
    told["weather_days"] = fit
    return told


def _work_days(days: Sequence[DayLog]) -> frozenset[int]:
    """The weekdays on which something is done, by more than two weeks of them."""
    worked = Counter(day.day.weekday() for day in days if day.received or day.through)
    most = max(worked.values())
    return frozenset(weekday for weekday, times in worked.items() if times * _FEW >= most)


def _first_weeks(days: Sequence[DayLog]) -> frozenset[int] | None:
    """Work days by less: off are the week's last, if warm supers stood then and nobody came."""
    by_day = {day.day: day for day in days}
    idle, worked = set(), set()
    warm = cooler = 0  # supers that stand for two days, and for one
    at, last = min(by_day), max(by_day)
    while at <= last:
        day = by_day.get(at, DayLog(at, 0, 0, 0))
        if day.received or day.through:
            worked.add(at.weekday())
        elif warm > 0:
            idle.add(at.weekday())
        warm, cooler = warm + cooler - day.through, day.received
        at += timedelta(days=1)
    off = 0
    while DAYS_A_WEEK - 1 - off in idle - worked:
        off += 1
    is_known = off or DAYS_A_WEEK - 1 in worked
    return frozenset(range(DAYS_A_WEEK - off)) if is_known else None
