"""Series, honey and states are told apart by every eye: by lightness, and never by hue alone."""

from itertools import combinations, pairwise

import pytest
from PySide6.QtGui import QImage

from honeyledger.desktop import look, tokens
from honeyledger.desktop.colouring import contrast
from honeyledger.desktop.tokens import DARK, LIGHT, Theme
from tests.desktop.eyes import BLINDNESS, distance, lab, least_distance, seen, seen_picture

# Pairs from table 1 of Sharma, Wu, Dalal (2005), from memory: the colours and their distance.
SHARMA = (
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, 3.1571, -77.2803), (50.0, 0.0, -82.7485), 2.8615),
    ((50.0, -1.3802, -84.2814), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 0.0, -2.5), 4.3065),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    ((90.8027, -2.0831, 1.4410), (91.1528, -1.6435, 0.0447), 1.4441),
)


@pytest.mark.parametrize(("one", "other", "expected"), SHARMA)
def test_the_distance_is_that_of_its_authors(
    one: tuple[float, float, float], other: tuple[float, float, float], expected: float
) -> None:
    assert distance(one, other) == pytest.approx(expected, abs=1e-4)
    assert distance(other, one) == pytest.approx(expected, abs=1e-4)


def test_grey_stays_grey_for_every_eye_and_red_and_green_come_near() -> None:
    for eye in BLINDNESS:
        assert seen("#808080", eye) == "#808080"
    red, green = "#C00000", "#007A00"
    blind = [lab(colour, "deuteranopia") for colour in (red, green)]
    assert distance(*blind) < distance(lab(red), lab(green)) / 2


def test_a_picture_is_seen_pixel_by_pixel() -> None:
    image = QImage(3, 2, QImage.Format.Format_RGB32)
    image.fill(look.colour("#B0125A"))
    made = seen_picture(image, "protanopia")
    assert (made.width(), made.height()) == (3, 2)
    assert made.pixelColor(2, 1).name().upper() == seen("#B0125A", "protanopia")


@pytest.mark.parametrize(("theme", "least"), [(LIGHT, 14.7), (DARK, 13.4)])
def test_series_of_a_chart_are_apart_for_every_eye(theme: Theme, least: float) -> None:
    for one, other in combinations(theme.series, 2):
        assert round(least_distance(one.colour, other.colour), 1) >= least


def test_neighbouring_classes_of_honey_are_apart_for_every_eye() -> None:
    for one, other in pairwise(tokens.PFUND):
        assert round(least_distance(one.colour, other.colour), 1) >= 9.4, one.symbol


@pytest.mark.parametrize("theme", [LIGHT, DARK])
@pytest.mark.parametrize("eye", list(BLINDNESS))
def test_states_can_be_read_by_every_eye(theme: Theme, eye: str) -> None:
    grounds = ("sheet", "alert_tint", "hold_tint", "act_tint", "band")
    for ink in ("alert", "hold", "act", "ink", "ink2"):
        for ground in grounds:
            found = contrast(seen(getattr(theme, ink), eye), seen(getattr(theme, ground), eye))
            assert found >= 4.5, f"{ink} on {ground} for {eye} is {found:.1f}"
