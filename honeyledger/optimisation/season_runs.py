"""Many simulated seasons at once: in as many processes as there are cores, beside the window.

Each process is a plain new Python, told over its input what to simulate and heard over its output,
as half of an audit is. Where none can be started, or few seasons are asked for, they are simulated
here. Each season has a seed of its own, so that the number of processes changes no figure.
"""

import os
import pickle
import subprocess
import sys
from collections.abc import Sequence
from contextlib import suppress
from queue import Empty, SimpleQueue
from threading import Thread
from typing import TypeAlias

from honeyledger.optimisation.house_simulation import season_of
from honeyledger.services.season_forecast import Progress, Season
from honeyledger.services.season_needs import frames_left
from honeyledger.services.season_plan import HousePlan

CORES = os.cpu_count() or 1
FROM_LOADS = 10_000
"""Below so many loads in all, a process takes longer to start than it saves."""

Heard: TypeAlias = "SimpleQueue[tuple[int, Season] | None]"
"""Seasons with their seeds as they are told; None where a process has ended."""

_APART = 1_000_003  # between the seeds of two plans' seasons
_LOOK_S = 0.1
_NO_CONSOLE = getattr(subprocess, "CREATE_NO_WINDOW", 0)
_START = (
    "import pickle, sys; sys.path[:] = pickle.load(sys.stdin.buffer); "
    "from honeyledger.optimisation.season_runs import simulate_there; simulate_there()"
)


class HouseSimulator:
    """Simulates seasons in several processes where that pays.

    Args:
        processes: how many at most.
    """

    def __init__(self, processes: int = CORES) -> None:
        self._processes = processes

    def seasons(
        self, plan: HousePlan, count: int, seed: int, progress: Progress
    ) -> Sequence[Season]:
        """So many seasons, in the order of their seeds; fewer where it was told to stop."""
        seeds = [seed * _APART + at for at in range(count)]
        loads = count * frames_left(plan) // plan.frames_a_load
        has_python = bool(sys.executable) and not getattr(sys, "frozen", False)
        if self._processes > 1 and has_python and loads >= FROM_LOADS:
            return _apart(plan, seeds, self._processes, progress)
        return _here(plan, seeds, progress)


def _here(plan: HousePlan, seeds: Sequence[int], progress: Progress) -> list[Season]:
    made: list[Season] = []
    for seed in seeds:
        if not progress(len(made), len(seeds)):
            break
        made.append(season_of(plan, seed))
    return made


def _apart(
    plan: HousePlan, seeds: Sequence[int], processes: int, progress: Progress
) -> list[Season]:
    heard: Heard = SimpleQueue()
    made: dict[int, Season] = {}
    shares = [seeds[at::processes] for at in range(processes)]
    others = [one for share in shares if (one := _begun(plan, share, heard)) is not None]
    left, go_on = len(others), True
    try:
        while left and go_on:
            left -= _listen(heard, made)
            go_on = progress(len(made), len(seeds))
    finally:
        for one in others:
            one.kill()
        for one in others:
            one.wait()
    # A process that failed by itself leaves its seasons undone: they are simulated here.
    missing = [seed for seed in seeds if seed not in made]
    if go_on and missing:
        before = len(made)
        late = _here(plan, missing, lambda done, _of: progress(before + done, len(seeds)))
        made |= dict(zip(missing, late, strict=False))
    return [made[seed] for seed in seeds if seed in made]


def _listen(heard: Heard, made: dict[int, Season]) -> int:
    """Take the next season that is told; answers 1 where a process has ended instead."""
    try:
        said = heard.get(timeout=_LOOK_S)
    except Empty:
        return 0
    if said is None:
        return 1
    made[said[0]] = said[1]
    return 0


def _begun(
    plan: HousePlan, seeds: Sequence[int], heard: Heard
) -> "subprocess.Popen[bytes] | None":
    """A process that simulates these seasons; None where there can be none."""
    if not seeds:
        return None
    try:
        process = subprocess.Popen(
            [sys.executable, "-c", _START],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            creationflags=_NO_CONSOLE,
        )
    except OSError:
        return None
    assert process.stdin
    with suppress(OSError):  # it has ended already, which is heard
        pickle.dump(sys.path, process.stdin)
        pickle.dump((plan, list(seeds)), process.stdin)
        process.stdin.close()
    Thread(target=_hear, args=(process, heard), daemon=True).start()
    return process


def _hear(process: "subprocess.Popen[bytes]", heard: Heard) -> None:
    assert process.stdout
    with suppress(EOFError, OSError, pickle.UnpicklingError), process.stdout as said:
        while True:
            heard.put(pickle.load(said))
    heard.put(None)


def simulate_there() -> None:
    """In the other process: simulate what is asked, and tell each season as it is done."""
    plan, seeds = pickle.load(sys.stdin.buffer)
    for seed in seeds:
        pickle.dump((seed, season_of(plan, seed)), sys.stdout.buffer)
        sys.stdout.buffer.flush()
