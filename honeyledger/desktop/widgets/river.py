"""The river of a trace: pointed at, walked with the arrows, opened, printed.

A click opens a lot's card, Enter puts it in the middle of a new trace. The table under the river
lists every lot, so nothing is shown here only.
"""

from bisect import bisect_right
from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPoint, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QScrollArea, QToolTip, QWidget

from honeyledger.desktop import lettering, look, style
from honeyledger.desktop.models.river_graph import FOLD, RiverGraph
from honeyledger.desktop.models.river_layout import (
    HIT_LEAST,
    RiverGeometry,
    folded_to,
    lay_out_river,
    river_width,
)
from honeyledger.desktop.models.river_plates import HEAD, PlacedSpine
from honeyledger.desktop.models.river_words import node_sentence, node_words, river_sentences
from honeyledger.desktop.widgets.river_paint import (
    Shown,
    paint_river,
    plate_measure,
    spine_area,
)

_ZOOMS = (1.0, 1.5, 2.0, 3.0, 4.0)
_LARGER = {Qt.Key.Key_Plus: 1, Qt.Key.Key_Equal: 1, Qt.Key.Key_Minus: -1}
LEAST_HEIGHT = 248


class RiverCanvas(QWidget):
    """What is painted and answers; the scroll area around it shows a part of it."""

    opened = Signal(str)
    centred = Signal(str)
    selected = Signal(str)
    reshaped = Signal()
    zoomed = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self._graph: RiverGraph | None = None
        self._shown_graph: RiverGraph | None = None
        self._geometry: RiverGeometry | None = None
        self._unfolded: set[int] = set()
        self._selected = ""
        self._current = ""
        self._pointed = ""
        self._walking = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setProperty("ring", "none")
        self.setMouseTracking(True)

    def show_graph(self, graph: RiverGraph) -> None:
        """Show another trace."""
        self._graph = graph
        self._unfolded = set()
        self._selected = self._current = self._pointed = ""
        self.setAccessibleName(self.tr("The river of this trace"))
        self.setAccessibleDescription("\n".join(river_sentences(graph)))

    def lay_out(self, width: float, height: float) -> float:
        """Place the river in that space; gives back the height it needs."""
        if self._graph is None:
            return height
        self._shown_graph = folded_to(self._graph, height, self._small_words(), self._unfolded)
        self._geometry = lay_out_river(self._shown_graph, width, height, plate_measure)
        self.update()
        return self._geometry.height

    def _small_words(self) -> str:
        return lettering.translated("{n} small ones")

    def columns(self) -> int:
        """How many columns the river has."""
        return len(self._graph.columns) if self._graph is not None else 0

    def geometry_now(self) -> RiverGeometry | None:
        """Where everything stands."""
        return self._geometry

    def graph(self) -> RiverGraph | None:
        """The whole graph, nothing folded."""
        return self._graph

    def graph_now(self) -> RiverGraph | None:
        """The graph as it is drawn, small lots folded."""
        return self._shown_graph

    def select(self, key: str) -> None:
        """Frame a lot, as its row in the table is chosen; the keyboard will begin there."""
        self._selected = key
        shown = self.stands_for(key)
        if shown:
            self._current = shown
        self.update()

    def stands_for(self, key: str) -> str:
        """The lot itself, or the band it is folded into; "" for what is not in the river."""
        if self._geometry is None or self._graph is None:
            return ""
        if self._geometry.spine(key) is not None:
            return key
        column = next((node.column for node in self._graph.nodes if node.key == key), None)
        return "" if column is None else f"{FOLD}{column}"

    def selected_key(self) -> str:
        """The framed lot."""
        return self._selected

    def current_key(self) -> str:
        """The lot that has the keyboard."""
        return self._current

    def unfold(self, column: int) -> None:
        """Show every lot of a column."""
        self._unfolded.add(column)
        self.reshaped.emit()

    def spine_at(self, x: float, y: float) -> PlacedSpine | None:
        """The lot at a point: its spine or plate, at least 40 high; the nearest of several."""
        if self._geometry is None:
            return None
        best: PlacedSpine | None = None
        nearest = float("inf")
        for spine in self._geometry.spines:
            area = spine_area(spine).adjusted(-8, 0, 8, 0)
            more = max(0.0, (HIT_LEAST - area.height()) / 2)
            area.adjust(0, -more, 0, more)
            away = abs(spine.middle - y)
            if area.contains(x, y) and away < nearest:
                best, nearest = spine, away
        return best

    def _press(self, spine: PlacedSpine) -> None:
        if spine.node.key.startswith(FOLD):
            self.unfold(spine.node.column)
            return
        self.select(spine.node.key)
        self.selected.emit(spine.node.key)
        self.opened.emit(spine.node.key)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        spine = self.spine_at(at.x(), at.y())
        if spine is not None and event.button() == Qt.MouseButton.LeftButton:
            self._current = spine.node.key
            self._press(spine)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        spine = self.spine_at(at.x(), at.y())
        self._point(spine.node.key if spine is not None else "")

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._point("")

    def _point(self, key: str) -> None:
        if key != self._pointed:
            self._pointed = key
            pointing = Qt.CursorShape.PointingHandCursor if key else Qt.CursorShape.ArrowCursor
            self.setCursor(pointing)
            self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        spine = self._geometry.spine(self._current) if self._geometry is not None else None
        if spine is not None and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self._current.startswith(FOLD):
                self._press(spine)
            else:
                self.centred.emit(self._current)
        elif spine is not None and key == Qt.Key.Key_Space:
            self._press(spine)
        elif key in _LARGER:
            self.zoomed.emit(_LARGER[key])
        elif not self._walk(key):
            super().keyPressEvent(event)

    def _walk(self, key: Qt.Key) -> bool:
        """Right and left along the widest ribbon, up and down within the column."""
        steps = {
            Qt.Key.Key_Right: self._along(forward=True),
            Qt.Key.Key_Left: self._along(forward=False),
            Qt.Key.Key_Up: self._beside(-1),
            Qt.Key.Key_Down: self._beside(1),
        }
        if key not in steps:
            return False
        self._walking = True
        if steps[key]:
            self._go_to(steps[key])
        self.update()
        return True

    def _along(self, *, forward: bool) -> str:
        if self._shown_graph is None:
            return ""
        ends = [
            (one.mass_g, one.target if forward else one.source)
            for one in self._shown_graph.ribbons
            if (one.source if forward else one.target) == self._current
        ]
        return max(ends)[1] if ends else ""

    def _beside(self, by: int) -> str:
        spine = self._geometry.spine(self._current) if self._geometry is not None else None
        if self._geometry is None or spine is None:
            return ""
        column = sorted(
            (one for one in self._geometry.spines if one.left == spine.left),
            key=lambda one: one.top,
        )
        at = column.index(spine) + by
        return column[at].node.key if 0 <= at < len(column) else ""

    def _go_to(self, key: str) -> None:
        self._current = key
        if self._shown_graph is not None:
            self.setAccessibleName(node_sentence(self._shown_graph, key))
            event = QAccessibleEvent(self, QAccessible.Event.NameChanged)
            QAccessible.updateAccessibility(event)
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        # Coming to it by Tab is walking; a window that only becomes active fades nothing.
        self._walking = event.reason() in (
            Qt.FocusReason.TabFocusReason,
            Qt.FocusReason.BacktabFocusReason,
        )
        spines = self._geometry.spines if self._geometry is not None else ()
        keys = [spine.node.key for spine in spines]
        if keys and self._current not in keys:
            self._go_to(self._selected if self._selected in keys else keys[0])
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def shown(self) -> Shown:
        """What is chosen, pointed at and walked to."""
        focused = self._current if self.hasFocus() else ""
        about = self._pointed or (focused if self._walking else "")
        lit: Sequence[str] = ()
        if about and self._shown_graph is not None and len(self._shown_graph.nodes) > 1:
            lit = tuple(self._shown_graph.reach(about))
        return Shown(self.stands_for(self._selected), focused, self._pointed, frozenset(lit))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("sheet"))
        if self._geometry is not None and self._shown_graph is not None:
            paint_river(painter, self._geometry, self._shown_graph.columns, self.shown())

    def tip_at(self, point: QPoint) -> str:
        """What is told of a point: a lot with its numbers, or a column's head in full."""
        geometry, graph = self._geometry, self._shown_graph
        if geometry is None or graph is None:
            return ""
        if point.y() < HEAD:
            # The last head stands flush with the right edge and reaches back to the left.
            at = max(0, bisect_right(geometry.columns, point.x()) - 1)
            column = graph.columns[at]
            return "\n".join(part for part in (column.title, column.dates) if part)
        spine = self.spine_at(point.x(), point.y())
        return node_words(spine.node) if spine else ""

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self.tip_at(event.pos()), self)
            return True
        return super().event(event)


