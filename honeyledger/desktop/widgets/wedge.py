"""The Pfund wedge: where a reading stands on the scale, told without needing to see colour."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QLinearGradient, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import colouring, honey_paint, lettering, look, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.tokens import Type

WIDTH = 96.0
HEIGHT = 16.0
_TICK_OVER = 4.0
_NOTCH = 5.0
_CAPTION = Hand(Type.CAPTION, colour="ink2")


def position(mm: float) -> float:
    """How far along the wedge a reading stands, in pixels from its thin end."""
    return WIDTH * min(tokens.PFUND_END_MM, max(0.0, mm)) / tokens.PFUND_END_MM


def _triangle(left: float, top: float) -> QPainterPath:
    path = QPainterPath()
    corners = [
        QPointF(left, top + HEIGHT),
        QPointF(left + WIDTH, top),
        QPointF(left + WIDTH, top + HEIGHT),
    ]
    path.addPolygon(QPolygonF(corners))
    path.closeSubpath()
    return path


def draw_wedge(painter: QPainter, left: float, top: float, mm: float | None) -> None:
    """Draw the wedge, thin end at left; without a reading it is hatched and has no tick."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    path = _triangle(left, top)
    if mm is None:
        painter.fillPath(path, look.colour("well"))
        honey_paint.hatch(painter, path, "edge")
        painter.strokePath(path, QPen(look.colour("edge"), 1))
        painter.restore()
        return
    scale = QLinearGradient(left, 0, left + WIDTH, 0)
    for step in range(29):
        share = step / 28
        scale.setColorAt(share, look.colour(colouring.pfund_colour(share * tokens.PFUND_END_MM)))
    painter.fillPath(path, scale)
    painter.strokePath(path, QPen(look.colour("honey_edge"), 1))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(QPen(look.colour("edge"), 1))
    foot = top + HEIGHT + 2
    for anchor in tokens.PFUND[:-1]:
        at = left + position(anchor.to_mm)
        painter.drawLine(QPointF(at, foot), QPointF(at, foot + _NOTCH))
    tick = QRectF(left + position(mm) - 1, top - _TICK_OVER, 2, HEIGHT + 2 * _TICK_OVER)
    painter.fillRect(tick, look.colour("ink"))
    painter.restore()


class Wedge(QWidget):
    """A wedge with its reading in words beneath.

    A mean is drawn with an approximation sign and is never a grade; a reading is.
    """

    def __init__(self, mm: float | None = None, *, mean: bool = False) -> None:
        super().__init__()
        self._mm = mm
        self._mean = mean
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self._name()

    def show_reading(self, mm: float | None, *, mean: bool = False) -> None:
        """Show another reading, or none."""
        self._mm, self._mean = mm, mean
        self._name()

    def words(self) -> str:
        """The reading in words."""
        if self._mm is None:
            return self.tr("not read")
        about = "≈\u00a0" if self._mean else ""
        return f"{about}{self._mm:.0f} mm {colouring.pfund_symbol(self._mm)}"

    def _name(self) -> None:
        words = self.words()
        if self._mean:
            words = lettering.translated("about {n}").format(n=words.removeprefix("≈\u00a0"))
        self.setAccessibleName(self.tr("colour") + " " + words)
        self.setToolTip(self.tr("A screen’s colour is not a reading."))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        width = max(WIDTH, lettering.width([_CAPTION.run(self.words())]))
        return QSize(int(width) + 3, int(HEIGHT + _TICK_OVER * 2 + 8 + _CAPTION.line))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        left = (self.width() - WIDTH) / 2
        draw_wedge(painter, left, _TICK_OVER + 2, self._mm)
        under = QRectF(0, self.height() - _CAPTION.line, self.width(), _CAPTION.line)
        lettering.draw(painter, under, [_CAPTION.run(self.words())], Side.CENTRE)
        painter.setPen(Qt.PenStyle.NoPen)
