"""The shortest round through a few stops, as a model that HiGHS solves.

One column a pair of stops that may follow each other; each stop has two neighbours. A solution
that falls apart into rounds of their own is forbidden by the cut of Dantzig, Fulkerson and Johnson
(1954), and solved again. The answer is never longer than going to the nearest stop each time.
"""

import time
from collections.abc import Mapping, Sequence
from itertools import combinations

from honeyledger.optimisation.model import Model
from honeyledger.services.routing import Round, nearest_first, round_km

Edges = Mapping[tuple[int, int], int]


class SolverRouter:
    """The port's rounds by HiGHS."""

    def round(self, km: Sequence[Sequence[float]], limit_s: float) -> Round:
        """The order in which to drive from the first stop through all others and back."""
        by_hand = nearest_first(km)
        if len(km) <= 3:
            return Round(by_hand.order, by_hand.km, proved=True)
        found = _solved(km, limit_s)
        if found is None or round_km(km, found) > by_hand.km:
            return by_hand
        return Round(tuple(found), round_km(km, found), proved=True)


def _solved(km: Sequence[Sequence[float]], limit_s: float) -> list[int] | None:
    model, stops = Model(), range(len(km))
    edges = {pair: model.yes_or_no(km[pair[0]][pair[1]]) for pair in combinations(stops, 2)}
    for stop in stops:
        model.row({edges[pair]: 1.0 for pair in edges if stop in pair}, 2.0, 2.0)
    ends = time.monotonic() + limit_s
    while (left := ends - time.monotonic()) > 0:
        solved = model.solve(left)
        if solved.values is None or solved.stopped != "proved":
            return None
        rounds = _rounds(edges, solved.values, len(km))
        if len(rounds) == 1:
            return rounds[0]
        for part in rounds:
            inside = {edges[pair]: 1.0 for pair in combinations(sorted(part), 2)}
            model.row(inside, most=len(part) - 1.0)
    return None


def _rounds(edges: Edges, values: Sequence[float], stops: int) -> list[list[int]]:
    """The rounds that the chosen pairs make, each from its lowest stop on."""
    beside: dict[int, list[int]] = {stop: [] for stop in range(stops)}
    for (one, other), column in edges.items():
        if values[column] > 0.5:
            beside[one].append(other)
            beside[other].append(one)
    rounds, seen = [], set[int]()
    for first in range(stops):
        if first in seen:
            continue
        row, at = [first], min(beside[first])
        while at != first:
            row.append(at)
            at = next(one for one in beside[at] if one != row[-2] or beside[at].count(one) > 1)
        seen.update(row)
        rounds.append(row)
    return rounds
