"""What the yards gave in a season: a colony of each, against the others and earlier seasons.

A yield is what pulls came in with, so it is an estimate. Honey that was full in drums before the
house kept a ledger is no yield. Colonies are counted as they stood on record in that season.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import day_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import key_of
from honeyledger.ledger.yard_log import SUPERS_ON, noted, told
from honeyledger.services.season_books import monday_of, number_of
from honeyledger.services.season_pulls import Pull, pulls_of, yard_records
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class Gave:
    """What a yard gave in one season: estimated grams; colonies as on record then, 0 if unsaid."""

    season: int
    supers: int
    grams: int
    colonies: int

    @property
    def a_colony(self) -> int | None:
        """Grams a colony; None where nobody said how many there were."""
        return self.grams // self.colonies if self.colonies else None


@dataclass(frozen=True, slots=True)
class YardYield:
    """A yard in the season asked for, and in earlier ones, the latest first.

    Args:
        out: supers still on the hives by the books, None where nobody said how many went on.
        forage: what its bees work, by its record now.
    """

    code: str
    name: str
    now: Gave
    earlier: tuple[Gave, ...]
    out: int | None
    forage: str = ""


@dataclass(frozen=True, slots=True)
class WeekYield:
    """A week by the day its supers were pulled; `earlier` has other seasons' grams by year."""

    first: date
    supers: int
    grams: int
    earlier: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Yields:
    """All yards of a season, the best first, and its weeks; `seasons` are those with pulls.

    Args:
        in_all: all yards that were pulled, with their colonies alone.
    """

    season: int
    seasons: tuple[int, ...]
    yards: tuple[YardYield, ...]
    weeks: tuple[WeekYield, ...]
    in_all: Gave

    @property
    def not_pulled(self) -> int:
        """Yards with colonies that gave nothing yet."""
        return sum(not row.now.supers and row.now.colonies > 0 for row in self.yards)

    @property
    def middle(self) -> int | None:
        """Grams a colony of the yard in the middle, of those pulled; the lower of two."""
        found = sorted(each for row in self.yards if row.now.grams and (each := row.now.a_colony))
        return found[(len(found) - 1) // 2] if found else None


def yields(view: View, season: int, pulls: Sequence[Pull] | None = None) -> Yields:
    """What each yard gave in a season; `pulls` are all there are, where somebody has them."""
    records = yard_records(view)
    pulls = pulls_of(view, list(records)) if pulls is None else pulls
    colonies = _Colonies(view, records)
    seasons = tuple(sorted({pull.season for pull in pulls}, reverse=True))
    of_yard: dict[str, list[Pull]] = {yard: [] for yard in records}
    for pull in pulls:
        of_yard[pull.yard].append(pull)
    rows = [_yard(view, yard, records[yard], season, of_yard[yard], colonies) for yard in records]
    rows.sort(key=lambda row: (-(row.now.a_colony or 0), -row.now.grams, row.name.casefold()))
    given = [row.now for row in rows if row.now.supers]
    return Yields(
        season=season,
        seasons=seasons,
        yards=tuple(rows),
        weeks=_weeks(pulls, season),
        in_all=Gave(
            season,
            sum(one.supers for one in given),
            sum(one.grams for one in given),
            sum(one.colonies for one in given),
        ),
    )


class _Colonies:
    """How many colonies stood in a yard in a season, by the records as they were then."""

    def __init__(self, view: View, records: Mapping[str, Mapping[str, Json]]) -> None:
        self._said: dict[str, list[tuple[int, int]]] = {yard: [] for yard in records}
        written = view.entries(("register", "reverse"))
        undone = {entry.reverses for entry in written if entry.reverses}
        for entry in written:
            if entry.reverses or entry.id in undone:
                continue
            for subject, name, record in rows_of(entry, "marks"):
                if name == "record" and str(subject) in self._said:
                    year = day_of(entry.act.happened).year
                    self._said[str(subject)].append((year, number_of(record, "colonies")))

    def then(self, yard: str, season: int) -> int:
        """The last that was said up to the season's end; the first, where it began later."""
        said = self._said[yard]
        known = [colonies for year, colonies in said if year <= season]
        return known[-1] if known else said[0][1] if said else 0


def _yard(
    view: View,
    yard: str,
    record: Mapping[str, Json],
    season: int,
    pulls: Sequence[Pull],
    colonies: _Colonies,
) -> YardYield:
    def gave(year: int) -> Gave:
        of_year = [pull for pull in pulls if pull.season == year]
        supers, grams = (sum(part) for part in zip(*_counts(of_year), strict=True))
        return Gave(year, supers, grams, colonies.then(yard, year))

    now = gave(season)
    years = sorted({pull.season for pull in pulls if pull.season < season}, reverse=True)
    marks = noted(view, yard, SUPERS_ON)
    put_on = [
        int(told(mark, "count") or 0) for mark in marks if _year(told(mark, "day")) == season
    ]
    return YardYield(
        code=key_of(yard),
        name=str(record.get("name", "")),
        now=now,
        earlier=tuple(gave(year) for year in years),
        out=max(0, sum(put_on) - now.supers) if put_on else None,
        forage=str(record.get("forage", "")).strip(),
    )


def _counts(pulls: Sequence[Pull]) -> list[tuple[int, int]]:
    return [(0, 0), *((pull.supers, pull.grams) for pull in pulls)]


def _year(day: str) -> int:
    return int(day[:4]) if day else 0


def _weeks(pulls: Sequence[Pull], season: int) -> tuple[WeekYield, ...]:
    """Every week from the first to the last pull; weeks of other years stand by their number."""
    own = [pull for pull in pulls if pull.season == season]
    if not own:
        return ()
    sums: dict[date, tuple[int, int]] = {}
    for pull in own:
        supers, grams = sums.get(monday_of(pull.day), (0, 0))
        sums[monday_of(pull.day)] = supers + pull.supers, grams + pull.grams
    before: dict[int, dict[int, int]] = {}
    for pull in pulls:
        if pull.season < season:
            week = before.setdefault(pull.day.isocalendar().week, {})
            week[pull.season] = week.get(pull.season, 0) + pull.grams
    first, last = min(sums), max(sums)
    days = [date.fromordinal(at) for at in range(first.toordinal(), last.toordinal() + 1, 7)]
    return tuple(
        WeekYield(
            day,
            *sums.get(day, (0, 0)),
            tuple(sorted(before.get(day.isocalendar().week, {}).items(), reverse=True)),
        )
        for day in days
    )
