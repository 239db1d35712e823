"""The plain map of yards: dots with names, north, a scale bar; chosen by mouse or by arrows."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from honeyledger.desktop import lettering, look, style
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.models.yard_places import Placed, Spot, YardMap, lay_out_yards
from honeyledger.desktop.tokens import SEMIBOLD, Type
from honeyledger.domain.units import format_number

_DOT, _NEAR = 6.0, 24.0
_NAME = Hand(Type.CAPTION, colour="ink")
_STRONG = Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink")
_QUIET = Hand(Type.CAPTION, colour="ink2")
_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}


class YardsMap(QWidget):
    """Yards by their coordinates.

    Signals:
        selected: the key of the yard that was chosen.
        opened: the key of a yard, by Enter or a double click.
    """

    selected = Signal(str)
    opened = Signal(str)

    def __init__(self, empty: str) -> None:
        super().__init__()
        self._spots: Sequence[Spot] = ()
        self._map = YardMap()
        self._empty = empty
        self.chosen = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setProperty("ring", "none")
        self.setAccessibleName(self.tr("Map of the yards"))

    def show_spots(self, spots: Sequence[Spot]) -> None:
        """Show these yards."""
        self._spots = spots
        self._lay_out()

    def choose(self, key: str) -> None:
        """Choose a yard by its key; nothing is told."""
        self.chosen = key
        name = next((spot.name for spot in self._spots if spot.key == key), "")
        self.setAccessibleDescription(name)
        self.update()

    def laid_out(self) -> YardMap:
        """The map as it is drawn."""
        return self._map

    def _lay_out(self) -> None:
        self._map = lay_out_yards(self._spots, self.width(), self.height(), 48)
        self.update()

    def resizeEvent(self, event: object) -> None:
        super().resizeEvent(event)  # type: ignore[arg-type]
        self._lay_out()

    def minimumSizeHint(self) -> QSize:
        return QSize(240, 160)

    # Choosing.

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        if key := self._map.nearest(at.x(), at.y(), _NEAR):
            self._tell(key)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        if key := self._map.nearest(at.x(), at.y(), _NEAR):
            self.opened.emit(key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _ARROWS.get(Qt.Key(event.key()))
        if step is not None:
            self._step(step)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.chosen:
            self.opened.emit(self.chosen)
        else:
            super().keyPressEvent(event)

    def _step(self, step: tuple[int, int]) -> None:
        """To the nearest yard that lies that way; with none chosen, to the first."""
        placed = self._map.placed
        now = next((one for one in placed if one.spot.key == self.chosen), None)
        if now is None:
            if placed:
                self._tell(placed[0].spot.key)
            return
        ahead = [one for one in placed if _along(now, one, step) > 0]
        found = min(ahead, key=lambda one: _cost(now, one, step), default=None)
        if found is not None:
            self._tell(found.spot.key)

    def _tell(self, key: str) -> None:
        self.choose(key)
        self.selected.emit(key)

    # Drawing.

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(QRectF(self.rect()), look.colour("sheet"))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if not self._map.placed:
            rect = QRectF(20, 16, self.width() - 40, 24)
            lettering.draw(painter, rect, [Hand(Type.BODY, colour="ink2").run(self._empty)])
        for one in self._map.placed:
            self._draw_dot(painter, one)
        self._draw_names(painter)
        if self._map.placed:
            self._draw_scale(painter)
            self._draw_north(painter)
        if self.hasFocus():
            style.draw_inset_ring(painter, QRectF(self.rect()))

    def _draw_dot(self, painter: QPainter, one: Placed) -> None:
        """A dot, hollow where the yard is not pulled yet; the chosen one is larger."""
        is_chosen = one.spot.key == self.chosen
        radius = _DOT + 2 if is_chosen else _DOT
        painter.setPen(QPen(look.colour("act" if is_chosen else "ink"), 2))
        painter.setBrush(look.colour("act" if is_chosen else "ink"))
        if not one.spot.is_strong:
            painter.setBrush(look.colour("sheet"))
        painter.drawEllipse(QPointF(one.x, one.y), radius, radius)

    def _draw_names(self, painter: QPainter) -> None:
        """Names where there is room beside the dots; the chosen one's always."""
        dots = {one.spot.key: _around(one) for one in self._map.placed}
        taken: list[QRectF] = []
        for one in sorted(self._map.placed, key=lambda one: one.spot.key != self.chosen):
            is_chosen = one.spot.key == self.chosen
            run = (_STRONG if is_chosen else _NAME).run(one.spot.name)
            sides = [self._beside(one, run.width, to_left) for to_left in (False, True)]
            others = [*taken, *(rect for key, rect in dots.items() if key != one.spot.key)]
            free = [rect for rect in sides if not any(rect.intersects(at) for at in others)]
            if not free and not is_chosen:
                continue
            rect = (free or sides)[0]
            if is_chosen:
                painter.fillRect(rect, look.colour("sheet"))
            lettering.draw(painter, rect, [run], Side.LEFT)
            taken.append(rect)

    def _beside(self, one: Placed, width: float, to_left: bool) -> QRectF:
        """Where a name would stand; beyond the edge it comes to the dot's other side."""
        right, left = one.x + _DOT + 6, one.x - _DOT - 6 - width
        beyond = right + width > self.width() - 4
        return QRectF(left if to_left or beyond else right, one.y - 10, width + 2, 20)

    def _draw_scale(self, painter: QPainter) -> None:
        left, foot = 20.0, self.height() - 20.0
        painter.setPen(QPen(look.colour("ink"), 2))
        right = left + self._map.bar_px
        painter.drawLine(QPointF(left, foot), QPointF(right, foot))
        for at in (left, right):
            painter.drawLine(QPointF(at, foot - 5), QPointF(at, foot + 5))
        km = self._map.bar_km
        words = f"{format_number(int(km))} km" if km >= 1 else f"{format_number(int(km * 1000))} m"
        lettering.draw(painter, QRectF(left, foot - 26, 120, 20), [_QUIET.run(words)])

    def _draw_north(self, painter: QPainter) -> None:
        x, top = self.width() - 28.0, 16.0
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("ink"))
        arrow = [QPointF(x, top), QPointF(x + 6, top + 18), QPointF(x - 6, top + 18)]
        painter.drawPolygon(QPolygonF(arrow))
        rect = QRectF(x - 10, top + 20, 20, 20)
        lettering.draw(painter, rect, [_QUIET.run(self.tr("N"))], Side.CENTRE)


def _around(one: Placed) -> QRectF:
    return QRectF(one.x - _DOT, one.y - _DOT, 2 * _DOT, 2 * _DOT)


def _along(start: Placed, one: Placed, step: tuple[int, int]) -> float:
    return (one.x - start.x) * step[0] + (one.y - start.y) * step[1]


def _cost(start: Placed, one: Placed, step: tuple[int, int]) -> float:
    """What lies straight ahead is nearer than what lies to the side."""
    aside = abs((one.x - start.x) * step[1]) + abs((one.y - start.y) * step[0])
    return _along(start, one, step) + 2 * aside
