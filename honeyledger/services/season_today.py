"""The pace of one day as it happens: what went through hour by hour, against a usual hour.

It is today, or the last day on which a run was. A usual hour is that of the season's other run
days together: supers through, over the hours from their first to their last scan.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import Moment
from honeyledger.ledger.places import DRUM, class_of
from honeyledger.services.season_books import SeasonBooks, pieces_of
from honeyledger.services.season_pace import DayPace

_MINUTE_MS, _DAY_MIN = 60_000, 24 * 60


@dataclass(frozen=True, slots=True)
class HourPace:
    """An hour of the day by the house's clock: supers loaded, grams into drums.

    Args:
        is_open: whether it still goes on.
    """

    hour: int
    supers: int
    drummed_g: int
    is_open: bool = False


@dataclass(frozen=True, slots=True)
class DayHours:
    """A day by its hours; None of it where there was no run this season.

    Args:
        usual_permille: supers of a usual hour, in thousandths; 0 where no other day tells.
    """

    day: DayPace
    hours: tuple[HourPace, ...]
    usual_permille: int


def day_hours(books: SeasonBooks, days: Sequence[DayPace]) -> DayHours | None:
    """The last run day of a season, hour by hour, from its first to its last one."""
    ran = [day for day in days if day.supers > 0]
    if not ran:
        return None
    last = ran[-1]
    others = [day for day in ran[:-1] if day.minutes]
    minutes = sum(day.minutes for day in others)
    usual = sum(day.supers for day in others) * 60_000 // minutes if minutes else 0
    return DayHours(last, _hours(books, last), usual)


def _hours(books: SeasonBooks, of: DayPace) -> tuple[HourPace, ...]:
    supers: dict[int, int] = {}
    grams: dict[int, int] = {}
    for day, entry in books.of("load", "fill", "bung"):
        # A pail filled before breakfast is of no run, and says nothing of the pace.
        if day != of.day or not (entry.act.run or entry.kind == "load"):
            continue
        hour = _minute(entry.act.happened) // 60
        if entry.kind == "load":
            supers[hour] = supers.get(hour, 0) + pieces_of(entry)
        else:
            came = sum(row.grams for row in entry.postings if class_of(row.place) == DRUM)
            grams[hour] = grams.get(hour, 0) + max(0, came)
    found = {*supers, *grams}
    now = _minute_now(books, of.day) // 60 if of.is_open else max(found)
    return tuple(
        HourPace(hour, supers.get(hour, 0), grams.get(hour, 0), of.is_open and hour == now)
        for hour in range(min(found), max(now, max(found)) + 1)
    )


def _minute(moment: Moment) -> int:
    """Minutes since midnight by the moment's own clock."""
    return (moment.at_ms // _MINUTE_MS + moment.offset_min) % _DAY_MIN


def _minute_now(books: SeasonBooks, day: date) -> int:
    offsets = [entry.act.happened.offset_min for at, entry in books.entries if at == day]
    return (books.now_ms // _MINUTE_MS + offsets[-1]) % _DAY_MIN
