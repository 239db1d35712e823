"""Hours until honey is as dry as it should be, from the readings so far: a band, or a refusal.

Readings lie about a straight line, and from how they scatter follows between which two moments
that line comes down to the target (Fieller's interval, 95 %). Where the readings do not say that
it dries at all, or the target is too far ahead of them, nothing is told. Drying slows down as
honey comes near what the air can do, so the true time is rather later than earlier.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_moisture

TOO_FEW = Sentence(
    "too-few-for-a-trend",
    "A trend needs readings at three times or more, and there are {count}: read again later.",
)
NOT_DRYING = Sentence(
    "not-drying",
    "The readings do not say that it dries: look at the air, then read the same combs again.",
)
TOO_FAR_AHEAD = Sentence(
    "too-far-ahead",
    "At this rate {target} is more than {times} times as far ahead as the readings go back: read "
    "again later.",
)
AIR_CANNOT = Sentence(
    "air-cannot",
    "The air as it is brings honey no lower than {balance}, and {target} is wanted: dry the air "
    "first.",
)

_HOUR_MS = 3_600_000
# Student's t, 5 % on both sides, thousandths, by degrees of freedom; computed, and again in the
# test. Beyond the last the last is taken, which errs on the wide side.
_T = (
    *(12_706, 4_303, 3_182, 2_776, 2_571, 2_447, 2_365, 2_306, 2_262, 2_228, 2_201, 2_179, 2_160),
    *(2_145, 2_131, 2_120, 2_110, 2_101, 2_093, 2_086),
)
READS_TO = 5
"""A refractometer's reading is good to 0.05 % at best: common practice, no source."""
TIMES_AHEAD = 3
"""No further than three times what was seen: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Dries:
    """How fast it dries and for how long yet.

    Args:
        a_day: hundredths of a percent that it loses in a day.
        soonest, likely, latest: hours from the last reading; 0 where it is there already.
    """

    a_day: float
    soonest: float
    likely: float
    latest: float


@dataclass(frozen=True, slots=True)
class _Line:
    """A straight line through readings: hours and hundredths of a percent about their means."""

    count: int
    mean_hour: float
    mean: float
    slope: float
    scatter: float
    breadth: float


def hours_to(
    target: int, readings: Sequence[tuple[int, int]], balance: int | None = None
) -> Dries:
    """How long it takes yet, from readings as milliseconds and hundredths of a percent.

    Args:
        balance: the moisture that the air as it is would bring it to, where known.

    Raises:
        Refusal: there are too few readings, they do not fall, or the target is out of reach.
    """
    hours = [at_ms / _HOUR_MS for at_ms, _ in readings]
    if len(set(hours)) < 3:
        raise Refusal(TOO_FEW, field="readings", count=len(set(hours)))
    last = max(hours)
    line = _line([one - last for one in hours], [value for _, value in readings])
    if line.mean + line.slope * -line.mean_hour <= target:
        return Dries(-24 * line.slope, 0.0, 0.0, 0.0)
    if balance is not None and balance >= target:
        shown = {"balance": format_moisture(balance), "target": format_moisture(target)}
        raise Refusal(AIR_CANNOT, field="target", **shown)
    soonest, likely, latest = _crossing(line, target)
    if likely > TIMES_AHEAD * (last - min(hours)):
        shown = {"target": format_moisture(target), "times": str(TIMES_AHEAD)}
        raise Refusal(TOO_FAR_AHEAD, field="target", **shown)
    return Dries(-24 * line.slope, max(0.0, soonest), likely, latest)


def _line(hours: Sequence[float], values: Sequence[int]) -> _Line:
    count = len(hours)
    mean_hour, mean = sum(hours) / count, sum(values) / count
    breadth = sum((one - mean_hour) ** 2 for one in hours)
    pairs = zip(hours, values, strict=True)
    slope = sum((hour - mean_hour) * (value - mean) for hour, value in pairs) / breadth
    off = sum(
        (value - mean - slope * (hour - mean_hour)) ** 2
        for hour, value in zip(hours, values, strict=True)
    )
    scatter = max(sqrt(off / (count - 2)), float(READS_TO))
    return _Line(count, mean_hour, mean, slope, scatter, breadth)


def _crossing(line: _Line, target: int) -> tuple[float, float, float]:
    """When the line comes to the target: soonest, likely, latest."""
    t = _T[min(line.count - 2, len(_T)) - 1] / 1_000
    if line.slope >= 0:
        raise Refusal(NOT_DRYING, field="readings")
    doubt = (t * line.scatter / line.slope) ** 2 / line.breadth
    if doubt >= 1:
        raise Refusal(NOT_DRYING, field="readings")
    away = (target - line.mean) / line.slope
    spread = t * line.scatter / -line.slope
    half = spread * sqrt((1 - doubt) / line.count + away**2 / line.breadth)
    low, high = ((away - half) / (1 - doubt), (away + half) / (1 - doubt))
    return line.mean_hour + low, line.mean_hour + away, line.mean_hour + high
