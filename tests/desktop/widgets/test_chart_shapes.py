"""The shapes of charts: series told apart without colour, honey with its edge."""

from itertools import combinations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import colouring, look
from honeyledger.desktop.models.line_layout import Box
from honeyledger.desktop.widgets.chart_shapes import (
    level_pen,
    paint_ends,
    paint_filled,
    paint_honey,
    paint_marker,
    paint_spread,
    rect_of,
)

SIDE = 24


def _image() -> QImage:
    image = QImage(SIDE, SIDE, QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    return image


def _is_inked(image: QImage) -> list[bool]:
    """Which pixels are not paper: the shape, whatever its colour."""
    paper = look.colour("sheet")
    return [image.pixelColor(x, y) != paper for x in range(SIDE) for y in range(SIDE)]


def test_markers_differ_in_shape() -> None:
    shapes = []
    for series in range(4):
        image = _image()
        painter = QPainter(image)
        paint_marker(painter, series, SIDE / 2, SIDE / 2, None, large=True)
        painter.end()
        shapes.append(_is_inked(image))
    for first, second in combinations(shapes, 2):
        union = sum(a or b for a, b in zip(first, second, strict=True))
        differ = sum(a != b for a, b in zip(first, second, strict=True))
        assert differ / union >= 0.10


def test_pieces_next_to_each_other_differ_in_hatch() -> None:
    shapes = []
    for series in range(5):
        image = _image()
        painter = QPainter(image)
        paint_filled(painter, QRectF(0, 0, SIDE, SIDE), series)
        painter.end()
        shapes.append(_is_inked(image))
    assert all(shapes[at] != shapes[at + 1] for at in range(4))
    assert all(shapes[0]), "the first is whole"


def test_honey_has_its_colour_and_its_edge() -> None:
    image = _image()
    painter = QPainter(image)
    paint_honey(painter, QRectF(0, 0, SIDE, SIDE), 42.0, hatched=False)
    painter.end()
    assert image.pixelColor(12, 12).name().upper() == colouring.pfund_colour(42.0)
    assert image.pixelColor(0, 12) == look.colour("honey_edge")


def test_a_spread_has_its_middle_and_a_level_is_dashed() -> None:
    image = _image()
    painter = QPainter(image)
    paint_spread(painter, 12, 2, 12, 22)
    painter.end()
    assert image.pixelColor(12, 12) == look.colour("ink")
    assert image.pixelColor(12, 5) == look.colour("rule")
    assert level_pen().dashPattern() == [4.0, 3.0]
    assert rect_of(Box(1, 2, 3, 4)) == QRectF(1, 2, 3, 4)


def test_the_ends_of_a_band_are_seen_on_any_ground() -> None:
    for lies, at in ((True, (5, 12)), (False, (12, 5))):
        image = _image()
        image.fill(look.colour("ink"))
        painter = QPainter(image)
        paint_ends(painter, QRectF(4, 4, 16, 16), lies=lies)
        painter.end()
        assert image.pixelColor(*at) == look.colour("ink")
        beside = (at[0] + 1, at[1]) if lies else (at[0], at[1] + 1)
        assert image.pixelColor(*beside) != look.colour("ink"), "paper beside the ink"
