"""Where a season's honey went between the weighed points of each run, in grams and as a share.

Of what went in: cappings by scale (wax and all), foam, spills and rinse, honey that stayed in the
wet supers where they were weighed, and what is left over as weighing difference. The last is below
nothing where more came out than the estimates had; it is the estimates' error as well as a loss.
What is usual for a house and where it gets out of hand is not judged here.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.in_run import entries_in
from honeyledger.ledger.places import DISCARDED, VESSEL, class_of
from honeyledger.ledger.run_balance import RunBalance, balance_of
from honeyledger.services.floor import RunRow, runs_of_year
from honeyledger.services.season_books import SeasonBooks
from honeyledger.services.store import View

_SPILLS = ("discard", "wash")


@dataclass(frozen=True, slots=True)
class RunLoss:
    """One run, grams. `difference_g` is what the other parts leave of the gap.

    Args:
        in_g: what went in by estimate, heel and honey poured in included.
        cappings_to_follow: whether cappings were still to be weighed as the run was signed.
        wet_g: honey in the wet supers; None where not all of them were weighed.
        dried_g: water that left what stood in the vessels.
    """

    code: str
    line: str
    day: date
    is_open: bool
    supers: int
    in_g: int
    drums_g: int
    cappings_g: int
    cappings_to_follow: bool
    foam_g: int
    spilled_g: int
    wet_g: int | None
    dried_g: int
    difference_g: int

    def share(self, grams: int) -> int | None:
        """A part of what went in, in hundredths of a percent; None of nothing."""
        return share_of(grams, self.in_g)


@dataclass(frozen=True, slots=True)
class Losses:
    """The runs of a season, oldest first, and all of its closed ones together."""

    runs: tuple[RunLoss, ...]

    @property
    def closed(self) -> tuple[RunLoss, ...]:
        """The runs whose figures stand still."""
        return tuple(run for run in self.runs if not run.is_open)

    def total(self, part: str) -> int:
        """A part over the closed runs, grams; where it is not known it counts as nothing."""
        return sum(getattr(run, part) or 0 for run in self.closed)


def share_of(grams: int, of: int) -> int | None:
    """Hundredths of a percent, to the nearest; None of nothing."""
    return (2 * grams * 10_000 + of) // (2 * of) if of > 0 else None


def losses(books: SeasonBooks) -> Losses:
    """Every run of a season."""
    found = runs_of_year(books.view, books.season, books.zone)
    spilled = _spilled(entry for _, entry in books.of(*_SPILLS))
    rows = [
        _of_run(books.view, _day(run, books.zone), run, spilled.get(run.code, 0)) for run in found
    ]
    return Losses(tuple(sorted(rows, key=lambda row: (row.day, row.code))))


def last_of(view: View, season: int, zone: str, count: int) -> tuple[RunLoss, ...]:
    """The last so many closed runs of each line in a season, oldest first.

    Only their own entries are read: who wants them looks at another season.
    """
    found: dict[str, list[RunRow]] = {}
    for run in runs_of_year(view, season, zone):
        if run.closed_ms is not None:
            found.setdefault(run.line_name, []).append(run)
    made = []
    for rows in found.values():
        for run in sorted(rows, key=lambda one: one.opened_ms)[-count:]:
            spilled = _spilled(one for one in entries_in(view, run.code) if one.kind in _SPILLS)
            made.append(_of_run(view, _day(run, zone), run, sum(spilled.values())))
    return tuple(sorted(made, key=lambda row: (row.day, row.code)))


def _day(run: RunRow, zone: str) -> date:
    return house_day(run.opened_ms, zone)


def _of_run(view: View, day: date, run: RunRow, spilled_g: int) -> RunLoss:
    balance = balance_of(view, run.code)
    wet_g = _wet(balance)
    return RunLoss(
        code=run.code,
        line=run.line_name,
        day=day,
        is_open=run.closed_ms is None,
        supers=balance.supers,
        in_g=balance.in_g,
        drums_g=balance.part_filled_g + sum(row.grams for row in balance.drums),
        cappings_g=sum(row.grams for row in balance.barrels),
        cappings_to_follow=balance.cappings_pending,
        foam_g=balance.skimmed_g,
        spilled_g=spilled_g,
        wet_g=wet_g,
        dried_g=balance.evaporated_g,
        difference_g=balance.in_g - balance.out_g - spilled_g - (wet_g or 0),
    )


def _wet(balance: RunBalance) -> int | None:
    """Honey in the wet supers, by two weighings; an empty box may weigh more than its record."""
    taken_out = balance.extracted_g
    if taken_out is None:
        return None
    return sum(row.grams for row in balance.loaded) - taken_out


def _spilled(entries: Iterable[Entry]) -> Mapping[str, int]:
    """Honey of vessels that was thrown away, foam aside, by run."""
    by_run: dict[str, int] = {}
    for entry in entries:
        if any(class_of(row.place) == VESSEL for row in entry.postings):
            grams = sum(row.grams for row in entry.postings if row.place == DISCARDED)
            by_run[entry.act.run] = by_run.get(entry.act.run, 0) + grams
    return by_run
