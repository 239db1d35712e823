"""Timing things side by side: in turns, so that what else the machine does meets all alike."""

import gc
import time
from collections import defaultdict
from collections.abc import Callable, Mapping
from statistics import median


class Times:
    """What each thing took, turn by turn; the first turn of all is for warming up."""

    def __init__(self) -> None:
        self._seconds: dict[str, list[float]] = defaultdict(list)

    def time(self, name: str, run: Callable[[], object]) -> None:
        """Run once, timed."""
        start = time.perf_counter()
        run()
        self._seconds[name].append(time.perf_counter() - start)

    def median(self, name: str) -> float:
        """Median seconds."""
        return median(self._seconds[name][1:])

    def ratio(self, name: str, other: str) -> float:
        """How many times as long as another it took: the median over turns, each by itself."""
        pairs = zip(self._seconds[name][1:], self._seconds[other][1:], strict=True)
        return median(mine / theirs for mine, theirs in pairs)


def in_turns(runs: Mapping[str, Callable[[], object]], turns: int) -> Times:
    """All of them, one after the other, so many turns and one before."""
    times = Times()
    gc.collect()
    for _ in range(turns + 1):
        for name, run in runs.items():
            times.time(name, run)
    return times
