"""Moisture and colour through a season: one dot a lot, and how far a week's readings lie apart.

The latest reading of a lot counts, for the day its honey was pulled or drummed: what is read again
in winter is still July's honey.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.ledger.entry import Entry, Lot
from honeyledger.services.season_books import SeasonBooks, monday_of
from honeyledger.services.season_pulls import PULLED

PULL, DRUM = "pull", "drum"
MOISTURE, COLOUR = "moisture", "colour"


@dataclass(frozen=True, slots=True)
class SeasonReading:
    """A lot's reading: hundredths of a percent, or tenths of a Pfund millimetre.

    Args:
        kind: "pull" or "drum".
    """

    code: str
    kind: str
    day: date
    value: int
    grams: int


@dataclass(frozen=True, slots=True)
class WeekSpread:
    """The readings of a week: how many, the lowest, the middle (the lower of two), the highest."""

    first: date
    count: int
    low: int
    middle: int
    high: int


@dataclass(frozen=True, slots=True)
class ReadThrough:
    """One quantity through a season; `weeks` are of the drums, or of the pulls without any."""

    readings: tuple[SeasonReading, ...]
    weeks: tuple[WeekSpread, ...]

    def of(self, kind: str) -> tuple[SeasonReading, ...]:
        """Those of pulls, or of drums."""
        return tuple(row for row in self.readings if row.kind == kind)


def read_through(books: SeasonBooks, name: str) -> ReadThrough:
    """Every pull and drum of a season that was read, by day, then code."""
    read = [
        (lot, kind, _pulled(lot, day))
        for day, entry in books.of("receive", "fill", "bung")
        for lot in entry.lots
        if (kind := _kind(entry, lot))
    ]
    # By its name alone a reading has twenty years behind it.
    marks = books.view.marked_on(name, {lot.code for lot, _, _ in read})
    rows = [
        SeasonReading(lot.code, kind, day, value, lot.made_g)
        for lot, kind, day in read
        if lot.code in marks and isinstance(value := marks[lot.code].value, int)
    ]
    rows.sort(key=lambda row: (row.day, row.code))
    drums = [row for row in rows if row.kind == DRUM]
    return ReadThrough(tuple(rows), _weeks(drums or rows))


def _kind(entry: Entry, lot: Lot) -> str:
    if lot.kind == "S" and entry.kind == "receive":
        return PULL
    return DRUM if lot.kind == "D" else ""


def _pulled(lot: Lot, otherwise: date) -> date:
    day = lot.attributes.get(PULLED)
    return date.fromisoformat(str(day)) if day else otherwise


def _weeks(rows: Sequence[SeasonReading]) -> tuple[WeekSpread, ...]:
    by_week: dict[date, list[int]] = {}
    for row in rows:
        by_week.setdefault(monday_of(row.day), []).append(row.value)
    return tuple(
        WeekSpread(first, len(values), values[0], values[(len(values) - 1) // 2], values[-1])
        for first, found in sorted(by_week.items())
        for values in [sorted(found)]
    )
