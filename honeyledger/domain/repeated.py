"""Several readings of one thing: their mean, their spread, and the one that does not belong.

A reading is odd where it is further out than chance explains (Grubbs' test at 5 %, both sides)
and also further than the instrument repeats to: three readings of which two are equal would else
always have an odd one. It is shown, never left out by the program.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from honeyledger.domain.units import rounded

# For 3 readings onwards, thousandths of a standard deviation: ISO 5725-2 has such a table; these
# are computed from Student's distribution, and computed again in the test.
_FURTHEST = (1_154, 1_481, 1_715, 1_887, 2_020, 2_127, 2_215, 2_290, 2_355, 2_412, 2_462, 2_507)
FEWEST, MOST = 3, 2 + len(_FURTHEST)


@dataclass(frozen=True, slots=True)
class Repeated:
    """Readings together, in their own unit.

    Args:
        spread: standard deviation, to the nearest; 0 of fewer than two.
        odd: which one is odd, counted from 0; None where none is, or where there are fewer than
            three or more than fourteen.
        mean_without: of the others.
    """

    count: int
    mean: int
    spread: int
    lowest: int
    highest: int
    odd: int | None = None
    mean_without: int | None = None


def together(readings: Sequence[int], repeats_to: int = 0) -> Repeated:
    """What readings say together; at least one.

    Args:
        repeats_to: how far two readings of one thing by this instrument may be apart.
    """
    mean = Fraction(sum(readings), len(readings))
    variance = _variance(readings, mean)
    odd = _odd(readings, mean, variance, repeats_to)
    others = [one for at, one in enumerate(readings) if at != odd]
    return Repeated(
        count=len(readings),
        mean=rounded(mean),
        spread=(isqrt(int(4 * variance)) + 1) // 2,
        lowest=min(readings),
        highest=max(readings),
        odd=odd,
        mean_without=None if odd is None else rounded(Fraction(sum(others), len(others))),
    )


def _variance(readings: Sequence[int], mean: Fraction) -> Fraction:
    squares = sum(((one - mean) ** 2 for one in readings), Fraction(0))
    return squares / (len(readings) - 1) if len(readings) > 1 else squares


def _odd(
    readings: Sequence[int], mean: Fraction, variance: Fraction, repeats_to: int
) -> int | None:
    if not FEWEST <= len(readings) <= MOST:
        return None
    at = max(range(len(readings)), key=lambda one: abs(readings[one] - mean))
    furthest = Fraction(_FURTHEST[len(readings) - FEWEST], 1000)
    nearest = min(abs(readings[at] - one) for two, one in enumerate(readings) if two != at)
    is_far = (readings[at] - mean) ** 2 > furthest**2 * variance
    return at if is_far and nearest > repeats_to else None
