"""The ring is three pixels wide, just inside what it goes round, in the colour of its ground."""

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import look, rings


def _painted(**how: object) -> QImage:
    image = QImage(60, 40, QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    painter = QPainter(image)
    if how:
        rings.draw_focus_ring(painter, QRectF(image.rect()), **how)  # type: ignore[arg-type]
    else:
        rings.draw_inset_ring(painter, QRectF(image.rect()))
    painter.end()
    return image


@pytest.mark.parametrize(
    ("how", "colour"), [({}, "focus"), ({"colour": "focus_mast", "radius": 8.0}, "focus_mast")]
)
def test_a_ring_is_as_wide_as_it_is_specified(how: dict[str, object], colour: str) -> None:
    image = _painted(**how)
    down = [image.pixelColor(30, y).name() for y in range(6)]
    assert down == [look.colour(colour).name()] * 3 + [look.colour("sheet").name()] * 3
    across = [image.pixelColor(image.width() - 1 - x, 20).name() for x in range(4)]
    assert across[:3] == [look.colour(colour).name()] * 3
    assert across[3] == look.colour("sheet").name()
