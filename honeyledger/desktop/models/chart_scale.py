"""Figures at an axis: round steps for values, days that begin a week or a month for time."""

import math
from dataclasses import dataclass
from datetime import date

from honeyledger.desktop.models.days import short_day

_STEPS = (1.0, 2.0, 5.0, 10.0)
_DAY_STEPS = (1, 2, 7, 14, 28)
_MOST_DIGITS = 6


@dataclass(frozen=True, slots=True)
class Tick:
    """A figure at an axis."""

    value: float
    words: str


@dataclass(frozen=True, slots=True)
class Scale:
    """From values to pixels, and the ticks between its ends."""

    low: float
    high: float
    ticks: tuple[Tick, ...]

    def share(self, value: float) -> float:
        """How far a value is from the low end to the high one, 0 to 1."""
        return (value - self.low) / (self.high - self.low)


def value_scale(low: float, high: float, most: int, *, zero: bool) -> Scale:
    """A scale that takes in both ends, with at most so many steps.

    Args:
        zero: whether it begins at nothing.
    """
    if zero:
        low, high = min(low, 0.0), max(high, 0.0)
    if high <= low:
        high = low + (abs(low) or 1.0)
    step = _step((high - low) / max(1, most))
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    decimals = _decimals(step)
    ticks = [Tick(at * step, figure(at * step, decimals)) for at in range(first, last + 1)]
    return Scale(first * step, last * step, tuple(ticks))


def _step(least: float) -> float:
    """The smallest of 1, 2 and 5 times a power of ten that is not under it."""
    power = 10.0 ** math.floor(math.log10(least))
    return next(one * power for one in _STEPS if one * power >= least * (1 - 1e-9))


def _decimals(step: float) -> int:
    return next(
        (count for count in range(_MOST_DIGITS) if math.isclose(step, round(step, count))),
        _MOST_DIGITS,
    )


def figure(value: float, decimals: int) -> str:
    """A figure of an axis, thousands parted, with a true minus sign."""
    text = f"{abs(value):,.{decimals}f}".replace(",", "\u202f")
    return f"\u2212{text}" if value < 0 and float(f"{value:.{decimals}f}") else text


def day_scale(first: float, last: float, most: int) -> Scale:
    """Days from one to another, each end with room for its dots; weeks begin on Monday."""
    low, high = math.floor(first) - 0.5, math.ceil(last) + 0.5
    step = next((one for one in _DAY_STEPS if (high - low) / one <= most), 0)
    days = [date.fromordinal(at) for at in range(math.ceil(low), math.floor(high) + 1)]
    ticks = [
        Tick(float(day.toordinal()), short_day(day))
        for day in days
        if _begins(day, step, math.ceil(low))
    ]
    return Scale(low, high, tuple(ticks))


def _begins(day: date, step: int, first: int) -> bool:
    """Whether a figure stands at a day: every so many, or Mondays, or firsts of months."""
    if step >= 7:
        return day.weekday() == 0 and day.toordinal() // 7 % (step // 7) == 0
    return (day.toordinal() - first) % step == 0 if step else day.day == 1
