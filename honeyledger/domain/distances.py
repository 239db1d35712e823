"""How far places are apart: along the great circle, and by road as a rule of thumb.

Great circle by the haversine formula on a sphere of 6,371.0088 km, the mean radius of the WGS 84
ellipsoid (Moritz 2000, Journal of Geodesy). Roads are a third longer than that (common practice,
no source): good enough to put yards in an order, not for a driver's log.
"""

import math
from typing import NamedTuple

EARTH_KM = 6371.0088
BY_ROAD = 4 / 3
DEGREE = 10_000_000


class Spot(NamedTuple):
    """A place on the globe, in units of 1e-7 degree."""

    latitude: int
    longitude: int


def great_circle_km(one: Spot, other: Spot) -> float:
    """The shortest way between two places."""
    north, south = (math.radians(spot.latitude / DEGREE) for spot in (one, other))
    turned = math.radians((other.longitude - one.longitude) / DEGREE)
    half = math.sin((south - north) / 2) ** 2
    half += math.cos(north) * math.cos(south) * math.sin(turned / 2) ** 2
    return 2 * EARTH_KM * math.asin(min(1.0, math.sqrt(half)))


def road_km(one: Spot, other: Spot) -> float:
    """How far it is to drive, about."""
    return great_circle_km(one, other) * BY_ROAD
