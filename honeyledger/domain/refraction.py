"""Moisture from what a refractometer shows: refractive index, water, or Brix on either scale.

All scales go one way: to the refractive index as it was read, to that at 20 °C, to the moisture.
So a temperature is corrected alike on all of them, and never on an instrument that does it by
itself. The index is kept in millionths, so that the correction is exact. Outside a table nothing
is guessed: it is refused.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from math import log10

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.rows_between import between
from honeyledger.domain.units import format_moisture, format_number, format_temperature, rounded

NO_TEMPERATURE = Sentence(
    "no-temperature-read",
    "Say how warm the honey was on the prism, or that the instrument corrects by itself.",
)
TOO_COLD_OR_HOT = Sentence(
    "prism-too-cold-or-hot",
    "{temperature} is outside {lowest} to {highest}, where a reading can be corrected: bring "
    "honey and prism near 20 °C and read again.",
)
OFF_THE_TABLE = Sentence(
    "off-the-refraction-table",
    "{shown} is outside the table for honey, {lowest} to {highest} at 20 °C: read again, or send "
    "a sample to a laboratory.",
)

# The index at 20 °C, in ten-thousandths, of honey with 13.0, 13.2, 13.4 ... percent of water.
# Source: Chataway 1932 with the formula of Wedmore 1955, as in Bogdanov, Book of Honey, chapter 4;
# the method of the International Honey Commission carries it.
_FIRST_WATER, _STEP = 1_300, 20
_INDEXES = (
    *(15044, 15038, 15033, 15028, 15023, 15018, 15012, 15007, 15002, 14997, 14992, 14987),
    *(14982, 14976, 14971, 14966, 14961, 14956, 14951, 14946, 14940, 14935, 14930, 14925),
    *(14920, 14915, 14910, 14905, 14900, 14895, 14890, 14885, 14880, 14875, 14870, 14865),
    *(14860, 14855, 14850, 14845, 14840, 14835, 14830, 14825, 14820, 14815, 14810, 14805),
    *(14800, 14795, 14790, 14785, 14780, 14775, 14770, 14765, 14760, 14755, 14750, 14745),
    14740,
)
# Index in millionths, moisture in hundredths of a percent; the index rises.
TABLE = tuple(
    (index * 100, _FIRST_WATER + row * _STEP)
    for row, index in reversed(tuple(enumerate(_INDEXES)))
)

# Sucrose in hundredths of a percent by mass, and the index of its solution at 20 °C and 589 nm in
# millionths: the sugar trade's table of 1974, value from memory.
SUCROSE = ((7_000, 1_465_460), (7_500, 1_477_870), (8_000, 1_490_710), (8_500, 1_503_980))

# Source: Bogdanov, Book of Honey, chapter 4: 0.00023 a degree, added above 20 °C.
A_TENTH = 23
AT = 200
COLDEST, HOTTEST = 100, 400
"""Within 10 to 40 °C a reading is corrected: value from memory."""


class Scale(Enum):
    """What the instrument shows.

    Brix of honey are its solids, so water is the rest: value from memory.
    """

    INDEX = "refractive index"
    WATER = "water"
    HONEY = "Brix of honey"
    SUCROSE = "Brix of sucrose"


@dataclass(frozen=True, slots=True)
class Shown:
    """What an instrument showed.

    Args:
        value: millionths of an index, else hundredths of a percent.
        temperature: of honey and prism, tenths of a degree Celsius.
        corrects_itself: the instrument has corrected for the temperature already.
    """

    scale: Scale
    value: int
    temperature: int | None = None
    corrects_itself: bool = False


@dataclass(frozen=True, slots=True)
class Found:
    """A moisture, and how it came about.

    Args:
        moisture: hundredths of a percent.
        index: at 20 °C, millionths.
        verified: no value from memory went into it.
    """

    moisture: int
    index: int
    verified: bool


def moisture_of(shown: Shown) -> Found:
    """The moisture an instrument showed.

    Raises:
        Refusal: it has to be corrected and nobody said how warm it was, or it is off the table.
    """
    index = _as_read(shown)
    if not shown.corrects_itself:
        index = at_20(index, shown.temperature)
    moisture = between(index, TABLE)
    if moisture is None:
        raise _off(*(_index_words(one) for one in (index, TABLE[0][0], TABLE[-1][0])))
    return Found(moisture, index, shown.scale in (Scale.INDEX, Scale.WATER))


def at_20(index: int, temperature: int | None) -> int:
    """What an index read at a temperature would be at 20 °C.

    Raises:
        Refusal: the temperature is not said, or too far off to be corrected.
    """
    if temperature is None:
        raise Refusal(NO_TEMPERATURE, field="temperature")
    if not COLDEST <= temperature <= HOTTEST:
        raise Refusal(
            TOO_COLD_OR_HOT,
            field="temperature",
            temperature=format_temperature(temperature),
            lowest=format_temperature(COLDEST),
            highest=format_temperature(HOTTEST),
        )
    return index + (temperature - AT) * A_TENTH


def index_of(moisture: int) -> int:
    """The index at 20 °C of honey of a moisture, millionths.

    Raises:
        Refusal: the table has no such moisture.
    """
    rows = [(water, index) for index, water in reversed(TABLE)]
    index = between(moisture, rows)
    if index is None:
        raise _off(
            format_moisture(moisture, 2), *(format_moisture(rows[end][0]) for end in (0, -1))
        )
    return index


def by_formula(index: int) -> float:
    """Percent of water by Wedmore's formula, to check the table with.

    It is printed with 1.73190, in the notation of logarithm tables: that is -1 + 0.73190.
    """
    return (-0.26810 - log10(index / 1_000_000 - 1)) / 0.002243


def _as_read(shown: Shown) -> int:
    if shown.scale is Scale.INDEX:
        return shown.value
    if shown.scale is Scale.WATER:
        return index_of(shown.value)
    if shown.scale is Scale.HONEY:
        return index_of(10_000 - shown.value)
    index = _curve(shown.value, SUCROSE)
    if index is None:
        raise _off(*(_brix_words(one) for one in (shown.value, SUCROSE[0][0], SUCROSE[-1][0])))
    return index


def _off(shown: str, lowest: str, highest: str) -> Refusal:
    return Refusal(OFF_THE_TABLE, field="value", shown=shown, lowest=lowest, highest=highest)


def _brix_words(brix: int) -> str:
    return f"{format_number(Fraction(brix, 100), 1)} Brix"


def _index_words(index: int) -> str:
    return format_number(Fraction(index, 1_000_000), 5 if index % 100 else 4)


def _curve(value: int, rows: Sequence[tuple[int, int]]) -> int | None:
    """What lies on the one curve of third degree through four rows; None outside them."""
    if not rows[0][0] <= value <= rows[-1][0]:
        return None
    total = Fraction(0)
    for at, height in rows:
        part = Fraction(height)
        for other, _ in rows:
            if other != at:
                part *= Fraction(value - other, at - other)
        total += part
    return rounded(total)
