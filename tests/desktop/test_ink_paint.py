"""Marks as they are painted: black on white, where the page has them."""

import pytest
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop.ink_paint import draw_ink
from honeyledger.desktop.inks import BoxInk, Ink, LineInk, ShapeInk, TextInk

BLACK, WHITE = "#000000", "#ffffff"


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize(
    ("ink", "on", "off"),
    [
        (LineInk(2, 5, 18, 5, 1), (10, 5), (10, 8)),
        (BoxInk(2, 2, 10, 10), (7, 7), (15, 15)),
        (BoxInk(2, 2, 10, 10, thick=1), (7, 2), (7, 7)),
        (ShapeInk(((2, 2), (18, 2), (2, 18))), (4, 4), (17, 17)),
        (TextInk(2, 18, "█", "HoneyledgerSans-Bold", 40, 8), (6, 14), (19, 2)),
    ],
)
def test_each_mark_is_where_it_says(ink: Ink, on: tuple[int, int], off: tuple[int, int]) -> None:
    image = QImage(200, 200, QImage.Format.Format_RGB32)
    image.fill(0xFFFFFF)
    painter = QPainter(image)
    painter.scale(10, 10)
    draw_ink(painter, ink)
    painter.end()
    assert image.pixelColor(on[0] * 10, on[1] * 10).name() == BLACK
    assert image.pixelColor(off[0] * 10, off[1] * 10).name() == WHITE
