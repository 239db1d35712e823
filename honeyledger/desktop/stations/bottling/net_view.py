"""Jars weighed, drawn on a scale of grams: the mean, the declared net, and what is short."""

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.stations.bottling.rows import grams_of
from honeyledger.desktop.tokens import SEMIBOLD, Type
from honeyledger.domain.net_contents import NetCheck

_HEIGHT = 98
_SIDE = 19
_BASE = 66.0
_DOT = 5.0
_STEP = 9.0
_MOST_HIGH = 3
_SMALL = Hand(Type.CAPTION, colour="ink2")
_STRONG = Hand(Type.CAPTION, weight=SEMIBOLD)


class NetStrip(QWidget):
    """The dots of the jars weighed, oldest and newest alike."""

    def __init__(self) -> None:
        super().__init__()
        self._check: NetCheck | None = None
        self._weights: tuple[int, ...] = ()
        self._target = ""
        self.setFixedHeight(_HEIGHT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_check(
        self, check: NetCheck | None, weights_mg: tuple[int, ...], words: str, target: str = ""
    ) -> None:
        """Show these jars; `words` is what they say, `target` what the filler is to be set to."""
        self._check, self._weights, self._target = check, weights_mg, target
        self.setAccessibleName(f"{words} {target}".strip())
        self.setToolTip(words)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(320, _HEIGHT)

    @staticmethod
    def _least(check: NetCheck) -> int:
        """Where the scale begins: at far short, or as far below where no rule has that."""
        limits = check.limits
        return limits.far_short_mg or 2 * limits.short_mg - check.net_g * 1000

    def _x(self, mg: float) -> float:
        """Where a weight stands: from far short to as much above the declared net."""
        assert self._check is not None
        net, far = self._check.net_g * 1000, self._least(self._check)
        lowest = min(far, *self._weights) if self._weights else far
        highest = max(2 * net - far, *self._weights) if self._weights else 2 * net - far
        room = self.width() - 2 * _SIDE - 2 * _DOT
        return _SIDE + _DOT + room * (mg - lowest) / (highest - lowest)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._check is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(look.colour("edge"), 1))
        painter.drawLine(QPointF(_SIDE, _BASE), QPointF(self.width() - _SIDE, _BASE))
        limits, net = self._check.limits, self._check.net_g * 1000
        for mg, dashed in ((limits.far_short_mg, True), (limits.short_mg, True), (net, False)):
            if mg:
                self._paint_limit(painter, mg, dashed=dashed)
        self._paint_words(painter)
        self._paint_dots(painter, limits.short_mg)
        # Right of the declared net there is room: no jar is that much too full.
        below = QRectF(_SIDE, _BASE + 10, self.width() - 2 * _SIDE, _STRONG.line)
        lettering.draw(painter, below, [_STRONG.run(self._target)], Side.RIGHT)
        self._paint_mean(painter)

    def _paint_limit(self, painter: QPainter, mg: int, *, dashed: bool) -> None:
        pen = QPen(look.colour("alert" if dashed else "ink"), 2)
        if dashed:
            pen.setDashPattern([2, 2])
        painter.setPen(pen)
        painter.drawLine(QPointF(self._x(mg), 24), QPointF(self._x(mg), _BASE + 6))

    def _paint_words(self, painter: QPainter) -> None:
        """Figures under their lines; the one of the declared net has its unit."""
        assert self._check is not None
        limits, net = self._check.limits, self._check.net_g
        far, short = limits.far_short_mg, limits.short_mg
        under = _BASE + 10
        if far:
            self._paint_run(painter, far, 0, _SMALL.run(tr("far short")))
            self._paint_run(painter, far, under, _SMALL.run(grams_of(far)))
        self._paint_run(painter, short, 0, _SMALL.run(tr("short")))
        self._paint_run(painter, short, under, _SMALL.run(grams_of(short)))
        declared = _STRONG.run(tr("declared {net} g").format(net=net))
        self._paint_run(painter, net * 1000, under, declared)

    def _paint_run(
        self, painter: QPainter, mg: int, top: float, run: Run, least: float = _SIDE
    ) -> float:
        """Words at a weight, inside the scale; answers where they end."""
        left = min(max(least, self._x(mg) - run.width / 2), self.width() - _SIDE - run.width)
        room = QRectF(left, top, run.width + 1, _SMALL.line)
        lettering.draw(painter, room, [run], Side.LEFT)
        return left + run.width

    def _paint_dots(self, painter: QPainter, short_mg: int) -> None:
        """Jars of nearly one weight stand on one another; a short one is a triangle."""
        painter.setPen(Qt.PenStyle.NoPen)
        heights: dict[int, int] = {}
        for mg in self._weights:
            column = round(self._x(mg) / _STEP)
            level = min(heights.get(column, 0), _MOST_HIGH)
            heights[column] = level + 1
            middle = QPointF(self._x(mg), _BASE - _DOT - 1 - level * _STEP)
            is_short = mg < short_mg
            painter.setBrush(look.colour("alert" if is_short else look.theme().series[0].colour))
            if is_short:
                painter.drawPolygon(_triangle(middle))
            else:
                painter.drawEllipse(middle, _DOT, _DOT)

    def _paint_mean(self, painter: QPainter) -> None:
        assert self._check is not None
        if not self._check.weighed:
            return
        x = self._x(self._check.mean_mg)
        painter.setBrush(look.colour("ink"))
        painter.setPen(Qt.PenStyle.NoPen)
        tip = QPointF(x, 28)
        painter.drawPolygon(QPolygonF([QPointF(x - 6, 20), QPointF(x + 6, 20), tip]))
        run = _STRONG.run(tr("mean {g} g").format(g=grams_of(self._check.mean_mg)))
        word = _SMALL.run(tr("short")).width
        clear = self._x(self._check.limits.short_mg) + word / 2 + 8
        self._paint_run(painter, self._check.mean_mg, 0, run, clear)


def _triangle(middle: QPointF) -> QPolygonF:
    return QPolygonF(
        [
            middle + QPointF(0, -_DOT - 1),
            middle + QPointF(_DOT + 1, _DOT),
            middle + QPointF(-_DOT - 1, _DOT),
        ]
    )


def tr(text: str) -> str:
    """A word on the scale, in the language in use."""
    return QCoreApplication.translate("bottling", text)
