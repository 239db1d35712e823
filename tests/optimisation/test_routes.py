"""Shortest rounds against all orders, a published instance, and the driver's own way."""

import math
import random
from itertools import permutations

import pytest

from honeyledger.optimisation.routes import SolverRouter
from honeyledger.services.routing import nearest_first, round_km

# TSPLIB (Reinelt 1991), burma14: degrees and minutes as DDD.MM; its shortest round is 3323.
BURMA = (
    *((16.47, 96.10), (16.47, 94.44), (20.09, 92.54), (22.39, 93.37), (25.23, 97.24)),
    *((22.00, 96.05), (20.47, 97.02), (17.20, 96.29), (16.30, 97.38), (14.05, 98.12)),
    *((16.53, 97.38), (21.52, 95.59), (19.41, 97.13), (20.09, 94.55)),
)


def _geo(one: tuple[float, float], other: tuple[float, float]) -> float:
    """The instance's own distance: whole kilometres, pi and the radius as TSPLIB writes them."""

    def radians(text: float) -> float:
        degrees = int(text)
        return 3.141592 * (degrees + 5 * (text - degrees) / 3) / 180

    (north, east), (south, west) = ([radians(part) for part in place] for place in (one, other))
    q1, q2, q3 = math.cos(east - west), math.cos(north - south), math.cos(north + south)
    if one == other:
        return 0.0
    return int(6378.388 * math.acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1)


def test_the_published_instance() -> None:
    km = [[_geo(one, other) for other in BURMA] for one in BURMA]
    found = SolverRouter().round(km, 20)
    assert found.proved
    assert found.km == 3323
    assert sorted(found.order) == list(range(14))
    assert found.km < nearest_first(km).km


@pytest.mark.parametrize("seed", range(6))
def test_no_order_is_shorter(seed: int) -> None:
    random.seed(seed)
    spots = [(random.random(), random.random()) for _ in range(7)]
    km = [[math.dist(one, other) for other in spots] for one in spots]
    found = SolverRouter().round(km, 10)
    best = min(round_km(km, (0, *rest)) for rest in permutations(range(1, 7)))
    assert found.proved
    assert found.order[0] == 0
    assert found.km == pytest.approx(best)


def test_stops_far_apart_in_two_heaps_are_one_round() -> None:
    spots = [(0, 0), (0, 1), (1, 0), (1, 1), (50, 0), (50, 1), (51, 0), (51, 1)]
    km = [[math.dist(one, other) for other in spots] for one in spots]
    assert SolverRouter().round(km, 10).km == pytest.approx(104)


def test_few_stops_and_no_time() -> None:
    square = [[0.0, 1.0, 2.0], [1.0, 0.0, 1.5], [2.0, 1.5, 0.0]]
    assert SolverRouter().round(square, 1).proved
    km = [[_geo(one, other) for other in BURMA] for one in BURMA]
    assert SolverRouter().round(km, -1.0) == nearest_first(km)
