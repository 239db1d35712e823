"""Days by a label's interval: when supers may go on after a treatment, or honey be pulled.

The interval is what a person reads off the label where they are: no product's interval is known
here, for labels differ by country and change. Weeks are seven days; a month goes to the same day
of the month, or to its last.
"""

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import shortened

NO_INTERVAL = Sentence(
    "no-interval",
    "{text} is no interval of a label: type it as the label has it, such as 14 days, 6 weeks or "
    "2 months.",
)

CLEAR_OR_INTERVAL = Sentence(
    "clear-or-interval", "Give the day it is clear, or its label's interval: one of the two."
)

_TYPED = re.compile(
    r"([0-9]{1,4}) ?(d|days?|d[ií]as?|w|weeks?|s|semanas?|m|months?|mes(?:es)?)", re.I
)
_MOST_YEARS = 10


class Unit(Enum):
    """What an interval is counted in."""

    DAYS = "d"
    WEEKS = "w"
    MONTHS = "m"


_UNITS = {"d": Unit.DAYS, "w": Unit.WEEKS, "s": Unit.WEEKS, "m": Unit.MONTHS}
"""By the letter a word begins with, in English and in Spanish."""


@dataclass(frozen=True, slots=True)
class Interval:
    """A label's interval, as it is written there."""

    count: int
    unit: Unit


def parse_interval(text: str, *, field: str = "interval") -> Interval:
    """Read a label's interval; a number alone is none, since it might be days or weeks.

    Raises:
        Refusal: it is none, or longer than ten years.
    """
    found = _TYPED.fullmatch(" ".join(text.split()))
    if not found:
        raise Refusal(NO_INTERVAL, field=field, text=shortened(text) or "Nothing")
    interval = Interval(int(found[1]), _UNITS[found[2][0].lower()])
    days = {Unit.DAYS: 1, Unit.WEEKS: 7, Unit.MONTHS: 31}[interval.unit]
    if interval.count * days > _MOST_YEARS * 366:
        raise Refusal(NO_INTERVAL, field=field, text=shortened(text))
    return interval


def first_day(out: date, interval: Interval) -> date:
    """The first day on which supers may go on, or honey be pulled, after it came out."""
    if interval.unit is not Unit.MONTHS:
        return out + timedelta(days=interval.count * (7 if interval.unit is Unit.WEEKS else 1))
    years, month = divmod(out.month - 1 + interval.count, 12)
    year, month = out.year + years, month + 1
    return date(year, month, min(out.day, monthrange(year, month)[1]))


def clear_day(out: date | None, clear: str, interval: str) -> str:
    """The first day honey may be pulled, ISO: as it was told, or by the label's interval.

    An interval counts from the day it came out, so that nobody knows the day while it is in: "".

    Raises:
        Refusal: both are told, or the interval is none.
    """
    if not interval.strip():
        return clear
    if clear:
        raise Refusal(CLEAR_OR_INTERVAL, field="interval")
    counted = parse_interval(interval)
    return "" if out is None else first_day(out, counted).isoformat()


def last_day_in(supers_on: date, interval: Interval) -> date:
    """The last day on which it may come out if supers are to go on by a day."""
    day = supers_on
    while first_day(day, interval) > supers_on:
        day -= timedelta(days=1)
    return day
