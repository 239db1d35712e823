"""Timing things side by side: in turns, so that what else the machine does meets all alike."""

import gc
import time
from collections import defaultdict
from collections.abc import Callable, Mapping
from statistics import median


class Times:
    """What each thing took, turn by turn.

    Args:
        warming: how many turns come first and are not counted.
    """

    def __init__(self, warming: int = 1) -> None:
        self.warming = warming
        self._seconds: dict[str, list[float]] = defaultdict(list)

    def time(self, name: str, run: Callable[[], object]) -> None:
        """Run once, timed."""
        start = time.perf_counter()
        run()
        self._seconds[name].append(time.perf_counter() - start)

    def median(self, name: str) -> float:
        """Median seconds."""
        return median(self._counted(name))

    def ratio(self, name: str, other: str) -> float:
        """How many times as long as another it took: the median over turns, each by itself."""
        pairs = zip(self._counted(name), self._counted(other), strict=True)
        return median(mine / theirs for mine, theirs in pairs)

    def _counted(self, name: str) -> list[float]:
        return self._seconds[name][self.warming :]


def warming_of(turns: int) -> int:
    """How many turns of something long come first: none where it is only tried out."""
    return 1 if turns > 1 else 0


def in_turns(runs: Mapping[str, Callable[[], object]], turns: int, warming: int = 1) -> Times:
    """All of them, one after the other, so many turns and some to warm up before."""
    times = Times(warming)
    gc.collect()
    for _ in range(turns + times.warming):
        for name, run in runs.items():
            times.time(name, run)
    return times
