"""Days as a crew types them, and how a day is shown.

Only what cannot be misread is taken: a month by its name, or the year first (ISO 8601). "4/7" is
the fourth of July to one crew and the seventh of April to the next, so it is not guessed.
"""

import re
from collections.abc import Sequence
from datetime import date, timedelta

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

from honeyledger.desktop.months import day_in_words, month_word
from honeyledger.domain import moments
from honeyledger.domain.moments import Moment, month_of

_CONTEXT = "days"
_WEEKDAYS = (
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Mon")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Tue")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Wed")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Thu")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Fri")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Sat")),
    str(QT_TRANSLATE_NOOP(_CONTEXT, "Sun")),
)

_NAMED_DAYS = 2
_MINUTE_MS = 60_000

_DAY_FIRST = re.compile(r"(\d{1,2})\.?\s*(?:de\s)?([A-Za-z]{3,10})\.?,?\s*(?:de\s)?(\d{4})?")
_MONTH_FIRST = re.compile(r"([A-Za-z]{3,10})\.?\s*(\d{1,2}),?\s*(\d{4})?")
_TODAY, _YESTERDAY = ("today", "t", "hoy", "h"), ("yesterday", "y", "ayer", "a")
_YEAR_FIRST = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")


def short_day(day: date) -> str:
    """A day of a season: "24 Jul"."""
    return f"{day.day} {month_word(day.month)}"


def format_day(day: date) -> str:
    """A day as it stands in fields and tables: "24 Jul 2026"."""
    return f"{short_day(day)} {day.year}"


def format_moment(moment: Moment) -> str:
    """A moment by its own clock: "24 Jul 2026 14:30"."""
    return day_in_words(moments.format_moment(moment))


def say_day(iso: str) -> str:
    """A day that is kept as ISO; nothing for none."""
    return format_day(date.fromisoformat(iso)) if iso else ""


def clock_time(moment: Moment) -> str:
    """The time of day by the house's clock."""
    minutes = (moment.at_ms // _MINUTE_MS + moment.offset_min) % (24 * 60)
    return f"{minutes // 60:02}:{minutes % 60:02}"


def format_span(first: date, last: date) -> str:
    """From a day to another, saying month and year once where they are the same."""
    if first == last:
        return format_day(first)
    end = format_day(last)
    if (first.year, first.month) == (last.year, last.month):
        return _span().format(first=first.day, last=end)
    if first.year == last.year:
        start = short_day(first)
        return _span().format(first=start, last=end)
    return _span().format(first=format_day(first), last=end)


def _span() -> str:
    return QCoreApplication.translate("days", "{first} to {last}")


def format_days(days: Sequence[date]) -> str:
    """A few days in their order: one, two by name, more as a span."""
    if not days:
        return ""
    first, last = days[0], days[-1]
    if len(days) == _NAMED_DAYS and (first.year, first.month) == (last.year, last.month):
        return f"{first.day}, {format_day(last)}"
    return format_span(first, last)


def day_note(day: date, today: date) -> str:
    """What a person calls a recent day: "today", "yesterday", else its weekday."""
    away = (today - day).days
    if away == 0:
        return QCoreApplication.translate("days", "today")
    if away == 1:
        return QCoreApplication.translate("days", "yesterday")
    return QCoreApplication.translate(_CONTEXT, _WEEKDAYS[day.weekday()])


def recent_days(today: date, count: int = 14) -> list[date]:
    """Today and the days before it, newest first."""
    return [today - timedelta(days=back) for back in range(count)]


def parse_day(text: str, today: date) -> date | None:
    """The day typed, this year's where no year is given; None where it could mean two things."""
    words = text.strip()
    if words.lower() in _TODAY:
        return today
    if words.lower() in _YESTERDAY:
        return today - timedelta(days=1)
    found = _YEAR_FIRST.fullmatch(words)
    if found:
        return _day(int(found[1]), int(found[2]), int(found[3]))
    found = _DAY_FIRST.fullmatch(words)
    if found:
        return _named(found[1], found[2], found[3], today)
    found = _MONTH_FIRST.fullmatch(words)
    if found:
        return _named(found[2], found[1], found[3], today)
    return None


def _named(day: str, month: str, year: str | None, today: date) -> date | None:
    at = month_of(month)
    return _day(int(year) if year else today.year, at, int(day)) if at else None


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
