"""How long simulated seasons of 1,200 colonies take: `python -m tests.bench.simulated [SEASONS]`.

The floor is SimPy alone: one process that waits as often as four times for each load of the
season. Seasons are simulated in one process, then in as many as there are cores.
"""

import os
import sys
import time
from collections.abc import Callable, Generator
from datetime import date
from typing import Any

import simpy

from honeyledger.optimisation.house_simulation import season_of
from honeyledger.optimisation.season_runs import CORES, HouseSimulator
from honeyledger.services.season_needs import frames_left
from honeyledger.services.season_plan import HousePlan, PlanBox, PlanYard

PLAN = HousePlan(
    date(2026, 7, 6),
    (PlanYard("All", 1_200),),
    (PlanBox("medium", 820, 9, 14_800), PlanBox("deep", 180, 9, 25_500)),
    extractors=2,
    crew=4,
)
WAITS_A_LOAD = 4
FEW = 20


def floor() -> None:
    """As many waits as four a load, and nothing else."""
    env = simpy.Environment()
    waits = WAITS_A_LOAD * frames_left(PLAN) // PLAN.frames_a_load

    def wait() -> Generator[simpy.Event, Any, None]:
        for _ in range(waits):
            yield env.timeout(1.0)

    env.process(wait())
    env.run()


def spent_s(work: Callable[[], object], clock: Callable[[], float]) -> float:
    """Seconds of some work by a clock."""
    began = clock()
    work()
    return clock() - began


def main() -> None:
    """A table: processor time of a season against the floor, and all of them by the clock."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000
    alone = spent_s(floor, time.process_time)
    each = spent_s(lambda: [season_of(PLAN, seed) for seed in range(FEW)], time.process_time) / FEW
    whole = spent_s(
        lambda: HouseSimulator().seasons(PLAN, count, 1, lambda _done, _of: True),
        time.perf_counter,
    )
    others = os.times()
    worked = others.children_user + others.children_system
    rows = (
        f"| a season of {frames_left(PLAN) // PLAN.frames_a_load} loads, processor time "
        f"| {each * 1_000:.1f} ms | {each / alone:.1f} x |",
        f"| {count} seasons on {CORES} cores, by the clock | {whole:.1f} s "
        f"| {whole / (count * each):.2f} of one core's |",
        f"| the same, processor time of the {CORES} together | {worked:.1f} s "
        f"| {worked / CORES:.1f} s each |",
    )
    sys.stdout.write("| what | took | against the floor |\n| --- | --- | --- |\n")
    sys.stdout.write("\n".join(rows) + "\n")


if __name__ == "__main__":
    main()
