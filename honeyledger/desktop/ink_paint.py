"""Paints the marks of a paper, on the screen and on a printer alike, black on white."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from honeyledger.desktop import look
from honeyledger.desktop.inks import BoxInk, Ink, LineInk, ShapeInk, TextInk

_POINTS_PER_MM = 72 / 25.4
# Type is laid out at this size and shrunk, so that hinting moves no sign.
_LARGE_PX = 100
_BLACK, _WHITE = QColor(Qt.GlobalColor.black), QColor(Qt.GlobalColor.white)


def draw_ink(painter: QPainter, ink: Ink) -> None:
    """Draw one mark; the painter measures in mm from where the marks do."""
    colour = _WHITE if getattr(ink, "white", False) else _BLACK
    if isinstance(ink, TextInk):
        _draw_text(painter, ink, colour)
    elif isinstance(ink, LineInk):
        # A line ends where it ends, as in the PDF.
        painter.setPen(QPen(colour, ink.thick, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
        painter.drawLine(QPointF(ink.x1, ink.y1), QPointF(ink.x2, ink.y2))
    elif isinstance(ink, ShapeInk):
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in ink.points]))
    elif ink.thick:
        _draw_outline(painter, ink, colour)
    else:
        painter.fillRect(QRectF(ink.x, ink.y, ink.width, ink.height), colour)


def _draw_outline(painter: QPainter, ink: BoxInk, colour: QColor) -> None:
    half = ink.thick / 2
    painter.setPen(QPen(colour, ink.thick))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    box = QRectF(ink.x, ink.y, ink.width, ink.height)
    painter.drawRect(box.adjusted(half, half, -half, -half))


def _draw_text(painter: QPainter, ink: TextInk, colour: QColor) -> None:
    """The run exactly as wide as on paper."""
    family, _, weight = ink.face.removeprefix("Honeyledger").partition("-")
    font = QFont(look.MONO if family == "Mono" else look.SANS)
    font.setPixelSize(_LARGE_PX)
    font.setWeight(
        {"Bold": QFont.Weight.Bold, "SemiBold": QFont.Weight.DemiBold}.get(
            weight, QFont.Weight.Normal
        )
    )
    painter.save()
    painter.translate(ink.x, ink.y)
    size = ink.size_pt / _POINTS_PER_MM / _LARGE_PX
    advance = QFontMetricsF(font).horizontalAdvance(ink.text)
    painter.scale(ink.width / advance if advance else size, size)
    painter.setFont(font)
    painter.setPen(colour)
    painter.drawText(QPointF(0, 0), ink.text)
    painter.restore()
