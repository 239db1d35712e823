"""A season's yield by crew, by forage and season by season, each against earlier ones.

A crew is the people that were said with a pull, in whatever order; supers differ in size, so a
crew's honey a super says as much of the yards it was sent to. A yard with two forages is one group
of its own: nobody weighed them apart.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from honeyledger.services.season_pulls import Pull
from honeyledger.services.season_yields import Gave, YardYield, Yields


@dataclass(frozen=True, slots=True)
class CrewYield:
    """What one crew brought in; grams are estimates.

    Args:
        name: its people by the alphabet; "" for pulls of which nobody said the crew.
        before: grams a super of earlier seasons, the latest first.
    """

    name: str
    days: int
    yards: int
    supers: int
    grams: int
    before: tuple[tuple[int, int], ...] = ()

    @property
    def a_super(self) -> int | None:
        """Grams a super; None where nobody counted any."""
        return self.grams // self.supers if self.supers else None


@dataclass(frozen=True, slots=True)
class ForageYield:
    """What the yards with one forage gave, those that were pulled; "" where nobody said which."""

    forage: str
    yards: int
    now: Gave
    earlier: tuple[Gave, ...] = ()


@dataclass(frozen=True, slots=True)
class Groups:
    """A season in other ways than yard by yard; `seasons` are all there are, the latest first."""

    crews: tuple[CrewYield, ...]
    forages: tuple[ForageYield, ...]
    seasons: tuple[Gave, ...]


def groups(given: Yields, pulls: Sequence[Pull]) -> Groups:
    """By crew, by forage, and by season, the most first."""
    return Groups(
        crews=_crews(pulls, given.season),
        forages=_forages(given.yards),
        seasons=tuple(
            one
            for year in sorted({given.season, *given.seasons}, reverse=True)
            if (one := _of_year(given.yards, year)).supers
        ),
    )


def crew_name(said: str) -> str:
    """A crew's people by the alphabet, each once."""
    names = [name.strip() for name in said.replace(";", ",").split(",")]
    people = {name.casefold(): name for name in reversed(names) if name}
    return ", ".join(people[name] for name in sorted(people))


def _crews(pulls: Sequence[Pull], season: int) -> tuple[CrewYield, ...]:
    by_crew: dict[str, list[Pull]] = {}
    for pull in pulls:
        by_crew.setdefault(crew_name(pull.crew), []).append(pull)
    rows = []
    for name, found in by_crew.items():
        own = [pull for pull in found if pull.season == season]
        if own:
            days = {pull.day for pull in own}
            yards = {pull.yard for pull in own}
            before = _before(found, season)
            rows.append(CrewYield(name, len(days), len(yards), *_sums(own), before))
    return tuple(sorted(rows, key=lambda row: (-row.grams, row.name)))


def _sums(pulls: Sequence[Pull]) -> tuple[int, int]:
    return sum(pull.supers for pull in pulls), sum(pull.grams for pull in pulls)


def _before(pulls: Sequence[Pull], season: int) -> tuple[tuple[int, int], ...]:
    years = sorted({pull.season for pull in pulls if pull.season < season}, reverse=True)
    sums = [(year, *_sums([pull for pull in pulls if pull.season == year])) for year in years]
    return tuple((year, grams // supers) for year, supers, grams in sums if supers)


def _forages(yards: Sequence[YardYield]) -> tuple[ForageYield, ...]:
    by_forage: dict[str, list[YardYield]] = {}
    for row in yards:
        if row.now.supers:
            by_forage.setdefault(row.forage, []).append(row)
    made = [
        ForageYield(
            forage,
            len(rows),
            _added([row.now for row in rows]),
            tuple(
                _of_year(rows, year)
                for year in sorted({one.season for row in rows for one in row.earlier})[::-1]
            ),
        )
        for forage, rows in by_forage.items()
    ]
    return tuple(sorted(made, key=lambda one: (-(one.now.a_colony or 0), one.forage)))


def _of_year(yards: Sequence[YardYield], year: int) -> Gave:
    given = [one for row in yards for one in (row.now, *row.earlier) if one.season == year]
    return _added([one for one in given if one.supers], year)


def _added(given: Sequence[Gave], year: int = 0) -> Gave:
    def total(of: Callable[[Gave], int]) -> int:
        return sum(of(one) for one in given)

    return Gave(
        given[0].season if given else year,
        total(lambda one: one.supers),
        total(lambda one: one.grams),
        total(lambda one: one.colonies),
    )
