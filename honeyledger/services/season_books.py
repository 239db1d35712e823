"""A season's entries, read once and shared by all questions about it.

A season is a calendar year of the house's own days. What was reversed, and what reversed it, is
left out.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from honeyledger.domain.moments import day_of, house_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Json
from honeyledger.services.line import DAY_MS
from honeyledger.services.store import View

RUN_KINDS = ("load", "fill", "bung", "cappings", "skim", "wet out", "set aside", "stop")
_KINDS = ("receive", *RUN_KINDS, "discard", "wash", "melt", "reverse")
_EPOCH = date(1970, 1, 1)


@dataclass(frozen=True, slots=True)
class SeasonBooks:
    """One season's entries at one moment, by the day on which they happened."""

    view: View
    season: int
    now_ms: int
    zone: str
    today: date
    entries: tuple[tuple[date, Entry], ...]

    def of(self, *kinds: str) -> list[tuple[date, Entry]]:
        """The entries of these kinds that count, with their days."""
        return [(day, entry) for day, entry in self.entries if entry.kind in kinds]

    @property
    def is_now(self) -> bool:
        """Whether it is the season that is going on."""
        return self.season == self.today.year


def season_books(view: View, season: int, now_ms: int) -> SeasonBooks:
    """Read a season."""
    zone = rules_of(view).zone
    # A day early, whatever the zone: the days decide.
    since_ms = ((date(season, 1, 1) - _EPOCH).days - 1) * DAY_MS
    found = view.entries(_KINDS, since_ms)
    undone = {entry.reverses for entry in found if entry.reverses}
    entries = [
        (day_of(entry.act.happened), entry)
        for entry in found
        if not entry.reverses and entry.id not in undone
    ]
    kept = tuple(one for one in entries if one[0].year == season)
    return SeasonBooks(view, season, now_ms, zone, house_day(now_ms, zone), kept)


def monday_of(day: date) -> date:
    """The first day of its week."""
    return day - timedelta(days=day.weekday())


def said_of(entry: Entry) -> Mapping[str, Json]:
    """What a person said with an entry."""
    said = entry.facts.get("said", {})
    assert isinstance(said, Mapping)
    return said


def number_of(values: object, name: str) -> int:
    """A whole number among values, 0 where there is none."""
    value = values.get(name, 0) if isinstance(values, Mapping) else 0
    return value if isinstance(value, int) else 0


def pieces_of(entry: Entry) -> int:
    """Supers that left a pallet with an entry."""
    return -sum(int(str(count)) for _, _, count in rows_of(entry, "pieces"))
