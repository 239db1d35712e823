"""What was noted of the weather, day by day: to read a season's yields by."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from honeyledger.ledger.places import YARD, place
from honeyledger.ledger.verbs.weather import WEATHER
from honeyledger.ledger.yard_log import told
from honeyledger.services.holding import name_in
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class WeatherNote:
    """One note.

    Args:
        yard: the yard's name; "" for all of them.
        high: the day's highest, tenths of a degree Celsius; None where not said.
        entry: where it was written.
    """

    day: date
    sort: str
    yard: str
    high: int | None
    note: str
    entry: int


def weather_notes(view: View, season: int) -> tuple[WeatherNote, ...]:
    """The notes of a season's days, oldest first."""
    rows = []
    for mark in view.marked(WEATHER, f"{WEATHER}/"):
        value = mark.value
        if not isinstance(value, Mapping) or told(mark, "day")[:4] != str(season):
            continue
        high, yard = value.get("high"), told(mark, "yard")
        rows.append(
            WeatherNote(
                date.fromisoformat(told(mark, "day")),
                told(mark, "sort"),
                name_in(view, place(YARD, yard), yard) if yard else "",
                high if isinstance(high, int) else None,
                told(mark, "note"),
                mark.entry,
            )
        )
    return tuple(sorted(rows, key=lambda row: (row.day, row.entry)))
