"""Honey has its edge, what was not read is hatched, and a flow runs from colour to colour."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter, QPainterPath

from honeyledger.desktop import honey_paint, look
from honeyledger.desktop.colouring import pfund_colour


def _image() -> QImage:
    image = QImage(40, 40, QImage.Format.Format_RGB32)
    image.fill(look.colour("sheet"))
    return image


def _colours(image: QImage) -> set[str]:
    size = image.size()
    return {
        image.pixelColor(x, y).name().upper()
        for x in range(size.width())
        for y in range(size.height())
    }


def test_a_swatch_shows_its_reading_with_an_edge() -> None:
    image = _image()
    painter = QPainter(image)
    honey_paint.draw_swatch(painter, QRectF(0, 0, 40, 40), 44)
    painter.end()
    found = _colours(image)
    assert pfund_colour(44) in found
    assert look.theme().honey_edge in found


def test_a_swatch_without_a_reading_has_no_honey_colour() -> None:
    image = _image()
    painter = QPainter(image)
    honey_paint.draw_swatch(painter, QRectF(0, 0, 40, 40), None)
    painter.end()
    found = _colours(image)
    assert look.theme().well in found
    assert look.theme().honey_edge not in found
    assert len(found) > 3, "the hatch is drawn over the ground"


def test_a_hatch_stays_inside_its_shape() -> None:
    image = _image()
    path = QPainterPath()
    path.addRect(QRectF(10, 10, 20, 20))
    painter = QPainter(image)
    honey_paint.hatch(painter, path, "honey_hatch")
    painter.end()
    sheet = look.colour("sheet")
    outside = [image.pixelColor(x, y) for x in range(40) for y in (0, 5, 35)]
    assert all(colour == sheet for colour in outside)
    inside = {image.pixelColor(x, y).name() for x in range(11, 29) for y in range(11, 29)}
    assert len(inside) > 1


def test_a_flow_is_plain_where_the_colour_does_not_change() -> None:
    plain = honey_paint.flow_brush(0, 100, 40, 40)
    assert plain.gradient() is None
    assert plain.color().name().upper() == pfund_colour(40)
    # The gradient is the brush's own: it is gone with it.
    running = honey_paint.flow_brush(0, 100, 20, 60)
    stops = running.gradient().stops()
    assert stops[0][1].name().upper() == pfund_colour(20)
    assert stops[-1][1].name().upper() == pfund_colour(60)
