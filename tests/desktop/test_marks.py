"""The ten states are told apart by shape alone."""

from itertools import combinations

import pytest
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import look, marks
from honeyledger.desktop.marks import COLOURS, Mark, severity

SIZE = 16
LEAST_DIFFERENT = 0.15


def _pixels(mark: Mark) -> set[tuple[int, int]]:
    """The pixels a mark covers by more than half, drawn black at 16 pixels."""
    image = QImage(SIZE, SIZE, QImage.Format.Format_RGB32)
    image.fill(look.colour("#FFFFFF"))
    painter = QPainter(image)
    marks.draw(painter, mark, 0, 0, SIZE, "#000000")
    painter.end()
    return {
        (x, y)
        for x in range(SIZE)
        for y in range(SIZE)
        if image.pixelColor(x, y).lightness() < 128
    }


def test_each_silhouette_differs_from_each_other_at_sixteen_pixels() -> None:
    drawn = {mark: _pixels(mark) for mark in Mark}
    for one, other in combinations(Mark, 2):
        union = drawn[one] | drawn[other]
        different = len(drawn[one] ^ drawn[other]) / len(union)
        assert different >= LEAST_DIFFERENT, f"{one.value} and {other.value}: {different:.2f}"


@pytest.mark.parametrize("mark", list(Mark))
def test_each_silhouette_is_large_enough_to_be_seen_and_stays_in_its_square(mark: Mark) -> None:
    assert len(_pixels(mark)) >= 20
    box = marks.silhouette(mark).boundingRect()
    assert box.left() >= 0
    assert box.top() >= 0
    assert box.right() <= marks.GRID
    assert box.bottom() <= marks.GRID


def test_every_state_has_a_colour_of_the_theme() -> None:
    assert set(COLOURS) == set(Mark)
    assert all(look.colour(name).isValid() for name in COLOURS.values())


def test_a_refusal_is_worse_than_a_hold_and_a_hold_than_a_warning() -> None:
    assert severity(Mark.REFUSED) > severity(Mark.HOLD) > severity(Mark.WARNING)
    assert severity(Mark.WARNING) > severity(Mark.NOTE) > severity(Mark.READY)
