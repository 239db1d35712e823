"""The plain map of yards: marks with names, north, a scale bar; chosen by mouse or by keys.

A mark's area goes by the yard's share where shares are shown. Nothing is fetched from anywhere.
"""

from collections.abc import Sequence
from fractions import Fraction

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QToolTip, QWidget

from honeyledger.desktop import lettering, look, rings
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.models.yard_places import Placed, Spot, YardMap, lay_out_yards
from honeyledger.desktop.tokens import SEMIBOLD, Type
from honeyledger.domain.units import format_number

_NEAR, _FROM_MARK, _FROM_RING = 24.0, 6.0, 12.0
_NAME = Hand(Type.CAPTION, colour="ink")
_LINE, _MARGIN = 20.0, 48.0
_STRONG = Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink")
_QUIET = Hand(Type.CAPTION, colour="ink2")
_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
_IN_ORDER = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}


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
        self._note = ""
        self.chosen = ""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setProperty("ring", "none")
        self.setAccessibleName(self.tr("Map of the yards"))

    def show_spots(self, spots: Sequence[Spot], note: str = "") -> None:
        """Show these yards; `note` stands at the foot: what a mark means, what is not on it."""
        self._spots, self._note = spots, note
        if self.chosen not in {spot.key for spot in spots}:
            self.chosen = ""
        self._lay_out()
        self._say()

    def choose(self, key: str) -> None:
        """Choose a yard by its key; nothing is told."""
        self.chosen = key
        self._say()
        self.update()

    def _say(self) -> None:
        """What a screen reader is told: the chosen yard and where it lies; else what is here."""
        one = next((one for one in self._map.placed if one.spot.key == self.chosen), None)
        words = self.tr("{n} yards. Arrows go from one to the next, Page Down through all.")
        said = self.words_of(one) if one is not None else words.format(n=len(self._map.placed))
        self.setAccessibleName(f"{self.tr('Map of the yards')}: {said}")
        self.setAccessibleDescription(self._note)
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))

    def words_of(self, one: Placed) -> str:
        """A yard with its share and where it lies, as the map shows it."""
        parts = [one.spot.name, one.spot.words, self._where(one)]
        return ", ".join(part for part in parts if part)

    def _where(self, one: Placed) -> str:
        if one.wind < 0:
            return self.tr("in the middle")
        winds = (
            self.tr("north"),
            self.tr("north-east"),
            self.tr("east"),
            self.tr("south-east"),
            self.tr("south"),
            self.tr("south-west"),
            self.tr("west"),
            self.tr("north-west"),
        )
        words = self.tr("{km} km {wind} of the middle")
        km = format_number(Fraction(one.away_km), 1 if one.away_km < 10 else 0)
        return words.format(km=km, wind=winds[one.wind])

    def laid_out(self) -> YardMap:
        """The map as it is drawn."""
        return self._map

    def _lay_out(self) -> None:
        self._map = lay_out_yards(
            self._spots, self.width(), self.height(), _MARGIN + (_LINE if self._note else 0)
        )
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
        elif event.key() in _IN_ORDER:
            self._next(_IN_ORDER[Qt.Key(event.key())])
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.chosen:
            self.opened.emit(self.chosen)
        else:
            super().keyPressEvent(event)

    def _next(self, by: int) -> None:
        """The next yard in order, so that none is out of reach."""
        keys = [one.spot.key for one in self._map.placed]
        if keys:
            at = keys.index(self.chosen) + by if self.chosen in keys else 0
            self._tell(keys[at % len(keys)])

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

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._say()

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self.tip_at(event.pos()), self)
            return True
        return super().event(event)

    def tip_at(self, point: QPoint) -> str:
        """What is told of a point: its yard, else the note at the foot."""
        key = self._map.nearest(point.x(), point.y(), _NEAR)
        found = next((one for one in self._map.placed if one.spot.key == key), None)
        return self.words_of(found) if found is not None else self._note

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
        for one in sorted(self._map.placed, key=lambda one: -one.spot.radius):
            self._draw_dot(painter, one)
        self._draw_names(painter)
        if self._map.placed:
            self._draw_scale(painter)
            self._draw_north(painter)
        self._draw_note(painter)
        if self.hasFocus():
            rings.draw_inset_ring(painter, QRectF(self.rect()))

    def _draw_dot(self, painter: QPainter, one: Placed) -> None:
        """A mark, hollow where nothing is from there; the chosen one has a ring around it."""
        is_chosen = one.spot.key == self.chosen
        radius, at = one.spot.radius, QPointF(one.x, one.y)
        painter.setPen(QPen(look.colour("sheet"), 2))
        painter.setBrush(look.colour("sheet"))
        painter.drawEllipse(at, radius + 2, radius + 2)
        painter.setPen(QPen(look.colour("act" if is_chosen else "ink"), 2))
        if one.spot.is_strong:
            painter.setBrush(look.colour("act" if is_chosen else "ink"))
        painter.drawEllipse(at, radius, radius)
        if is_chosen:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(look.colour("act"), 3))
            painter.drawEllipse(at, radius + 5, radius + 5)

    def _draw_names(self, painter: QPainter) -> None:
        """Names where there is room beside the marks; the chosen one's always, largest first."""
        dots = {one.spot.key: _around(one) for one in self._map.placed}
        taken = self._corners()
        order = sorted(
            self._map.placed, key=lambda one: (one.spot.key != self.chosen, -one.spot.radius)
        )
        for one in order:
            is_chosen = one.spot.key == self.chosen
            run = (_STRONG if is_chosen else _NAME).run(one.spot.name)
            away = one.spot.radius + (_FROM_RING if is_chosen else _FROM_MARK)
            sides = self._beside(one, run.width, away)
            others = [*taken, *(rect for key, rect in dots.items() if key != one.spot.key)]
            free = [rect for rect in sides if not any(rect.intersects(at) for at in others)]
            if not free and not is_chosen:
                continue
            rect = (free or sides)[0]
            if is_chosen:
                painter.fillRect(rect, look.colour("sheet"))
            lettering.draw(painter, rect, [run], Side.LEFT)
            taken.append(rect)

    def _beside(self, one: Placed, width: float, away: float) -> list[QRectF]:
        """Where a name may stand: right, left, above or below its mark, inside the map."""
        under = QRectF(one.x - width / 2, one.y + away - 4, width + 2, 20)
        room = QRectF(self.rect()).adjusted(4, 4, -4, -4)
        sides = [
            QRectF(one.x + away, one.y - 10, width + 2, 20),
            QRectF(one.x - away - width, one.y - 10, width + 2, 20),
            under.translated(0, -2 * away - 12),
            under,
        ]
        return [rect for rect in sides if room.contains(rect)] or sides[:1]

    def _corners(self) -> list[QRectF]:
        """The room of the scale, the note and north, where no name stands."""
        high = 2 * _LINE + 8 if self._note else _LINE * 2
        foot = QRectF(0, self.height() - high, 20 + max(120.0, self._map.bar_px), high)
        note = QRectF(0, self.height() - _LINE - 4, self.width() if self._note else 0, _LINE)
        return [foot, note, QRectF(self.width() - 44, 0, 44, 60)]

    def _draw_scale(self, painter: QPainter) -> None:
        left, foot = 20.0, self.height() - (_LINE + 14.0 if self._note else 20.0)
        painter.setPen(QPen(look.colour("ink"), 2))
        right = left + self._map.bar_px
        painter.drawLine(QPointF(left, foot), QPointF(right, foot))
        for at in (left, right):
            painter.drawLine(QPointF(at, foot - 5), QPointF(at, foot + 5))
        km = self._map.bar_km
        words = f"{format_number(int(km))} km" if km >= 1 else f"{format_number(int(km * 1000))} m"
        lettering.draw(painter, QRectF(left, foot - 26, 120, 20), [_QUIET.run(words)])

    def _draw_note(self, painter: QPainter) -> None:
        """One line at the foot; cut, it is whole in the tip."""
        if self._note:
            rect = QRectF(20, self.height() - _LINE - 4, self.width() - 40, _LINE)
            lettering.draw(painter, rect, [_QUIET.run(self._note)])

    def _draw_north(self, painter: QPainter) -> None:
        x, top = self.width() - 28.0, 16.0
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("ink"))
        arrow = [QPointF(x, top), QPointF(x + 6, top + 18), QPointF(x - 6, top + 18)]
        painter.drawPolygon(QPolygonF(arrow))
        rect = QRectF(x - 10, top + 20, 20, 20)
        lettering.draw(painter, rect, [_QUIET.run(self.tr("N"))], Side.CENTRE)


def _around(one: Placed) -> QRectF:
    radius = one.spot.radius
    return QRectF(one.x - radius, one.y - radius, 2 * radius, 2 * radius)


def _along(start: Placed, one: Placed, step: tuple[int, int]) -> float:
    return (one.x - start.x) * step[0] + (one.y - start.y) * step[1]


def _cost(start: Placed, one: Placed, step: tuple[int, int]) -> float:
    """What lies straight ahead is nearer than what lies to the side."""
    aside = abs((one.x - start.x) * step[1]) + abs((one.y - start.y) * step[0])
    return _along(start, one, step) + 2 * aside
