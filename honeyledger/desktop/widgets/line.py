"""The line across the top: seven places on one channel, and three tools apart from it.

It is the navigation. The widget holds the figures and says which place or tool was pressed;
opening a station is for whoever listens.
"""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, QVariantAnimation, Signal
from PySide6.QtGui import QHoverEvent, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from honeyledger.desktop import icons, look, rings, tokens
from honeyledger.desktop.models.line_figures import LineFigures, place_sentence
from honeyledger.desktop.models.line_layout import (
    CHANNEL_MIDDLE,
    Box,
    LineGeometry,
    lay_out_line,
)
from honeyledger.desktop.widgets import line_paint
from honeyledger.desktop.widgets.line_channel import (
    Stretch,
    between,
    draw_channel,
    draw_gap,
    stretches,
)

TOOLS = ("trace", "season", "setup")
SCAN = "scan"
MORE = "more"


class Spot(QAbstractButton):
    """What answers to a press, a key and a screen reader over a place; the line paints it."""

    def __init__(self, key: str, line: QWidget) -> None:
        super().__init__(line)
        self.key = key
        self._line = line
        self.setProperty("ring", "none")
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self.hasFocus():
            painter = QPainter(self)
            inset = QRectF(self.rect()).adjusted(1, 1, -1, -2)
            rings.draw_inset_ring(painter, inset)

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHoverEvent) and event.type() != QEvent.Type.HoverMove:
            self._line.update()
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if by is not None and isinstance(self._line, LineBar):
            self._line.walk(self, by)
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)


