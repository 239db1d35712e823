"""Yards laid out on a plain map."""

import math

import pytest

from honeyledger.desktop.models.yard_places import STEPS_KM, Spot, lay_out_yards

DEGREE = 10_000_000


def spot(key: str, latitude: float, longitude: float) -> Spot:
    return Spot(key, key, round(latitude * DEGREE), round(longitude * DEGREE))


SQUARE = [spot("SW", 49.0, -98.0), spot("NE", 49.5, -97.5)]


def test_north_is_up_and_east_is_right() -> None:
    south_west, north_east = lay_out_yards(SQUARE, 600, 400).placed
    assert north_east.x > south_west.x
    assert north_east.y < south_west.y
    for one in (south_west, north_east):
        assert 40 <= one.x <= 560
        assert 40 <= one.y <= 360


def test_distances_are_true_to_the_bar() -> None:
    # Great-circle distance by the haversine formula on a sphere of 6371.0 km, worked here.
    made = lay_out_yards(SQUARE, 600, 400)
    south_west, north_east = made.placed
    drawn = math.hypot(north_east.x - south_west.x, north_east.y - south_west.y)
    lat1, lat2, turn = (math.radians(degrees) for degrees in (49.0, 49.5, 0.5))
    half = math.sin((lat2 - lat1) / 2) ** 2
    half += math.cos(lat1) * math.cos(lat2) * math.sin(turn / 2) ** 2
    km = 2 * 6371.0 * math.asin(math.sqrt(half))
    assert drawn / made.bar_px * made.bar_km == pytest.approx(km, rel=0.002)
    assert made.bar_km in STEPS_KM
    assert made.bar_px <= 0.3 * 600


def test_one_yard_stands_in_the_middle_and_none_is_an_empty_map() -> None:
    (only,) = lay_out_yards(SQUARE[:1], 600, 400).placed
    assert (only.x, only.y) == (300, 200)
    assert lay_out_yards([], 600, 400).placed == ()
    assert lay_out_yards(SQUARE, 60, 400).placed == ()


def test_the_yard_nearest_to_a_point_is_found_if_it_is_near() -> None:
    made = lay_out_yards(SQUARE, 600, 400)
    at = made.placed[1]
    assert made.nearest(at.x + 5, at.y - 5, 24) == "NE"
    assert made.nearest(at.x + 50, at.y, 24) == ""
    assert lay_out_yards([], 600, 400).nearest(0, 0, 24) == ""
