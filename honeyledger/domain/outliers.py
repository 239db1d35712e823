"""Which values lie too far off the others, by medians, so that those off do not hide themselves.

The modified z-score of Iglewicz and Hoaglin (1993): 0.6745 times the distance from the median over
the median of all distances; beyond 3.5 a value is looked at. Both figures as the NIST/SEMATECH
e-Handbook of Statistical Methods has them, 1.3.5.17. Where more than half of the values are the
same, the mean distance times 1.253314 takes the median's place (same authors; value from memory).
"""

from collections.abc import Sequence
from dataclasses import dataclass

TOO_FAR = 3.5
LEAST = 8  # of fewer values nothing is said: common practice, no source
_OF_MEDIAN = 0.6745
_OF_MEAN = 1.253314


@dataclass(frozen=True, slots=True)
class Middle:
    """Where values lie, and how far apart: `spread` is what one score is in their unit."""

    median: float
    spread: float

    def score(self, value: float) -> float:
        """How far off a value is; below 0 under the median."""
        return (value - self.median) / self.spread


def median(values: Sequence[float]) -> float:
    """The value in the middle; the mean of the two where they are an even number."""
    row, half = sorted(values), len(values) // 2
    return row[half] if len(row) % 2 else (row[half - 1] + row[half]) / 2


def middle_of(values: Sequence[float]) -> Middle | None:
    """The middle of values; None where they are too few, or all the same."""
    if len(values) < LEAST:
        return None
    centre = median(values)
    off = [abs(value - centre) for value in values]
    spread = median(off) / _OF_MEDIAN or sum(off) / len(off) * _OF_MEAN
    return Middle(centre, spread) if spread else None