class River(QScrollArea):
    """The river with its scroll bar and zoom.

    Signals:
        opened: a lot that was clicked, for its card.
        centred: a lot that Enter was pressed on, for a new trace.
        selected: a lot that was chosen, for the table's row.
    """

    opened = Signal(str)
    centred = Signal(str)
    selected = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._zoom = 1.0
        self.canvas = RiverCanvas()
        self.setWidget(self.canvas)
        self.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumHeight(120)
        self.canvas.opened.connect(self.opened)
        self.canvas.centred.connect(self.centred)
        self.canvas.selected.connect(self.selected)
        self.canvas.reshaped.connect(self._lay_out)
        self.canvas.zoomed.connect(self.zoom_by)

    def show_graph(self, graph: RiverGraph) -> None:
        """Show another trace."""
        self.canvas.show_graph(graph)
        self._lay_out()

    def select(self, key: str) -> None:
        """Frame a lot and bring it into view."""
        self.canvas.select(key)
        geometry = self.canvas.geometry_now()
        shown = self.canvas.stands_for(key)
        spine = geometry.spine(shown) if geometry is not None else None
        if spine is not None:
            self.ensureVisible(int(spine.left), int(spine.middle), 0, 40)

    def show_beginning(self) -> None:
        """Bring the first column into view."""
        self.horizontalScrollBar().setValue(0)
        self.verticalScrollBar().setValue(0)

    def set_zoom(self, zoom: float) -> None:
        """Draw the river so many times higher than its place."""
        self._zoom = min(_ZOOMS[-1], max(_ZOOMS[0], zoom))
        self._lay_out()

    def zoom_by(self, steps: int) -> None:
        """Draw it larger or smaller by so many steps."""
        nearest = min(range(len(_ZOOMS)), key=lambda at: abs(_ZOOMS[at] - self._zoom))
        self.set_zoom(_ZOOMS[min(len(_ZOOMS) - 1, max(0, nearest + steps))])

    def zoom(self) -> float:
        """How many times higher than its place it is drawn."""
        return self._zoom

    def _lay_out(self) -> None:
        size = self.viewport().size()
        # Where the window is too narrow for every column's plates, the river scrolls sideways.
        width = max(size.width(), int(river_width(self.canvas.columns())))
        needed = self.canvas.lay_out(float(width), size.height() * self._zoom)
        self.canvas.resize(width, int(needed))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    def wheelEvent(self, event: QWheelEvent) -> None:
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom_by(1 if event.angleDelta().y() > 0 else -1)
            event.accept()
            return
        super().wheelEvent(event)
