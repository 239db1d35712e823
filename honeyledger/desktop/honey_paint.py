"""How honey is painted: its colour, its edge, the hatch of what is estimated or not read.

A screen's colour is not a reading: wherever honey is shown in colour the words stand beside it.
"""

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QBrush, QLinearGradient, QPainter, QPainterPath, QPen

from honeyledger.desktop import colouring, look, tokens

_GRADIENT_STOPS = 6


def hatch(painter: QPainter, path: QPainterPath, colour: str) -> None:
    """Rule a shape at 45 degrees."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setClipPath(path, Qt.ClipOperation.IntersectClip)
    painter.setPen(QPen(look.colour(colour), tokens.HATCH_WIDTH))
    box = path.boundingRect()
    # The lines are fixed to the page, so neighbouring shapes' hatches meet.
    step = tokens.HATCH_PITCH * 2**0.5
    start = ((box.left() + box.top()) // step - 1) * step
    end = box.right() + box.bottom() + step
    lines: list[QLineF] = []
    at = start
    while at < end:
        lines.append(QLineF(at - box.top(), box.top(), at - box.bottom(), box.bottom()))
        at += step
    painter.drawLines(lines)
    painter.restore()


def flow_brush(left: float, right: float, start_mm: float, end_mm: float) -> QBrush:
    """A fill that runs from one honey's colour to another's, straight in OKLab."""
    start, end = colouring.pfund_colour(start_mm), colouring.pfund_colour(end_mm)
    if start == end or right <= left:
        return QBrush(look.colour(start))
    gradient = QLinearGradient(left, 0, right, 0)
    for stop in range(_GRADIENT_STOPS + 1):
        share = stop / _GRADIENT_STOPS
        gradient.setColorAt(share, look.colour(colouring.mixed(start, end, share)))
    return QBrush(gradient)


def draw_swatch(painter: QPainter, rect: QRectF, mm: float | None) -> None:
    """A square of honey with its edge, or hatched where the colour was not read."""
    painter.save()
    inner = rect.adjusted(0.5, 0.5, -0.5, -0.5)
    if mm is None:
        painter.fillRect(inner, look.colour("well"))
        path = QPainterPath()
        path.addRect(inner)
        hatch(painter, path, "edge")
        painter.setPen(QPen(look.colour("edge"), 1))
    else:
        painter.fillRect(inner, look.colour(colouring.pfund_colour(mm)))
        painter.setPen(QPen(look.colour("honey_edge"), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(inner)
    painter.restore()
