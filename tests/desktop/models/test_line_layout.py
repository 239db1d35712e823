"""The line's geometry at every width of the specification."""

import itertools

import pytest

from honeyledger.desktop.models.line_figures import Flow, LineFigures, PlaceFigure
from honeyledger.desktop.models.line_layout import (
    Shown,
    eased,
    lay_out_line,
    thickness,
)

KG = (6912, 6900, 5400, 1805, 0, 1100)
LINE = LineFigures(
    tuple(PlaceFigure(f"p{number}", f"Place {number}", number, "kg") for number in range(7)),
    tuple(Flow(amount, 30.0) for amount in KG),
)
WIDTHS = (2560, 1920, 1600, 1440, 1280, 1200, 1024, 900, 853, 731, 640)


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_overlaps_and_all_stays_in_the_window(width: int) -> None:
    made = lay_out_line(LINE, width, open_place=1)
    boxes = [place.hit for place in made.places] + list(made.tools)
    boxes += [box for box in (made.scan, made.more) if box is not None]
    boxes.sort(key=lambda box: box.left)
    assert boxes[0].left >= 0
    assert boxes[-1].right <= width
    for one, other in itertools.pairwise(boxes):
        assert one.right <= other.left + 1e-9


@pytest.mark.parametrize("width", WIDTHS)
def test_everything_that_can_be_pressed_is_a_target_of_forty(width: int) -> None:
    made = lay_out_line(LINE, width, open_place=3)
    boxes = [place.hit for place in made.places] + list(made.tools)
    boxes += [box for box in (made.scan, made.more) if box is not None]
    assert min(box.width for box in boxes) >= 40
    assert min(box.height for box in boxes) >= 40


@pytest.mark.parametrize(
    ("width", "place", "shown"),
    [
        (1280, 122, Shown.USUAL),
        (1440, 145, Shown.USUAL),
        (1024, 107, Shown.TIGHT),
    ],
)
def test_places_are_as_wide_as_the_specification_says(
    width: int, place: int, shown: Shown
) -> None:
    made = lay_out_line(LINE, width)
    assert made.height == 88
    assert int(made.places[0].column.width) == place
    assert {box.shown for box in made.places} == {shown}


def test_a_wide_window_shows_qualifiers_in_places_of_at_most_168() -> None:
    assert lay_out_line(LINE, 2560).places[0].column.width == 168
    narrower = lay_out_line(LINE, 1600)
    assert narrower.places[0].shown is Shown.FULL
    assert narrower.places[0].column.width <= 168
    assert not narrower.short_figures


@pytest.mark.parametrize(("width", "closed"), [(853, 83), (731, 63), (640, 48)])
def test_a_narrow_window_has_one_row_of_fifty_six(width: int, closed: int) -> None:
    made = lay_out_line(LINE, width, open_place=1)
    assert made.is_narrow
    assert made.height == 56
    assert made.scan is not None
    assert made.more is not None
    assert (made.scan.width, made.more.width) == (56, 56)
    assert made.places[1].column.width == 144
    assert made.places[1].shown is Shown.OPEN_NARROW
    assert int(made.places[0].column.width) == closed
    expected = Shown.NAME_OR_FIGURE if closed >= 80 else Shown.ICON
    assert made.places[0].shown is expected
    assert [gap.width for gap in made.gaps] == [8] * 6


def test_without_an_open_place_the_seven_share_the_row() -> None:
    made = lay_out_line(LINE, 853)
    assert len({place.column.width for place in made.places}) == 1


def test_the_channel_is_unbroken_from_the_first_place_to_the_last() -> None:
    made = lay_out_line(LINE, 1280)
    pieces = made.pieces
    assert pieces[0].left == made.places[0].column.left
    assert pieces[-1].right == made.places[-1].column.right
    for number, (one, other) in enumerate(itertools.pairwise(pieces), 1):
        assert one.right == other.left == made.places[number].column.middle
    assert [piece.is_empty for piece in pieces] == [False, False, False, False, True, False]


def test_thickness_goes_by_the_largest_flow_in_whole_even_pixels() -> None:
    assert thickness(6912, 6912) == 20
    assert thickness(0, 6912) == 4
    assert thickness(0, 0) == 4
    # 4 + 16 x 1805 / 6912 = 8.18, the nearest even number is 8.
    assert thickness(1805, 6912) == 8
    assert all(thickness(kg, 1000) % 2 == 0 for kg in range(0, 1001, 37))


def test_where_thicknesses_meet_the_step_is_smooth() -> None:
    assert eased(-1) == 0
    assert eased(0.5) == 0.5
    assert eased(2) == 1
    assert eased(0.1) < 0.1
