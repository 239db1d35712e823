"""Measures: typed text into whole units, whole units into text, and exact sharing out.

Stored are integers: grams, hundredths of a percent, tenths of a Pfund millimetre, tenths of a
degree Celsius. No binary fraction is used on the way in, so nothing is lost in reading.
"""

import math
import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Literal, TypeVar

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import BrokenRule, Refusal, Sentence

MassUnit = Literal["kg", "lb", "g"]
DegreeUnit = Literal["C", "F"]
U = TypeVar("U")

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

_GRAMS: dict[MassUnit, Fraction] = {"kg": Fraction(1000), "lb": GRAMS_A_POUND, "g": Fraction(1)}
_DEGREE_UNITS: dict[str, DegreeUnit] = {"°c": "C", "c": "C", "°f": "F", "f": "F"}
_MASS_UNITS: dict[str, MassUnit] = {"kg": "kg", "lbs": "lb", "lb": "lb", "g": "g"}
THOUSANDS = "\u202f"
"""Narrow no-break space: reads as a gap in a column of figures and never breaks a line."""
_MINUS = "\u2212"
_LONGEST = 40

_SPACES = " \u00a0\u2009\u202f'\u2019"
# Thousands set apart by blanks or apostrophes, then at most one decimal sign.
_SPACED = re.compile(f"([1-9][0-9]{{0,2}}(?:[{_SPACES}][0-9]{{3}})+)(?:[.,]([0-9]+))?")
_PLAIN = re.compile(r"([0-9]*)(?:[.,]([0-9]*))?")
# Thousands set apart by one sign, decimals by the other: 1.234,5 or 1,234.5.
_MIXED = re.compile(r"([1-9][0-9]{0,2}([.,])[0-9]{3}(?:\2[0-9]{3})*)(?:(?!\2)[.,]([0-9]+))?")
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
    scale = math.lcm(*[weight.denominator for weight in weights])
    if scale == 1:
        whole = [weight.numerator for weight in weights]
    else:
        whole = [weight.numerator * (scale // weight.denominator) for weight in weights]
    weight_sum = sum(whole)
    if min(whole, default=0) < 0 or (weight_sum == 0 and total != 0):
        raise BrokenRule(f"{total} cannot be shared out by the weights {list(weights)}")
    if weight_sum == 0:
        return [0] * len(whole)
    shared = [divmod(total * weight, weight_sum) for weight in whole]
    parts = [part for part, _ in shared]
    left = [remainder for _, remainder in shared]
    by_remainder = sorted(range(len(whole)), key=left.__getitem__, reverse=True)
    for at in by_remainder[: total - sum(parts)]:
        parts[at] += 1
    return parts


def parse_mass_g(text: str, unit: MassUnit = "kg", *, field: str = "mass") -> int:
    """Read a weight in the unit given, or in the one typed behind it, to the nearest gram.

    Raises:
        Refusal: it is no weight, is below zero, or can mean a thousand times as much: one
            point or comma with three digits behind it and one to three before, no zero first.
    """
    return _mass(text, unit, 1, field)


def parse_mean_net_mg(text: str, *, field: str = "mean_net") -> int:
    """Read the mean net of some jars, in grams unless a unit is typed, to the nearest milligram.

    Raises:
        Refusal: as `parse_mass_g`.
    """
    return _mass(text, "g", 1000, field)


def _mass(text: str, unit: MassUnit, parts: int, field: str) -> int:
    """Read a weight into whole parts of a gram."""
    what, example = "a weight", f"12.5 {unit}"
    number, typed = _split_unit(text, _MASS_UNITS)
    unit = typed or unit
    either = _EITHER.fullmatch(number)
    if either:
        raise Refusal(
            TWO_MEANINGS,
            field=field,
            text=shortened(text),
            small=_small_reading(either, unit),
            large=f"{either[1]}{either[3]} {unit}",
            as_decimal=f"{number}0",
            as_whole=f"{either[1]}{either[3]}",
        )
    value = _number(text, number, what, example, field)
    mass_g = rounded(value * _GRAMS[unit] * parts)
    if mass_g > MOST_G * parts:
        most = format_mass(MOST_G, unit, 0)
        raise Refusal(
            OUT_OF_RANGE, field=field, text=shortened(text), what=what, lowest="0", highest=most
        )
    return mass_g


def parse_count(text: str, what: str = "a count", *, least: int = 0, field: str = "count") -> int:
    """Read a whole number of things; blanks between thousands are fine, points and commas not.

    Raises:
        Refusal: it is not a whole number, or below the least that makes sense.
    """
    digits = text.strip()
    if not digits:
        raise Refusal(NO_NUMBER, field=field, what=what, example="24")
    if re.fullmatch(f"[1-9][0-9]{{0,2}}(?:[{_SPACES}][0-9]{{3}})+", digits):
        digits = re.sub(f"[{_SPACES}]", "", digits)
    if not re.fullmatch("[0-9]{1,30}", digits):
        raise Refusal(NOT_WHOLE, field=field, text=shortened(text), what=what, example="24")
    if not least <= int(digits) <= MOST_COUNT:
        highest = format_number(MOST_COUNT)
        raise Refusal(
            OUT_OF_RANGE,
            field=field,
            text=shortened(text),
            what=what,
            lowest=least,
            highest=highest,
        )
    return int(digits)


def parse_percent(text: str, what: str = "a percentage", *, field: str = "percent") -> int:
    """Read a percentage from 0 to 100 into hundredths of a percent, the nearest.

    Raises:
        Refusal: it is no number, or not from 0 to 100.
    """
    number, _ = _split_unit(text, {"%": "%"})
    value = _number(text, number, what, "17.8 %", field)
    return _within(value * 100, (0, 100_00), ("0", "100 %"), text, what, field)


def parse_moisture(text: str, *, field: str = "moisture") -> int:
    """Read a moisture, such as 17.8 %, into hundredths of a percent.

    Raises:
        Refusal: it is no number, or not from 0 to 100.
    """
    return parse_percent(text, "a moisture", field=field)


def parse_colour(text: str, *, field: str = "colour") -> int:
    """Read a Pfund reading in millimetres, such as 34 mm, into tenths of a millimetre.

    Raises:
        Refusal: it is no number, or not from 0 to 300 mm. The scale itself ends at 140 mm
            (value from memory), but meters show more for the darkest honeys.
    """
    what = "a Pfund reading"
    number, _ = _split_unit(text, {"mm pfund": "mm", "pfund": "mm", "mm": "mm"})
    value = _number(text, number, what, "34 mm", field)
    return _within(value * 10, (0, 3000), ("0", "300 mm"), text, what, field)


def parse_temperature(text: str, unit: DegreeUnit = "C", *, field: str = "temperature") -> int:
    """Read a temperature in the unit given, or in the one typed behind it, into tenths of °C.

    Raises:
        Refusal: it is no number, or colder or hotter than any room or tank of a honey house.
    """
    what = "a temperature"
    number, typed = _split_unit(text, _DEGREE_UNITS)
    unit = typed or unit
    value = _number(text, number, what, f"35 °{unit}", field, signed=True)
    celsius = value if unit == "C" else (value - 32) * Fraction(5, 9)
    bounds = ("-50", "150 °C") if unit == "C" else ("-58", "302 °F")
    return _within(celsius * 10, (-500, 1500), bounds, text, what, field)


def parse_figure(
    text: str, what: str, example: str, *, decimals: int, bounds: tuple[int, int], field: str
) -> int:
    """Read a figure without a unit, such as 1.4900, into whole parts of so many decimals.

    Raises:
        Refusal: it is no number, or beyond the bounds, which are whole numbers.
    """
    scale = 10**decimals
    value = _number(text, text.strip(), what, example, field)
    lowest, highest = (one * scale for one in bounds)
    shown = (format_number(bounds[0]), format_number(bounds[1]))
    return _within(value * scale, (lowest, highest), shown, text, what, field)


def parse_coordinate(text: str, axis: Literal["latitude", "longitude"]) -> int:
    """Read a latitude or longitude in decimal degrees into units of 1e-7 degree.

    South and west are below zero, or end in S or W.

    Raises:
        Refusal: it is no number, or beyond the pole or the date line.
    """
    what, most = f"a {axis}", 90 if axis == "latitude" else 180
    plus, minus = ("n", "s") if axis == "latitude" else ("e", "w")
    number, typed = _split_unit(
        text, {f"°{plus}": "+", f"°{minus}": "-", plus: "+", minus: "-", "°": "+"}
    )
    value = _number(text, number, what, "52.5163", axis, signed=True)
    value = -value if typed == "-" else value
    limit = most * 10_000_000
    return _within(value * 10_000_000, (-limit, limit), (f"-{most}", f"{most}"), text, what, axis)


def format_number(value: int | Fraction, decimals: int = 0) -> str:
    """Write a number with a thin gap between thousands and a true minus sign."""
    return _written(value.numerator, value.denominator, decimals)


def _written(numerator: int, denominator: int, decimals: int) -> str:
    """In whole numbers: tables write thousands of these, and fractions take ten times as long."""
    scaled = _nearest(abs(numerator) * 10**decimals, denominator)
    whole, part = divmod(scaled, 10**decimals)
    text = f"{whole:,}".replace(",", THOUSANDS)
    if decimals:
        text += f".{part:0{decimals}}"
    return f"{_MINUS}{text}" if numerator < 0 and scaled else text


def format_mass(grams: int, unit: MassUnit = "kg", decimals: int | None = None) -> str:
    """Write grams in the house's unit: to a tenth of a kilogram or pound, or the gram."""
    if decimals is None:
        decimals = 0 if unit == "g" else 1
    one = _GRAMS[unit]
    return f"{_written(grams * one.denominator, one.numerator, decimals)} {unit}"


def format_weight(grams: int, unit: MassUnit = "kg") -> str:
    """Write grams in the house's unit, but below a kilogram in grams: 0.3 kg says too little."""
    return format_mass(grams, "g" if 0 < abs(grams) < 1000 else unit)


def format_moisture(hundredths: int, decimals: int = 1) -> str:
    """Write hundredths of a percent, such as 17.8 %."""
    return f"{format_number(Fraction(hundredths, 100), decimals)} %"


def format_colour(tenths: int) -> str:
    """Write tenths of a Pfund millimetre: a tenth is shown where there is one (8.1 is over 8)."""
    return f"{format_number(Fraction(tenths, 10), 1 if tenths % 10 else 0)} mm"


def format_temperature(tenths: int, unit: DegreeUnit = "C") -> str:
    """Write tenths of a degree Celsius in the house's unit."""
    celsius = Fraction(tenths, 10)
    degrees = celsius if unit == "C" else celsius * Fraction(9, 5) + 32
    return f"{format_number(degrees, 1)} °{unit}"


def format_share(share: float | Fraction, decimals: int = 1) -> str:
    """Write one share (1 is all). What is in at all is never shown as 0: it is "under 0.1 %"."""
    return _share_text(rounded(Fraction(share) * 100 * 10**decimals), bool(share), decimals)


def format_shares(shares: Sequence[float | Fraction], decimals: int = 1) -> list[str]:
    """Write shares that make up a whole so that the figures shown add up to 100.0 %."""
    exact = [Fraction(share) for share in shares]
    parts = largest_remainder(100 * 10**decimals if any(exact) else 0, exact)
    return [
        _share_text(part, bool(share), decimals) for part, share in zip(parts, exact, strict=True)
    ]


def _share_text(part: int, is_in: bool, decimals: int) -> str:
    if is_in and not part:
        least = format_number(Fraction(1, 10**decimals), decimals)
        return phrase("under {share} %", share=least)
    return f"{format_number(Fraction(part, 10**decimals), decimals)} %"


def _split_unit(text: str, units: Mapping[str, U]) -> tuple[str, U | None]:
    """Take the unit typed behind a number off it; longer spellings stand first in `units`."""
    number = text.strip().removeprefix("+")
    for spelling, unit in units.items():
        if number.lower().endswith(spelling):
            return number[: -len(spelling)].rstrip(), unit
    return number, None


def _number(
    text: str, number: str, what: str, example: str, field: str, *, signed: bool = False
) -> Fraction:
    """Read digits with blanks, points and commas; `text` is what a refusal quotes."""
    if not text.strip():
        raise Refusal(NO_NUMBER, field=field, what=what, example=example)
    below_zero = number.startswith(("-", _MINUS))
    value = _unsigned(number[1:].lstrip() if below_zero else number)
    if value is None:
        raise Refusal(NOT_A_NUMBER, field=field, text=shortened(text), what=what, example=example)
    if below_zero and value and not signed:
        raise Refusal(BELOW_ZERO, field=field, text=shortened(text), what=what)
    return -value if below_zero else value


def _unsigned(number: str) -> Fraction | None:
    if len(number) > _LONGEST:
        return None
    if found := _PLAIN.fullmatch(number):
        whole, part = found[1], found[2] or ""
    elif found := _SPACED.fullmatch(number):
        whole, part = re.sub(f"[{_SPACES}]", "", found[1]), found[2] or ""
    elif found := _MIXED.fullmatch(number):
        whole, part = found[1].replace(found[2], ""), found[3] or ""
    else:
        return None
    return Fraction(int(whole + part), 10 ** len(part)) if whole + part else None


def _within(
    value: Fraction,
    limits: tuple[int, int],
    shown: tuple[str, str],
    text: str,
    what: str,
    field: str,
) -> int:
    lowest, highest = shown
    if not limits[0] <= value <= limits[1]:
        raise Refusal(
            OUT_OF_RANGE,
            field=field,
            text=shortened(text),
            what=what,
            lowest=lowest,
            highest=highest,
        )
    return rounded(value)


def rounded(value: Fraction) -> int:
    """The nearest whole number, halves away from zero."""
    nearest = _nearest(abs(value.numerator), value.denominator)
    return nearest if value >= 0 else -nearest


def _nearest(numerator: int, denominator: int) -> int:
    return (2 * numerator + denominator) // (2 * denominator)


def _small_reading(either: re.Match[str], unit: MassUnit) -> str:
    if unit == "kg":
        return f"{either[1]} kg {int(either[3])} g"
    return f"{either[0]}0 {unit}"


def shortened(text: str) -> str:
    """Shorten what a refusal quotes: a scanner can send a page of text into a field."""
    text = text.strip()
    return text if len(text) <= 40 else f"{text[:37]}..."
