"""How far off a plan is that was fitted on the first half of a made season: for tests and report.

`python -m tests.support.foretold FIRST LAST` prints the figures over these seeds.
"""

import sys
from collections.abc import Iterable
from dataclasses import dataclass
from statistics import fmean, median

from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.season_forecast import forecast
from tests.support.made_seasons import made_season, plan_at, truth_after


@dataclass(frozen=True, slots=True)
class Foretold:
    """Of one season: errors as parts of what truly was, and whether the bands held it."""

    days: float
    hours: float
    days_held: bool
    hours_held: bool


def foretold(seed: int, count: int = 60) -> Foretold:
    """The second half of a season, foretold by the first."""
    season = made_season(seed)
    half = season.half()
    made = forecast(
        plan_at(season, half),
        HouseSimulator(1),
        lambda _done, _of: True,
        count=count,
        changes=(),
    )
    days, hours = truth_after(season, half)
    assert made.days is not None
    assert made.hours is not None
    return Foretold(
        (made.days.middle - days) / days,
        (made.hours.middle - hours) / hours,
        made.days.low <= days <= made.days.high,
        made.hours.low <= hours <= made.hours.high,
    )


def report(rows: Iterable[Foretold]) -> str:
    """Mean and middle error, and how often a band of four in five held."""
    found = list(rows)
    lines = []
    for name in ("days", "hours"):
        errors = [getattr(one, name) for one in found]
        sizes = [abs(error) for error in errors]
        held = sum(getattr(one, f"{name}_held") for one in found)
        lines.append(
            f"{name}: error {fmean(errors):+.1%} on average, {fmean(sizes):.1%} in size, "
            f"{median(sizes):.1%} at the middle, held {held} of {len(found)}"
        )
    return "\n".join(lines)


if __name__ == "__main__":
    first, last = (int(one) for one in sys.argv[1:3])
    sys.stdout.write(report(foretold(seed) for seed in range(first, last)) + "\n")
