"""Measures: typed text into whole units, whole units into text, and exact sharing out.

Stored are integers: grams, hundredths of a percent, tenths of a Pfund millimetre, tenths of a
degree Celsius. No binary fraction is used on the way in, so nothing is lost in reading.
"""

import math
import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from honeyledger.domain.refusals import BrokenRule, Sentence

MassUnit = Literal["kg", "lb", "g"]
DegreeUnit = Literal["C", "F"]

NO_NUMBER = Sentence("no-number", "Nothing is typed here: type {what}, such as {example}.")
NOT_A_NUMBER = Sentence(
    "not-a-number", "{text} is not {what}: type it in digits, such as {example}."
)
TWO_MEANINGS = Sentence(
    "two-meanings", "{text} can mean {small} or {large}: type {as_decimal} or {as_whole}."
)
BELOW_ZERO = Sentence("below-zero", "{text} is below zero: type {what} without a sign.")
OUT_OF_RANGE = Sentence(
    "out-of-range", "{text} cannot be {what}: type a figure from {lowest} to {highest}."
)
NOT_WHOLE = Sentence("not-whole", "{text} is not a whole number: type {what}, such as {example}.")

# Exact by definition of the international avoirdupois pound: 453.59237 g.
GRAMS_A_POUND = Fraction(45_359_237, 100_000)
# No honey house holds a million tonnes; more is a slip, and must not overflow a 64-bit column.
MOST_G = 10**12
MOST_COUNT = 10**9

_GRAMS = {"kg": Fraction(1000), "lb": GRAMS_A_POUND, "g": Fraction(1)}
THOUSANDS = "\u202f"
"""Narrow no-break space: reads as a gap in a column of figures and never breaks a line."""
_MINUS = "\u2212"

_SPACES = " \u00a0\u2009\u202f'\u2019"
# Thousands set apart by blanks or apostrophes, then at most one decimal sign.
_SPACED = re.compile(f"([0-9]{{1,3}}(?:[{_SPACES}][0-9]{{3}})+)(?:[.,]([0-9]+))?")
_PLAIN = re.compile(r"([0-9]*)(?:[.,]([0-9]*))?")
# Thousands set apart by one sign, decimals by the other: 1.234,5 or 1,234.5.
_MIXED = re.compile(r"([0-9]{1,3}(?:([.,])[0-9]{3})+)(?:(?!\2)[.,]([0-9]+))?")
_EITHER = re.compile(r"([1-9][0-9]{0,2})([.,])([0-9]{3})")


def largest_remainder(total: int, weights: Sequence[int | Fraction]) -> list[int]:
    """Share out a whole total in proportion to the weights, in whole parts that sum to it exactly.

    Each part is the exact share rounded down; what is left goes, one each, to the largest
    remainders, the first of equal ones first. So the same question always has the same answer.

    Args:
        total: what is shared out; below zero shares out the negative.
        weights: none below zero, at least one above it unless the total is zero.
    """
    if total < 0:
        return [-part for part in largest_remainder(-total, weights)]
    scale = math.lcm(*(weight.denominator for weight in weights))
    whole = [weight.numerator * (scale // weight.denominator) for weight in weights]
    weight_sum = sum(whole)
    if any(weight < 0 for weight in whole) or (weight_sum == 0 and total != 0):
        raise BrokenRule(f"{total} cannot be shared out by the weights {list(weights)}")
    if weight_sum == 0:
        return [0] * len(whole)
    parts = [total * weight // weight_sum for weight in whole]
    by_remainder = sorted(
        range(len(whole)), key=lambda at: total * whole[at] % weight_sum, reverse=True
    )
    for at in by_remainder[: total - sum(parts)]:
        parts[at] += 1
    return parts
