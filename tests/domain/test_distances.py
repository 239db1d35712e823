"""Distances against figures known elsewhere."""

import pytest

from honeyledger.domain.distances import Spot, great_circle_km, road_km


def _spot(north: float, east: float) -> Spot:
    return Spot(round(north * 1e7), round(east * 1e7))


@pytest.mark.parametrize(
    ("one", "other", "km"),
    [
        # A degree of a great circle on the mean sphere: 6371.0088 km * pi / 180.
        (_spot(0, 0), _spot(0, 1), 111.1950797),
        (_spot(10, 20), _spot(11, 20), 111.1950797),
        # Land's End to John o' Groats, as often given for the haversine formula: 968.9 km on a
        # sphere of 6371 km (value from memory).
        (_spot(50.0663889, -5.7147222), _spot(58.6438889, -3.07), 968.9),
        # Half round the equator, and over the date line.
        (_spot(0, 0), _spot(0, 180), 20015.1143),
        (_spot(0, 179.5), _spot(0, -179.5), 111.1950797),
        (_spot(49.4, -98.8), _spot(49.4, -98.8), 0.0),
    ],
)
def test_the_shortest_way(one: Spot, other: Spot, km: float) -> None:
    assert great_circle_km(one, other) == pytest.approx(km, abs=0.05)
    assert great_circle_km(other, one) == pytest.approx(great_circle_km(one, other))
    assert road_km(one, other) == pytest.approx(great_circle_km(one, other) * 4 / 3)
