"""What a heat history may have done to honey: HMF grown and diastase left, as bands.

Published times disagree by half and honeys differ by more, so a band is all that can be said. It
is for choosing what to send to a laboratory; it certifies nothing and blocks nothing. Figures here
are for showing, so they are floats.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log

from honeyledger.domain.refusals import BrokenRule, Refusal, Sentence
from honeyledger.domain.units import format_temperature

TOO_HOT_TO_TELL = Sentence(
    "too-hot-to-tell",
    "{temperature} is hotter than the published tables go ({highest}): send a sample to a "
    "laboratory.",
)
NO_TIME = Sentence("no-time-warmed", "Type for how many hours it was so warm: more than none.")

_DAY, _YEAR = 24.0, 24 * 365.25
# Tenths of a degree, and the shortest and longest hours in which HMF comes to 30 mg/kg: the widest
# of three versions that disagree. White, Kushnir & Subers 1964 as in a manual (what-when-how.com),
# a Danish adviser's list and a club's sheet; all secondary sources.
_HMF = (
    (100, 25 * _YEAR, 30 * _YEAR),
    (200, 300 * _DAY, 800 * _DAY),
    (300, 60 * _DAY, 300 * _DAY),
    (400, 20 * _DAY, 50 * _DAY),
    (500, 4 * _DAY, 10 * _DAY),
    (600, 1 * _DAY, 2.5 * _DAY),
    (700, 3.0, 15.0),
    (800, 0.5, 2.0),
)
GROWN = 30.0
"""Milligrams a kilogram that the times above are for."""

# Tenths of a degree, and the hours in which half the diastase goes: White 1964, values from
# memory; those at 20, 30 and 70 °C are near those of a club's sheet (1,500 d, 200 d, 5 h).
_HALF = (
    (100, 12_600 * _DAY),
    (200, 1_480 * _DAY),
    (250, 540 * _DAY),
    (300, 200 * _DAY),
    (320, 126 * _DAY),
    (350, 78 * _DAY),
    (400, 31 * _DAY),
    (500, 5.38 * _DAY),
    (600, 1.05 * _DAY),
    (630, 16.2),
    (700, 5.3),
    (710, 4.5),
    (800, 1.2),
)
COLDEST, HOTTEST = 100, 800
MAY_BE_OFF = 10
"""A thermometer in a room or tank is a degree off the honey: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Warmed:
    """So long at so many tenths of a degree Celsius.

    Raises:
        Refusal: no time at all, or hotter than anything published.
    """

    temperature: int
    hours: float

    def __post_init__(self) -> None:
        if not self.hours > 0:
            raise Refusal(NO_TIME, field="hours")
        if self.temperature > HOTTEST:
            raise Refusal(
                TOO_HOT_TO_TELL,
                field="temperature",
                temperature=format_temperature(self.temperature),
                highest=format_temperature(HOTTEST),
            )


@dataclass(frozen=True, slots=True)
class Band:
    """Between these two, as far as the tables go."""

    least: float
    most: float


def hmf_grown(history: Sequence[Warmed]) -> Band:
    """Milligrams a kilogram that HMF may have grown by.

    Below 10 °C nothing is published: there it grew by no more than at 10 °C, or not at all.
    """
    least = most = 0.0
    for one in history:
        at = max(one.temperature, COLDEST)
        shortest = _hours(at, [(row[0], row[1]) for row in _HMF])
        longest = _hours(at, [(row[0], row[2]) for row in _HMF])
        most += GROWN * one.hours / shortest
        least += GROWN * one.hours / longest if one.temperature >= COLDEST else 0.0
    return Band(least, most)


def hmf_after(before: float, history: Sequence[Warmed]) -> Band:
    """What HMF may have come to, milligrams a kilogram."""
    grown = hmf_grown(history)
    return Band(before + grown.least, before + grown.most)


def diastase_left(before: float, history: Sequence[Warmed], may_be_off: int = MAY_BE_OFF) -> Band:
    """What may be left of a diastase number.

    Args:
        may_be_off: tenths of a degree that the thermometer may be off by.
    """
    halvings = [0.0, 0.0]
    for one in history:
        warmer = min(max(one.temperature + may_be_off, COLDEST), HOTTEST)
        colder = min(one.temperature - may_be_off, HOTTEST)
        halvings[0] += one.hours / _hours(warmer, _HALF)
        halvings[1] += one.hours / _hours(colder, _HALF) if colder >= COLDEST else 0.0
    least, most = (before * 0.5**one for one in halvings)
    return Band(least, most)


def hours_to_grow(by: float, temperature: int) -> Band:
    """In how many hours HMF grows by so many milligrams a kilogram; refused as for a history."""
    a_day = hmf_grown([Warmed(temperature, _DAY)])
    return Band(_DAY * by / a_day.most, _DAY * by / a_day.least if a_day.least else float("inf"))


def _hours(temperature: int, rows: Sequence[tuple[int, float]]) -> float:
    """Between rows the logarithm of time is taken as straight."""
    for (low, at_low), (high, at_high) in pairwise(rows):
        if low <= temperature <= high:
            part = (temperature - low) / (high - low)
            return exp(log(at_low) + part * (log(at_high) - log(at_low)))
    raise BrokenRule(f"no row for {temperature} tenths of a degree")
