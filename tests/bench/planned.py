"""How large a recall plans leave, over held-out seeds: `python -m tests.bench.planned [SEEDS]`.

Blends: 60 drums, mass, moisture and colour asked, 20 s each at most. Runs: 16 pallets into four
runs, 5 s each at most. The extra recall is what is expected above leaving every drum alone.
"""

import statistics
import sys
from collections.abc import Sequence

from honeyledger.optimisation.plans import SolverPlanner
from honeyledger.services.planning import (
    Runs,
    Wanted,
    expected_recall_g,
    first_in_blend,
    first_in_runs,
)
from tests.support.parcels import drums, pallets

FIRST_SEED = 1_000
"""Seeds from here on were not looked at while the model was made."""
WANTED = Wanted(3_800_000, 4_300_000, 1780, None, 100, 650)


def blends(seeds: Sequence[int]) -> tuple[list[float], list[float]]:
    """The recall against oldest first, and the proved gaps."""
    against, gaps = [], []
    for seed in seeds:
        some = drums(seed, 60)
        by_age = first_in_blend(some, WANTED)
        found = SolverPlanner().blend(some, WANTED, 20.0, lambda *_: True)
        if by_age is None or found is None:
            continue
        stays = float(expected_recall_g([one] for one in some))
        against.append((found.expected_g - stays) / (by_age.expected_g - stays))
        gaps.append(found.gap if found.gap is not None else 1.0)
    return against, gaps


def runs(seeds: Sequence[int]) -> tuple[list[float], list[float]]:
    """The recall against oldest first, and the proved gaps."""
    against, gaps = [], []
    for seed in seeds:
        some = pallets(seed, 16, 8)
        asked = Runs(int(sum(one.grams for one in some) / 4 * 1.15), 4)
        found = SolverPlanner().runs(some, asked, 5.0, lambda *_: True)
        assert found is not None
        against.append(found.expected_g / first_in_runs(some, asked).expected_g)
        gaps.append(found.gap if found.gap is not None else 1.0)
    return against, gaps


def told(what: str, against: Sequence[float], gaps: Sequence[float]) -> str:
    """A row of Markdown: median and spread."""
    low, median, high = (
        (min(against), against[0], max(against))
        if len(against) < 2
        else (min(against), statistics.median(against), max(against))
    )
    within = sum(gap < 0.02 for gap in gaps)
    return (
        f"| {what} | {len(against)} | {median:.2f} | {low:.2f} to {high:.2f} "
        f"| {max(gaps):.3f} | {within} |"
    )


def main() -> None:
    """Both tables."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    seeds = range(FIRST_SEED, FIRST_SEED + count)
    print("| plan | seeds | median of oldest first | from, to | largest gap | gaps under 2 % |")  # noqa: T201
    print("| --- | --- | --- | --- | --- | --- |")  # noqa: T201
    print(told("extra recall of a blend", *blends(seeds)))  # noqa: T201
    print(told("recall of runs", *runs(seeds)))  # noqa: T201


if __name__ == "__main__":
    main()
