"""Moments and days: an instant with the house's own clock beside it, read strictly, shown plainly.

Nothing here knows what time it is; "now" is passed in, in milliseconds UTC.
"""

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone, tzinfo
from zoneinfo import ZoneInfo

from honeyledger.domain.refusals import Refusal, Sentence

FUTURE_MS = 10 * 60_000
"""How far ahead of now a moment may be, since two clocks in a house never agree quite."""

NO_TIME = Sentence(
    "no-time", "Nothing is typed here: type when it happened, such as 24 Jul 2026 14:30."
)
NOT_A_MOMENT = Sentence(
    "not-a-moment", "{text} is not a date and time: type it like 24 Jul 2026 14:30, or 14:30."
)
TIME_MISSING = Sentence(
    "time-missing", "{text} has no time of day: type that too, such as {day} 14:30."
)
NO_DATE = Sentence("no-date", "Nothing is typed here: type a date, such as 24 Jul 2026.")
NOT_A_DATE = Sentence("not-a-date", "{text} is not a date: type it like 24 Jul 2026.")
TWO_DATES = Sentence(
    "two-dates", "{text} can mean {day_first} or {month_first}: type it like {day_first}."
)
HOUR_TWICE = Sentence(
    "hour-twice",
    "{text} came twice, as the clocks were put back: type its time as {first} or {second}.",
)
HOUR_SKIPPED = Sentence(
    "hour-skipped",
    "{text} never was, as the clocks were put forward: type the time as it was, before or after.",
)
IN_FUTURE = Sentence(
    "in-future", "{moment} is in the future, for it is now {now}: type when it happened."
)
DAY_IN_FUTURE = Sentence(
    "day-in-future", "{day} is in the future, for today is {today}: type the day it happened."
)
NO_ZONE = Sentence(
    "no-zone", "{zone} is not a time zone: type its name, such as Europe/Berlin or America/Regina."
)

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_FULL_MONTHS = (
    ("january", "enero"),
    ("february", "febrero"),
    ("march", "marzo"),
    ("april", "abril"),
    ("may", "mayo"),
    ("june", "junio"),
    ("july", "julio"),
    ("august", "agosto"),
    ("september", "septiembre", "setiembre"),
    ("october", "octubre"),
    ("november", "noviembre"),
    ("december", "diciembre"),
)
"""As crews type them: no short name of one means another month in another language."""
_TODAY, _YESTERDAY = ("today", "hoy"), ("yesterday", "ayer")
_FIRST_YEAR, _LAST_YEAR = 1970, 2199

_CLOCK = re.compile(
    r"(?:^|[T\s])(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})(?::(?P<second>[0-9]{2})"
    r"(?:[.,](?P<ms>[0-9]{1,3})[0-9]*)?)?\s*(?P<half>[ap]m)?"
    r"\s*(?P<offset>Z|[+\-\u2212](?:[01][0-9]|2[0-3]):?[0-5][0-9])?$",
    re.IGNORECASE,
)
_YEAR_FIRST = re.compile(r"([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})")
_DOTTED = re.compile(r"([0-9]{1,2})\.\s?([0-9]{1,2})\.\s?([0-9]{4})")
_SLASHED = re.compile(r"([0-9]{1,2})[-/]([0-9]{1,2})[-/]([0-9]{4})")
_DAY_WORD = re.compile(r"([0-9]{1,2})\.?[\s-]?([A-Za-z]{3,10})\.?(?:,?[\s-]?([0-9]{4}))?")
_WORD_DAY = re.compile(r"([A-Za-z]{3,10})\.?\s?([0-9]{1,2})(?:,?\s([0-9]{4}))?")


@dataclass(frozen=True, slots=True)
class Moment:
    """An instant, with the offset and the zone of the clock it was read on.

    The offset tells the two passes of the hour apart that comes twice when clocks are put back.

    Args:
        at_ms: milliseconds since 1970, UTC. Order moments by this.
        offset_min: minutes the local clock was ahead of UTC.
        zone: name of the time zone, such as "Europe/Berlin".
    """

    at_ms: int
    offset_min: int
    zone: str


def check_zone(text: str) -> str:
    """Read the name of a time zone.

    Raises:
        Refusal: no zone of that name is known.
    """
    name = text.strip()
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError) as error:
        raise Refusal(NO_ZONE, field="zone", zone=_shown(name) or "Nothing") from error
    return name