class LineBar(QWidget):
    """The strip of 88, or of 56 where the window is narrow.

    Signals:
        pressed: the key of a place ("dock") or a tool ("trace"), or "scan" and "more".
    """

    pressed = Signal(str)

    def __init__(self, tool_names: Sequence[str] | None = None) -> None:
        super().__init__()
        self._figures: LineFigures | None = None
        self._geometry: LineGeometry | None = None
        self._open = ""
        self._tool_names = tuple(
            tool_names or (self.tr("Trace"), self.tr("Season"), self.tr("Setup"))
        )
        self._spots: dict[str, Spot] = {}
        self._channel: list[Stretch] = []
        self._before: list[Stretch] = []
        self._change = QVariantAnimation(self)
        self._change.setStartValue(0.0)
        self._change.setEndValue(1.0)
        self._change.valueChanged.connect(self.update)
        self.setAccessibleName(self.tr("The line through the house"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(tokens.LINE_HEIGHT)

    def show_figures(self, figures: LineFigures) -> None:
        """Show the house as it is now; thickness and colour ease from what they were."""
        first = self._figures is None
        before = self._now()
        self._figures = figures
        self._lay_out()
        self._before = before
        if not first and len(before) == len(self._channel) and before != self._channel:
            self._change.setDuration(look.duration(tokens.SLOW_MS))
            self._change.start()

    def open_place(self, key: str) -> None:
        """Show which station is open."""
        self._open = key
        self._lay_out()

    def opened(self) -> str:
        """The key of what is shown as open."""
        return self._open

    def geometry_now(self) -> LineGeometry | None:
        """Where everything stands, or None before there are figures."""
        return self._geometry

    def names(self) -> dict[str, str]:
        """How each place and tool is called, by its key."""
        places = self._figures.places if self._figures else ()
        made = {place.key: place.name for place in places}
        return made | dict(zip(TOOLS, self._tool_names, strict=True))

    def tool_names(self) -> tuple[str, ...]:
        """How the three tools are called."""
        return self._tool_names

    def spot(self, key: str) -> Spot:
        """What answers for a place or a tool."""
        return self._spots[key]

    def spots(self) -> list[Spot]:
        """All that can be pressed, from left to right."""
        return sorted(
            (spot for spot in self._spots.values() if not spot.isHidden()),
            key=lambda spot: spot.x(),
        )

    def walk(self, start: Spot, by: int) -> None:
        """Move the keyboard to a neighbour."""
        row = self.spots()
        at = (row.index(start) + by) % len(row)
        row[at].setFocus(Qt.FocusReason.TabFocusReason)

    def _now(self) -> list[Stretch]:
        if self._change.state() != QVariantAnimation.State.Running:
            return self._channel
        return between(self._before, self._channel, self._change.currentValue())

    def _place_keys(self) -> list[str]:
        return [place.key for place in self._figures.places] if self._figures else []

    def _lay_out(self) -> None:
        if self._figures is None:
            return
        keys = self._place_keys()
        at = keys.index(self._open) if self._open in keys else -1
        geometry = lay_out_line(self._figures, float(self.width()), open_place=at)
        self._geometry = geometry
        self._change.stop()
        self._channel = stretches(geometry.pieces)
        self.setFixedHeight(int(geometry.height))
        boxes = dict(zip(keys, (place.hit for place in geometry.places), strict=True))
        boxes.update(zip(TOOLS, geometry.tools, strict=False))
        if geometry.scan is not None and geometry.more is not None:
            boxes[SCAN], boxes[MORE] = geometry.scan, geometry.more
        self._place_spots(boxes)
        self.update()

    def _place_spots(self, boxes: dict[str, Box]) -> None:
        for key in boxes:
            if key not in self._spots:
                made = self._spots[key] = Spot(key, self)
                made.clicked.connect(lambda _checked=False, key=key: self.pressed.emit(key))
        for key, spot in self._spots.items():
            box = boxes.get(key)
            spot.setVisible(box is not None)
            if box is not None:
                spot.setGeometry(line_paint.rect_of(box).toRect())
                name = self._name(key)
                spot.setAccessibleName(name)
                spot.setToolTip(name)
        self._set_tab_stop()

    def _set_tab_stop(self) -> None:
        """Tab comes to one place, the open one; the arrows go on from there."""
        row = self.spots()
        stop = self._spots.get(self._open) or (row[0] if row else None)
        for spot in row:
            spot.setFocusPolicy(
                Qt.FocusPolicy.StrongFocus if spot is stop else Qt.FocusPolicy.ClickFocus
            )

    def _name(self, key: str) -> str:
        keys = self._place_keys()
        if self._figures is not None and key in keys:
            return place_sentence(self._figures, keys.index(key))
        if key in TOOLS:
            return self._tool_names[TOOLS.index(key)]
        return {SCAN: self.tr("Scan or type any code"), MORE: self.tr("More")}[key]

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    def sizeHint(self) -> QSize:
        return QSize(1280, self.height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("band"))
        figures, geometry = self._figures, self._geometry
        if figures is None or geometry is None:
            return
        for key, spot in self._spots.items():
            if not spot.isHidden():
                box = Box(spot.x(), spot.y(), spot.width(), spot.height())
                line_paint.paint_ground(
                    painter, box, is_open=key == self._open, hovered=spot.underMouse()
                )
        line_paint.paint_rules(painter, geometry, self._open_box())
        if geometry.is_narrow:
            self._paint_narrow(painter, figures, geometry)
        else:
            self._paint_strip(painter, figures, geometry)

    def _open_box(self) -> Box | None:
        spot = self._spots.get(self._open)
        if spot is None or spot.isHidden():
            return None
        return Box(spot.x(), spot.y(), spot.width(), spot.height())

    def _paint_strip(
        self, painter: QPainter, figures: LineFigures, geometry: LineGeometry
    ) -> None:
        draw_channel(painter, self._now(), CHANNEL_MIDDLE)
        for place, box in zip(figures.places, geometry.places, strict=True):
            line_paint.paint_words(painter, place, box, geometry)
            line_paint.paint_badges(painter, place, box.column.left, CHANNEL_MIDDLE)
        for key, name, tool in zip(TOOLS, self._tool_names, geometry.tools, strict=True):
            line_paint.paint_tool(
                painter,
                tool,
                key,
                name,
                is_open=key == self._open,
                named=geometry.tool_names,
            )

    def _paint_narrow(
        self, painter: QPainter, figures: LineFigures, geometry: LineGeometry
    ) -> None:
        for gap, stretch in zip(geometry.gaps, self._now(), strict=True):
            draw_gap(painter, line_paint.rect_of(gap), stretch, geometry.height / 2)
        for place, box in zip(figures.places, geometry.places, strict=True):
            line_paint.paint_narrow(painter, place, box, geometry)
        for icon, end in ((SCAN, geometry.scan), (MORE, geometry.more)):
            if end is not None:
                icons.draw(painter, icon, end.middle - 12, geometry.height / 2 - 12, 24)
