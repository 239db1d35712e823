"""Where yards stand on a plain map: coordinates laid out flat, a scale bar, no tiles, no network.

An equirectangular projection about the middle of the yards: within the reach of a truck its error
is far below the size of a dot.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

KM_A_DEGREE = 111.195  # of the mean earth radius, 6371.0 km: 2 pi r / 360
STEPS_KM = (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
DEGREE = 10_000_000
_LEAST_KM = 1.0
_LONGEST_BAR = 0.3


@dataclass(frozen=True, slots=True)
class Spot:
    """A yard with its coordinates in units of 1e-7 degree."""

    key: str
    name: str
    latitude: int
    longitude: int
    is_strong: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """A yard at its point of the map, in pixels."""

    spot: Spot
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class YardMap:
    """The yards that have coordinates, laid out, and a bar of so many kilometres."""

    placed: tuple[Placed, ...] = ()
    bar_km: float = 0.0
    bar_px: float = 0.0

    def nearest(self, x: float, y: float, within: float) -> str:
        """The key of the yard nearest to a point, "" where none is near."""
        found = min(self.placed, key=lambda one: math.hypot(one.x - x, one.y - y), default=None)
        if found is None or math.hypot(found.x - x, found.y - y) > within:
            return ""
        return found.spot.key


def lay_out_yards(
    spots: Sequence[Spot], width: float, height: float, margin: float = 40
) -> YardMap:
    """Lay the yards out, north up, as large as the room lets them be."""
    if not spots or width <= 2 * margin or height <= 2 * margin:
        return YardMap()
    middle = sum(spot.latitude for spot in spots) / len(spots) / DEGREE
    narrow = math.cos(math.radians(middle))
    east = [spot.longitude / DEGREE * narrow * KM_A_DEGREE for spot in spots]
    north = [spot.latitude / DEGREE * KM_A_DEGREE for spot in spots]
    wide = max(max(east) - min(east), _LEAST_KM)
    high = max(max(north) - min(north), _LEAST_KM)
    a_km = min((width - 2 * margin) / wide, (height - 2 * margin) / high)
    mid_east, mid_north = (max(east) + min(east)) / 2, (max(north) + min(north)) / 2
    placed = tuple(
        Placed(spot, width / 2 + (x - mid_east) * a_km, height / 2 - (y - mid_north) * a_km)
        for spot, x, y in zip(spots, east, north, strict=True)
    )
    fitting = [km for km in STEPS_KM if km * a_km <= width * _LONGEST_BAR]
    bar_km = fitting[-1] if fitting else STEPS_KM[0]
    return YardMap(placed, bar_km, bar_km * a_km)