def moment_at(at_ms: int, zone: str) -> Moment:
    """Give an instant with the offset the zone's clocks have then."""
    offset = _instant(at_ms).astimezone(ZoneInfo(zone)).utcoffset() or timedelta()
    return Moment(at_ms, offset // timedelta(minutes=1), zone)


def house_day(at_ms: int, zone: str) -> date:
    """Give the local day of an instant."""
    return day_of(moment_at(at_ms, zone))


def day_of(moment: Moment) -> date:
    """Give the local day of a moment, by its own offset."""
    return _local(moment).date()


def check_not_future(moment: Moment, now_ms: int, *, field: str = "happened") -> None:
    """Refuse what has not happened yet; `FUTURE_MS` ahead is taken for a clock that is fast.

    Raises:
        Refusal: the moment is further ahead.
    """
    if moment.at_ms > now_ms + FUTURE_MS:
        now = format_moment(moment_at(now_ms, moment.zone))
        raise Refusal(IN_FUTURE, field=field, moment=format_moment(moment), now=now)


def check_day_not_future(day: date, now_ms: int, zone: str, *, field: str = "day") -> None:
    """Refuse a day that has not begun yet by the house's clock.

    Raises:
        Refusal: it begins more than `FUTURE_MS` from now.
    """
    if day > house_day(now_ms + FUTURE_MS, zone):
        today = format_day(house_day(now_ms, zone))
        raise Refusal(DAY_IN_FUTURE, field=field, day=format_day(day), today=today)


def parse_moment(text: str, zone: str, now_ms: int, *, field: str = "happened") -> Moment:
    """Read when something happened, by the house's clock.

    A time alone is of today; "now", "today 14:30" and "yesterday 14:30" are read, and every date
    `parse_day` reads. An offset behind the time (+02:00, Z) stands above the zone's.

    Raises:
        Refusal: it is no date and time, can mean two, or never was. A moment in the future is
            read: whether it may be is for `check_not_future`.
    """
    text = " ".join(text.split())
    if not text:
        raise Refusal(NO_TIME, field=field)
    if text.lower() in ("now", "ahora"):
        return moment_at(now_ms, zone)
    clock = _CLOCK.search(text)
    day_text = text[: clock.start()].rstrip(", ") if clock else text
    today = house_day(now_ms, zone)
    day = parse_day(day_text, today, field=field) if day_text else today
    if clock is None:
        raise Refusal(TIME_MISSING, field=field, text=_shown(text), day=format_day(day))
    local = _local_time(clock, day)
    if local is None:
        raise Refusal(NOT_A_MOMENT, field=field, text=_shown(text))
    if clock["offset"]:
        return moment_at(_ms(local.replace(tzinfo=_offset(clock["offset"]))), zone)
    return _by_house_clock(local, zone, text, field)


def parse_day(text: str, today: date, *, field: str = "day") -> date:
    """Read a date: 24 Jul 2026, 2026-07-24, 24.7.2026 (day first), "today" or "yesterday".

    With the month in letters the year may be left out; it is then this year. Months and these
    words are read in Spanish, too: "24 de julio", "ayer".

    Raises:
        Refusal: it is no date, or, as 03/04/2026 can, means one of two.
    """
    text = " ".join(word for word in text.split() if word.lower() != "de")
    if not text:
        raise Refusal(NO_DATE, field=field)
    if text.lower() in _TODAY + _YESTERDAY:
        return today - timedelta(days=text.lower() in _YESTERDAY)
    slashed = _SLASHED.fullmatch(text)
    if slashed:
        first, second, year = (int(part) for part in slashed.groups())
        day_first, month_first = _date(year, second, first), _date(year, first, second)
        if day_first and month_first and day_first != month_first:
            raise Refusal(
                TWO_DATES,
                field=field,
                text=text,
                day_first=format_day(day_first),
                month_first=format_day(month_first),
            )
        day = day_first or month_first
    else:
        day = _plain_day(text, today)
    if day is None:
        raise Refusal(NOT_A_DATE, field=field, text=_shown(text))
    return day


def format_day(day: date) -> str:
    """Write a date so that no country misreads it, such as 24 Jul 2026."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def say_day(iso: str) -> str:
    """Write a day that is kept as ISO the way a person reads it; nothing for none."""
    return format_day(date.fromisoformat(iso)) if iso else ""


def format_moment(moment: Moment) -> str:
    """Write a moment by its own clock, with the offset only in an hour that came twice."""
    local = _local(moment)
    text = f"{format_day(local.date())} {local:%H:%M}"
    naive = local.replace(tzinfo=None)
    first = naive.replace(tzinfo=ZoneInfo(moment.zone))
    # Hardly any hour comes twice, and looking further takes half of a long list's time.
    if first.utcoffset() == first.replace(fold=1).utcoffset():
        return text
    return f"{text}{format_offset(moment)}" if len(_readings(naive, moment.zone)) > 1 else text


def format_iso(moment: Moment) -> str:
    """Write a moment for other programs (ISO 8601), such as 2026-07-24T14:30:00.000+02:00."""
    return _local(moment).isoformat(timespec="milliseconds")


def format_offset(moment: Moment) -> str:
    """Write a moment's offset from UTC, such as +02:00."""
    hours, minutes = divmod(abs(moment.offset_min), 60)
    return f"{'-' if moment.offset_min < 0 else '+'}{hours:02}:{minutes:02}"


def _plain_day(text: str, today: date) -> date | None:
    if found := _YEAR_FIRST.fullmatch(text):
        year, month, day = (int(part) for part in found.groups())
        return _date(year, month, day)
    if found := _DOTTED.fullmatch(text):
        day, month, year = (int(part) for part in found.groups())
        return _date(year, month, day)
    if found := _DAY_WORD.fullmatch(text):
        return _date(int(found[3] or today.year), month_of(found[2]), int(found[1]))
    if found := _WORD_DAY.fullmatch(text):
        return _date(int(found[3] or today.year), month_of(found[1]), int(found[2]))
    return None


def month_of(word: str) -> int:
    """Read a month's name, whole or shortened to three letters or more (Sept); 0 for no month."""
    low = word.lower()
    return next(
        (at for at, names in enumerate(_FULL_MONTHS, 1) for name in names if name.startswith(low)),
        0,
    )


def _date(year: int, month: int, day: int) -> date | None:
    try:
        found = date(year, month, day)
    except ValueError:
        return None
    return found if _FIRST_YEAR <= year <= _LAST_YEAR else None


def _local_time(clock: re.Match[str], day: date) -> datetime | None:
    """Put day and clock together, with no zone yet; None where no clock shows such a time."""
    hour, half = int(clock["hour"]), (clock["half"] or "").lower()
    if half:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "pm" else 0)
    second, ms = int(clock["second"] or 0), int((clock["ms"] or "").ljust(3, "0") or 0)
    if hour > 23 or int(clock["minute"]) > 59 or second > 59:
        return None
    return datetime(  # noqa: DTZ001  The caller puts the zone to it.
        day.year, day.month, day.day, hour, int(clock["minute"]), second, ms * 1000
    )


