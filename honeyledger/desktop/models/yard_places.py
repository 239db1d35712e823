"""Where yards stand on a plain map: coordinates laid out flat, a scale bar, no tiles, no network.

An equirectangular projection about the middle of the yards: within the reach of a truck its error
is far below the size of a dot. Yards on both sides of the date line stand side by side: the map is
cut where the widest stretch without a yard is.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

KM_A_DEGREE = 111.195  # of the mean earth radius, 6371.0 km: 2 pi r / 360
STEPS_KM = (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)
DEGREE = 10_000_000
_LEAST_KM = 1.0
_LONGEST_BAR = 0.3
_ROUND = 360 * DEGREE
_POLE = 0.01  # the least a degree of longitude is narrowed to, of what it is at the equator
DOT, FULL_DOT = 6.0, 26.0
_HERE_KM = 0.05
WINDS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")


@dataclass(frozen=True, slots=True)
class Spot:
    """A yard with its coordinates in units of 1e-7 degree.

    Args:
        is_strong: whether its mark is filled.
        share: its part of what is traced, shown by the area of its mark; None where all are alike.
        words: what is told of it beside its name.
    """

    key: str
    name: str
    latitude: int
    longitude: int
    is_strong: bool = False
    share: float | None = None
    words: str = ""

    @property
    def radius(self) -> float:
        """How large its mark is: the area goes by the share, never under what can be pressed."""
        if self.share is None:
            return DOT
        return max(DOT - 1, FULL_DOT * math.sqrt(min(1.0, max(0.0, self.share))))


@dataclass(frozen=True, slots=True)
class Placed:
    """A yard at its point of the map, in pixels, and so far from the middle of all of them."""

    spot: Spot
    x: float
    y: float
    east_km: float = 0.0
    north_km: float = 0.0

    @property
    def away_km(self) -> float:
        """How far it is from the middle."""
        return math.hypot(self.east_km, self.north_km)

    @property
    def wind(self) -> int:
        """The place in `WINDS` of the way it lies from the middle; -1 in the middle itself."""
        if self.away_km < _HERE_KM:
            return -1
        return round(math.degrees(math.atan2(self.east_km, self.north_km)) / 45) % 8


@dataclass(frozen=True, slots=True)
class YardMap:
    """The yards that have coordinates, laid out, and a bar of so many kilometres."""

    placed: tuple[Placed, ...] = ()
    bar_km: float = 0.0
    bar_px: float = 0.0

    def nearest(self, x: float, y: float, within: float) -> str:
        """The key of the yard nearest to a point, "" where none is near."""

        def away(one: Placed) -> float:
            return math.hypot(one.x - x, one.y - y)

        # A small mark on a large one is the one that is meant.
        near = [one for one in self.placed if away(one) <= max(within, one.spot.radius)]
        found = min(near, key=away, default=None)
        return found.spot.key if found is not None else ""


def lay_out_yards(
    spots: Sequence[Spot], width: float, height: float, margin: float = 40
) -> YardMap:
    """Lay the yards out, north up, as large as the room lets them be."""
    if not spots or width <= 2 * margin or height <= 2 * margin:
        return YardMap()
    middle = sum(spot.latitude for spot in spots) / len(spots) / DEGREE
    narrow = max(_POLE, math.cos(math.radians(middle)))
    turned = _turned([spot.longitude for spot in spots])
    east = [longitude / DEGREE * narrow * KM_A_DEGREE for longitude in turned]
    north = [spot.latitude / DEGREE * KM_A_DEGREE for spot in spots]
    wide = max(max(east) - min(east), _LEAST_KM)
    high = max(max(north) - min(north), _LEAST_KM)
    a_km = min((width - 2 * margin) / wide, (height - 2 * margin) / high)
    mid_east, mid_north = (max(east) + min(east)) / 2, (max(north) + min(north)) / 2
    placed = tuple(
        Placed(
            spot,
            width / 2 + (x - mid_east) * a_km,
            height / 2 - (y - mid_north) * a_km,
            x - mid_east,
            y - mid_north,
        )
        for spot, x, y in zip(spots, east, north, strict=True)
    )
    fitting = [km for km in STEPS_KM if km * a_km <= width * _LONGEST_BAR]
    bar_km = fitting[-1] if fitting else STEPS_KM[0]
    return YardMap(placed, bar_km, bar_km * a_km)


def _turned(longitudes: Sequence[int]) -> list[int]:
    """Longitudes counted eastwards from the end of the widest stretch without a yard."""
    around = sorted({longitude % _ROUND for longitude in longitudes})
    gaps = [
        (after - before, after)
        for before, after in zip(around, [*around[1:], around[0] + _ROUND], strict=True)
    ]
    _, first = max(gaps)
    return [(longitude - first) % _ROUND for longitude in longitudes]
