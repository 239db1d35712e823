"""What a printed table says between its rows, and that it says nothing outside them."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from honeyledger.domain.units import rounded


def between(value: int, rows: Sequence[tuple[int, int]]) -> int | None:
    """What lies on the straight line between two rows, rising by their first figure.

    None where the value is below the first row or above the last.
    """
    for (low, at_low), (high, at_high) in pairwise(rows):
        if low <= value <= high:
            return rounded(at_low + Fraction((at_high - at_low) * (value - low), high - low))
    return None