def _by_house_clock(local: datetime, zone: str, text: str, field: str) -> Moment:
    readings = _readings(local, zone)
    if not readings:
        raise Refusal(HOUR_SKIPPED, field=field, text=_shown(text))
    if len(readings) > 1:
        first, second = (f"{local:%H:%M}{format_offset(one)}" for one in readings)
        raise Refusal(HOUR_TWICE, field=field, text=_shown(text), first=first, second=second)
    return readings[0]


def _readings(local: datetime, zone: str) -> list[Moment]:
    """Give the moments at which the zone's clocks showed this: mostly one, but two or none at
    the hour when they are put back or forward.
    """
    there: tzinfo = ZoneInfo(zone)
    instants = sorted({_ms(local.replace(tzinfo=there, fold=fold)) for fold in (0, 1)})
    moments = [moment_at(at_ms, zone) for at_ms in instants]
    return [one for one in moments if _local(one).replace(tzinfo=None) == local]


def _offset(text: str) -> timezone:
    if text.upper() == "Z":
        return UTC
    sign = 1 if text[0] == "+" else -1
    return timezone(sign * timedelta(hours=int(text[1:3]), minutes=int(text[-2:])))


def _instant(at_ms: int) -> datetime:
    return _EPOCH + timedelta(milliseconds=at_ms)


def _ms(moment: datetime) -> int:
    return (moment - _EPOCH) // timedelta(milliseconds=1)


def _local(moment: Moment) -> datetime:
    there = timezone(timedelta(minutes=moment.offset_min))
    return _instant(moment.at_ms).astimezone(there)


def _shown(text: str) -> str:
    """Shorten what a refusal quotes: a scanner can send a page of text into a field."""
    return text if len(text) <= 40 else f"{text[:37]}..."
