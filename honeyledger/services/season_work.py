"""How the line worked, day by day: pace, minutes a load, people, and where and why it stood.

Minutes a load are those of the pallets whose end was scanned, against a machine that never waits.
A stop counts where somebody said it; a gap in the scans in which nobody can have worked is told as
a gap, for nobody knows what it was. Hours of people are those of each run's crew, from its first
scan to its last, and none where nobody said who worked.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.phrases import Phrase
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.verbs.stops import REASONS
from honeyledger.services.floor_pace import FRAMES_A_LOAD, stretches_of
from honeyledger.services.season_books import SeasonBooks, said_of
from honeyledger.services.season_pace import DayPace, crews, day_paces

MACHINE_TENTHS = 50
"""Minutes a medium radial extractor spins a load, in tenths: common practice, no source."""

_MINUTE_MS = 60_000


@dataclass(frozen=True, slots=True)
class Stood:
    """A stop that somebody said: until when, for how long, and why."""

    until_ms: int
    minutes: int
    reason: str
    why: str
    words: Phrase


@dataclass(frozen=True, slots=True)
class WorkDay:
    """A day on which something was extracted.

    Args:
        crew_minutes: of all people; None where of a run nobody said who worked.
        gap_minutes: between scans, in which nobody can have worked, and nobody said why.
    """

    pace: DayPace
    stood: tuple[Stood, ...]
    gap_minutes: int
    crew_minutes: int | None

    @property
    def tenths_a_load(self) -> int:
        """Tenths of a minute a load of a usual extractor took; 0 where nobody knows."""
        an_hour = self.pace.frames_an_hour
        return FRAMES_A_LOAD * 600 // an_hour if an_hour else 0

    @property
    def stood_minutes(self) -> int:
        """Of the stops that were said."""
        return sum(one.minutes for one in self.stood)

    @property
    def supers_an_hour_tenths(self) -> int:
        """Supers through, over the hours from the first scan to the last."""
        return self.pace.supers * 600 // self.pace.minutes if self.pace.minutes else 0

    @property
    def g_an_hour(self) -> int:
        """Honey into drums, over the same hours."""
        return self.pace.drummed_g * 60 // self.pace.minutes if self.pace.minutes else 0


@dataclass(frozen=True, slots=True)
class Waited:
    """What the line stood for: how often, and how long in all."""

    reason: str
    words: Phrase
    times: int
    minutes: int


@dataclass(frozen=True, slots=True)
class SeasonWork:
    """A season's days of work, oldest first, and what the line stood for, the longest first."""

    days: tuple[WorkDay, ...]
    waited: tuple[Waited, ...]

    @property
    def gap_minutes(self) -> int:
        """Gaps in the scans that nobody explained."""
        return sum(day.gap_minutes for day in self.days)

    @property
    def frames_an_hour(self) -> int:
        """Of the middle one of the days whose pace is known; 0 without any."""
        paces = sorted(day.pace.frames_an_hour for day in self.days if day.pace.frames_an_hour)
        return paces[(len(paces) - 1) // 2] if paces else 0


def season_work(books: SeasonBooks, days: Sequence[DayPace] = ()) -> SeasonWork:
    """How the line worked; `days` where they were asked for already."""
    people = crews(books)
    by_day: dict[date, list[Entry]] = {}
    for day, entry in books.entries:
        by_day.setdefault(day, []).append(entry)
    made = tuple(
        _work_day(books, pace, by_day.get(pace.day, ()), people)
        for pace in days or day_paces(books)
        if pace.supers > 0
    )
    said = [one for entries in by_day.values() for one in _stood(entries)]
    minutes: Counter[str] = Counter()
    for one in said:
        minutes[one.reason] += one.minutes
    times = Counter(one.reason for one in said)
    waited = tuple(
        Waited(reason, _words(reason), times[reason], in_all)
        for reason, in_all in minutes.most_common()
    )
    return SeasonWork(made, waited)


def _work_day(
    books: SeasonBooks, pace: DayPace, entries: Sequence[Entry], people: dict[str, int]
) -> WorkDay:
    by_run: dict[str, list[Entry]] = {}
    for entry in entries:
        if entry.act.run:
            by_run.setdefault(entry.act.run, []).append(entry)
    gaps_ms, crew_ms, known = 0, 0, bool(by_run)
    for run, its in by_run.items():
        gaps_ms += sum(gap.took_ms for gap in stretches_of(books.view, its).gaps)
        times = [entry.act.happened.at_ms for entry in its]
        known = known and bool(people.get(run))
        end_ms = books.now_ms if pace.is_open else max(times)
        crew_ms += people.get(run, 0) * (max(end_ms, max(times)) - min(times))
    return WorkDay(
        pace,
        tuple(_stood(entries)),
        gaps_ms // _MINUTE_MS,
        crew_ms // _MINUTE_MS if known else None,
    )


def _stood(entries: Sequence[Entry]) -> list[Stood]:
    found = []
    for entry in entries:
        if entry.kind == "stop":
            said = said_of(entry)
            reason, minutes = str(said["reason"]), int(str(said["minutes"]))
            at_ms, why = entry.act.happened.at_ms, str(said.get("why", ""))
            found.append(Stood(at_ms, minutes, reason, why, _words(reason)))
    return found


def _words(reason: str) -> Phrase:
    return REASONS.get(reason, REASONS["other"])
