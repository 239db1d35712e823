"""The shapes a chart is made of: pieces in a series' colour and hatch, honey, markers, spreads."""

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPen, QPolygonF

from honeyledger.desktop import colouring, look
from honeyledger.desktop.models.chart_layout import DOT
from honeyledger.desktop.models.line_layout import Box

HATCHES = (
    Qt.BrushStyle.NoBrush,
    Qt.BrushStyle.BDiagPattern,
    Qt.BrushStyle.HorPattern,
    Qt.BrushStyle.NoBrush,
    Qt.BrushStyle.FDiagPattern,
)
_DASHES = [4.0, 3.0]


def paint_filled(painter: QPainter, rect: QRectF, series: int, *, is_open: bool = False) -> None:
    """A piece in its series' colour and hatch; what is not complete is an outline."""
    kind = look.theme().series[series % len(HATCHES)]
    colour = look.colour(kind.colour)
    if is_open:
        painter.fillRect(rect, look.colour("sheet"))
        pen = QPen(colour, 2)
        pen.setDashPattern([4.0, 2.0])
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(rect.adjusted(1, 1, -1, 0))
    else:
        painter.fillRect(rect, colour)
    hatch = HATCHES[series % len(HATCHES)]
    if hatch is not Qt.BrushStyle.NoBrush:
        painter.fillRect(rect, QBrush(look.colour("sheet" if not is_open else kind.colour), hatch))


def paint_honey(painter: QPainter, rect: QRectF, mm: float | None, *, hatched: bool) -> None:
    """Honey in its colour; below nothing where that was not read, None for no honey."""
    inner = rect.adjusted(0.5, 0.5, -0.5, -0.5)
    if mm is None or mm < 0:
        painter.fillRect(inner, look.colour("well"))
        if mm is not None:
            painter.fillRect(inner, QBrush(look.colour("edge"), Qt.BrushStyle.BDiagPattern))
        edge = "edge"
    else:
        painter.fillRect(inner, look.colour(colouring.pfund_colour(mm)))
        edge = "honey_edge"
    if hatched:
        painter.fillRect(inner, QBrush(look.colour("hold"), Qt.BrushStyle.VerPattern))
    painter.setPen(QPen(look.colour(edge), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(inner)


def paint_marker(
    painter: QPainter, series: int, x: float, y: float, fill: str | None, *, large: bool = False
) -> None:
    """The marker of a series; honey has its edge."""
    kind = look.theme().series[series % len(HATCHES)]
    half = DOT / 2 + (2 if large else 0)
    painter.setBrush(look.colour(fill or kind.colour))
    pen = QPen(look.colour("honey_edge" if fill else "sheet"), 1)
    painter.setPen(pen)
    if kind.marker == "square":
        painter.drawRect(QRectF(x - half, y - half, 2 * half, 2 * half))
    elif kind.marker in ("triangle", "diamond"):
        points = [QPointF(x, y - half), QPointF(x + half, y), QPointF(x, y + half)]
        if kind.marker == "triangle":
            points = [
                QPointF(x, y - half),
                QPointF(x + half, y + half),
                QPointF(x - half, y + half),
            ]
        else:
            points.append(QPointF(x - half, y))
        painter.drawPolygon(QPolygonF(points))
    else:
        painter.drawEllipse(QPointF(x, y), half, half)


def paint_spread(painter: QPainter, x: float, high: float, middle: float, low: float) -> None:
    """From the lowest to the highest, with a stroke at the middle one."""
    painter.fillRect(QRectF(x - 8, high, 16, max(1.0, low - high)), look.colour("rule"))
    painter.setPen(QPen(look.colour("ink"), 2))
    painter.drawLine(QLineF(x - 10, middle, x + 10, middle))


def paint_ends(painter: QPainter, band: QRectF, *, lies: bool) -> None:
    """Both ends of a band: ink between two strokes of paper, so that any ground will do."""
    for colour, wide in (("sheet", 4.0), ("ink", 2.0)):
        painter.setPen(QPen(look.colour(colour), wide))
        if lies:
            for x in (round(band.left()) + 1, round(band.right()) - 1):
                painter.drawLine(QLineF(x, band.top(), x, band.bottom()))
        else:
            for y in (round(band.top()) + 1, round(band.bottom()) - 1):
                painter.drawLine(QLineF(band.left(), y, band.right(), y))


def level_pen() -> QPen:
    """The dashes of a line across a chart."""
    pen = QPen(look.colour("ink"), 2)
    pen.setDashPattern(_DASHES)
    return pen


def rect_of(box: Box) -> QRectF:
    """A box as Qt has it."""
    return QRectF(box.left, box.top, box.width, box.height)
