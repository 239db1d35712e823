"""The port to whoever finds the shortest round, and the round a driver would take without one."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol


@dataclass(frozen=True, slots=True)
class Round:
    """An order of stops that begins with the first and comes back to it.

    Args:
        proved: whether no round is shorter.
    """

    order: tuple[int, ...]
    km: float
    proved: bool


class Router(Protocol):
    """Finds rounds; never answers a longer one than `nearest_first`."""

    def round(self, km: Sequence[Sequence[float]], limit_s: float) -> Round:
        """The shortest round found in the time; `km` from each stop to each other."""
        ...


def round_km(km: Sequence[Sequence[float]], order: Sequence[int]) -> float:
    """How long a round is, the way back to its first stop included."""
    return sum(km[one][other] for one, other in pairwise([*order, *order[:1]]))


def nearest_first(km: Sequence[Sequence[float]]) -> Round:
    """From the first stop always to the nearest one not seen yet."""
    order, left = [0] if km else [], set(range(1, len(km)))
    while left:
        order.append(min(left, key=lambda stop: (km[order[-1]][stop], stop)))
        left.remove(order[-1])
    return Round(tuple(order), round_km(km, order), proved=False)
