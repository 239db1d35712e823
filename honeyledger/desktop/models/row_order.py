"""Which of a table's rows are meant, and in which order: pure, so that it runs beside the window.

A column orders by its own `sort_key`; one without goes by what it shows: figures by their value,
days and times as such, codes and names as people count ("drum 9" before "drum 10"). Rows without
a value come last either way, and equal ones keep the order they were given in.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from heapq import merge
from typing import Any, Generic

from honeyledger.desktop.models.rows import Column, ColumnKind, Row
from honeyledger.domain.moments import month_of
from honeyledger.domain.units import THOUSANDS

# One sort of so many rows is short; of all at once it would hold the window's thread as well.
_AT_ONCE = 4_096
_MINUS = "\u2212"
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_DAY = re.compile(r"(\d{1,2}) ([A-Za-z]{3})(?: (\d{4}))?(?:,? (\d\d):(\d\d))?\b.*")
_WHOLE_DAY = re.compile(r"(\d{1,2}) (\w{3,4}) (\d{4})(?:,? ([01]\d|2[0-3]):([0-5]\d))?")
_TIME = re.compile(r"(\d{1,2}):(\d\d)")
_PARTS = re.compile(r"(\d+)")
# A day without its year is of the year in hand, which is the newest.
_THIS_YEAR = 9999

Key = tuple[tuple[int, float, str], ...]


def is_number(text: str) -> bool:
    """Whether a text is a figure as a spreadsheet reads it."""
    return _NUMBER.fullmatch(text) is not None


def plain_number(text: str) -> str:
    """A figure without gaps and with a plain sign; any other text as it is."""
    bare = text.replace(THOUSANDS, "").replace("\u00a0", "").replace(_MINUS, "-")
    return bare if is_number(bare) else text


def day_shown(text: str) -> datetime | None:
    """The day, with its time where there is one, that a text says and nothing else."""
    found = _WHOLE_DAY.fullmatch(text)
    month = month_of(found[2]) if found else 0
    if found is None or not month:
        return None
    try:
        day = datetime(int(found[3]), month, int(found[1]))  # noqa: DTZ001 - by the house's clock
    except ValueError:
        return None
    return day.replace(hour=int(found[4]), minute=int(found[5])) if found[4] else day


def shown_key(text: str) -> Key | None:
    """What a shown text is ordered by; None where there is nothing."""
    text = text.strip()
    if not text:
        return None
    number = plain_number(text)
    if is_number(number):
        return ((0, float(number), ""),)
    found = _DAY.fullmatch(text)
    if found and (month := month_of(found[2])):
        day, _name, year, hour, minute = found.groups()
        date = (int(year or _THIS_YEAR) * 12 + month - 1) * 31 + int(day)
        return ((0, date * 1440.0 + int(hour or 0) * 60 + int(minute or 0), ""),)
    if found := _TIME.fullmatch(text):
        return ((0, int(found[1]) * 60.0 + int(found[2]), ""),)
    parts = _PARTS.split(text.casefold())
    return tuple((0, float(part), "") if part.isdigit() else (1, 0.0, part) for part in parts)


def key_of(column: Column[Row]) -> Callable[[Row], Any]:
    """What a column's rows are ordered by."""
    if column.sort_key is not None:
        return column.sort_key
    if column.kind is ColumnKind.COLOUR and column.pfund_mm is not None:
        return column.pfund_mm
    text = column.text
    return lambda row: shown_key(text(row))


def ordered(rows: Iterable[Row], column: Column[Row], *, descending: bool) -> list[Row]:
    """The rows in a column's order."""
    key = key_of(column)
    valued: list[tuple[Any, Row]] = []
    empty: list[Row] = []
    for row in rows:
        value = key(row)
        if value is None:
            empty.append(row)
        else:
            valued.append((value, row))
    pieces = [
        sorted(valued[at : at + _AT_ONCE], key=_value, reverse=descending)
        for at in range(0, len(valued), _AT_ONCE)
    ]
    whole: Iterator[tuple[Any, Row]] = merge(*pieces, key=_value, reverse=descending)
    return [row for _, row in whole] + empty


def _value(pair: tuple[Any, object]) -> Any:
    return pair[0]


@dataclass(frozen=True)
class Given(Generic[Row]):
    """The rows a table was given, with all that it shows of them as one text each."""

    rows: tuple[Row, ...]
    columns: tuple[Column[Row], ...]

    @cached_property
    def texts(self) -> list[str]:
        """What is searched; made once for a whole search, letter by letter."""
        saying = [
            say
            for column in self.columns
            for say in (_words_of(column), column.note, column.aside)
            if say is not None
        ]
        return [
            "\n".join([say(row) for say in saying]).casefold().replace(THOUSANDS, "")
            for row in self.rows
        ]

    def like(self, text: str) -> Sequence[Row]:
        """The rows that have all these words somewhere; all rows where nothing is typed."""
        words = text.casefold().replace(THOUSANDS, "").split()
        if not words:
            return self.rows
        return [
            row
            for row, said in zip(self.rows, self.texts, strict=True)
            if all(word in said for word in words)
        ]


def _words_of(column: Column[Row]) -> Callable[[Row], str]:
    if column.kind is ColumnKind.COLOUR:
        return lambda row: column.cell(row).text
    return column.text


@dataclass(frozen=True, slots=True)
class Meant:
    """Which rows are meant: those with these words, ordered by this column, "" for as given."""

    words: str = ""
    by: str = ""
    descending: bool = False

    @property
    def is_plain(self) -> bool:
        """Whether all rows are meant as they were given."""
        return not self.words.strip() and not self.by

    def turned(self, key: str) -> "Meant":
        """Ordered by a column; the second time largest first, the third time as given again.

        "" is the order they were given in.
        """
        if self.by != key:
            return Meant(self.words, key)
        return Meant(self.words) if self.descending else Meant(self.words, key, descending=True)


def meant_rows(given: Given[Row], meant: Meant) -> tuple[Row, ...]:
    """The rows that are meant, in their order."""
    rows = given.like(meant.words)
    column = next((one for one in given.columns if one.key == meant.by), None)
    if column is not None:
        rows = ordered(rows, column, descending=meant.descending)
    return tuple(rows)
