"""Shewhart's chart of single values: limits from moving ranges, and the rules that tell a change.

Constants and rules are those of the NIST/SEMATECH e-Handbook of Statistical Methods: 6.3.2.2 for
the limits of single values (three standard deviations either way, the deviation being the mean
moving range over d2 = 1.128), 6.3.2 for the Western Electric rules. With all four rules a process
that does not change gives an alarm once in some 92 values, so an alarm says where to look first
and proves nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

D2 = 1.128  # of two values, same handbook
LEAST, MOST = 8, 20  # values that limits are made of: common practice, no source
BEYOND, TWO_OF_THREE, FOUR_OF_FIVE, EIGHT = "beyond", "two of three", "four of five", "eight"
# Rule, how many of the last how many, beyond how many standard deviations on one side.
_RULES = ((BEYOND, 1, 1, 3), (TWO_OF_THREE, 2, 3, 2), (FOUR_OF_FIVE, 4, 5, 1), (EIGHT, 8, 8, 0))


@dataclass(frozen=True, slots=True)
class Limits:
    """What is usual: the mean, and one standard deviation.

    Args:
        made_of: how many values it was reckoned from.
    """

    centre: float
    deviation: float
    made_of: int

    @property
    def low(self) -> float:
        """The lower control limit."""
        return self.centre - 3 * self.deviation

    @property
    def high(self) -> float:
        """The upper control limit."""
        return self.centre + 3 * self.deviation

    def holds(self, value: float) -> bool:
        """Whether a value lies between the two limits."""
        return self.low <= value <= self.high


@dataclass(frozen=True, slots=True)
class Alarm:
    """A rule that a value completes, and on which side: 1 above the mean, -1 below it."""

    rule: str
    side: int


def limits_of(values: Sequence[float]) -> Limits:
    """The limits of two or more values in the order in which they came."""
    moved = [abs(after - before) for before, after in pairwise(values)]
    deviation = sum(moved) / len(moved) / D2
    return Limits(sum(values) / len(values), deviation, len(values))


def usual_limits(values: Sequence[float]) -> Limits | None:
    """Limits to judge by: of the first twenty values, those out of their own limits left out once.

    None where they are too few, or do not differ.
    """
    first = values[:MOST]
    if len(first) < LEAST:
        return None
    found = limits_of(first)
    inside = [value for value in first if found.holds(value)]
    if LEAST <= len(inside) < len(first):
        found = limits_of(inside)
    return found if found.deviation > 0 else None


def alarms(values: Sequence[float], limits: Limits) -> list[Alarm | None]:
    """For each value the first rule that it completes with those before it, if any."""
    found: list[Alarm | None] = []
    for at in range(1, len(values) + 1):
        alarm = None
        for rule, many, of, deviations in _RULES:
            last = values[max(0, at - of) : at]
            for side in (1, -1):
                off = [side * (value - limits.centre) for value in last]
                out = [one > deviations * limits.deviation for one in off]
                # The value itself has to be out: it is what makes the rule true.
                if alarm is None and out[-1] and sum(out) >= many:
                    alarm = Alarm(rule, side)
        found.append(alarm)
    return found
