"""The ring round whatever has the keyboard, as it is painted; `style` says where it goes."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from honeyledger.desktop import look, tokens


def draw_focus_ring(painter: QPainter, rect: QRectF, *, colour: str, radius: float) -> None:
    """Draw the ring just inside rect, three pixels wide."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(look.colour(colour), tokens.FOCUS_WIDTH))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    half = tokens.FOCUS_WIDTH / 2
    painter.drawRoundedRect(rect.adjusted(half, half, -half, -half), radius, radius)
    painter.restore()


def draw_inset_ring(painter: QPainter, rect: QRectF) -> None:
    """The ring of a table row, or of anything else that has no room around it."""
    draw_focus_ring(painter, rect, colour="focus", radius=tokens.RADIUS_CONTROL)
