"""Yards laid out on a plain map."""

import math

import pytest

from honeyledger.desktop.models.yard_places import STEPS_KM, WINDS, Spot, lay_out_yards

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


def test_yards_on_both_sides_of_the_date_line_stand_side_by_side() -> None:
    """Two yards a fifth of a degree apart over the 180th meridian, on Taveuni's latitude."""
    west, east = spot("W", -16.8, 179.9), spot("E", -16.8, -179.9)
    for spots in ([west, east], [east, west]):
        made = lay_out_yards(spots, 600, 400)
        by_key = {one.spot.key: one for one in made.placed}
        assert by_key["E"].x > by_key["W"].x
        km = (by_key["E"].x - by_key["W"].x) / made.bar_px * made.bar_km
        # 0.2 degrees of longitude at 16.8 degrees south, on a sphere of 6371.0 km.
        assert km == pytest.approx(2 * math.pi * 6371.0 * 0.2 / 360 * 0.95732, rel=1e-4)


def test_yards_in_both_hemispheres_and_at_a_pole_are_laid_out() -> None:
    made = lay_out_yards([spot("north", 1.0, 30.0), spot("south", -1.0, 30.0)], 600, 400)
    north, south = made.placed
    assert north.y < south.y
    assert north.x == south.x
    assert made.bar_km == 100
    pole = lay_out_yards([spot("a", 90.0, 0.0), spot("b", 89.0, 180.0)], 600, 400)
    assert all(math.isfinite(one.x) and math.isfinite(one.y) for one in pole.placed)


def test_yards_half_the_world_apart_keep_a_bar_that_fits() -> None:
    made = lay_out_yards([spot("a", 50.0, -100.0), spot("b", -40.0, 170.0)], 600, 400)
    assert 0 < made.bar_px <= 0.3 * 600
    assert all(40 <= one.x <= 560 for one in made.placed)


def test_a_marks_area_goes_by_its_share() -> None:
    whole, quarter = Spot("a", "a", 0, 0, share=1.0), Spot("b", "b", 0, 0, share=0.25)
    assert whole.radius == pytest.approx(2 * quarter.radius)
    assert Spot("c", "c", 0, 0, share=0.0).radius == 5, "what is in reach only can be pressed too"
    assert Spot("d", "d", 0, 0).radius == 6


def test_a_small_mark_beside_a_large_one_can_be_pressed() -> None:
    large = Spot("large", "", 490_000_000, -980_000_000, share=1.0)
    small = Spot("small", "", 490_000_000, -979_990_000, share=0.01)
    far = spot("far", 49.2, -98.3)
    made = lay_out_yards([large, small, far], 600, 400)
    at = next(one for one in made.placed if one.spot.key == "small")
    assert made.nearest(at.x + 1, at.y, 24) == "small"


def test_a_yard_is_told_by_how_far_and_which_way_it_lies() -> None:
    south_west, north_east = lay_out_yards(SQUARE, 600, 400).placed
    assert (WINDS[south_west.wind], WINDS[north_east.wind]) == ("SW", "NE")
    assert south_west.away_km == pytest.approx(33.2, abs=0.2)
    (only,) = lay_out_yards(SQUARE[:1], 600, 400).placed
    assert only.wind == -1
