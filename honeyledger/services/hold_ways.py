"""Holds as they reach many lots at once, in words: what each stands on, and by which way it comes.

One walk down a hold serves all lots; what they came through together is told once.
"""

from collections import deque
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from honeyledger.ledger.holds import Hold, open_holds, reach_of, steps_of, targets_of
from honeyledger.ledger.state import Edge
from honeyledger.services.holding import hold_sentence, sentence_by_way
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class HeldBy:
    """A hold as it reaches a lot.

    Args:
        cause: what it stands on and why.
        way: the same with the steps between; the cause alone where there are none.
    """

    cause: str
    way: str


def held_by(view: View, lots: Collection[int]) -> dict[int, tuple[HeldBy, ...]]:
    """Those of these lots that a hold reaches, each with its holds."""
    wanted = set(lots)
    found: dict[int, tuple[HeldBy, ...]] = {}
    for hold in open_holds(view):
        targets = targets_of(view, hold)
        edges = view.descent(sorted(targets)) if targets else ()
        reached = reach_of(hold, targets, edges)
        ways = _Ways(view, hold, _came_from(targets, reached, edges))
        for lot in reached & wanted:
            found[lot] = (*found.get(lot, ()), ways.told(lot))
    return found


def _came_from(targets: set[int], reached: set[int], edges: Sequence[Edge]) -> dict[int, int]:
    """Of every lot reached the one it came from on the shortest way; 0 of what is held itself."""
    children: dict[int, list[int]] = {}
    for edge in edges:
        if edge.child in reached:
            children.setdefault(edge.parent, []).append(edge.child)
    came_from = dict.fromkeys(sorted(targets), 0)
    waiting = deque(came_from)
    while waiting:
        at = waiting.popleft()
        for child in children.get(at, ()):
            if child not in came_from:
                came_from[child] = at
                waiting.append(child)
    return came_from


class _Ways:
    """The ways of one hold, each told once for all that came out of one lot."""

    def __init__(self, view: View, hold: Hold, came_from: dict[int, int]) -> None:
        self._view, self._hold, self._came_from = view, hold, came_from
        self._cause = hold_sentence(view, hold)
        self._told: dict[int, HeldBy] = {0: HeldBy(self._cause, self._cause)}

    def told(self, lot: int) -> HeldBy:
        """The hold as it reaches a lot."""
        parent = self._came_from[lot]
        if parent not in self._told:
            ids = [parent]
            while self._came_from[ids[-1]]:
                ids.append(self._came_from[ids[-1]])
            steps = steps_of(self._view, ids[::-1], self._hold)
            way = sentence_by_way(self._view, self._hold, steps)
            self._told[parent] = HeldBy(self._cause, way)
        return self._told[parent]
