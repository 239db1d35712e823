"""The river itself: pointed at, walked with the arrows, pressed, pulled about.

A click opens a lot's card, Enter puts it in the middle of a new trace, a band opens into its lots.
The table under the river lists every lot, so nothing is shown here only.
"""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import QToolTip, QWidget

from honeyledger.desktop import look
from honeyledger.desktop.models.river_fold import FOLD
from honeyledger.desktop.models.river_layout import RiverGeometry
from honeyledger.desktop.models.river_plates import HEAD, PlacedSpine
from honeyledger.desktop.models.river_walk import LaidRiver
from honeyledger.desktop.models.river_words import node_sentence, node_words
from honeyledger.desktop.widgets.river_paint import Shown, paint_frame, paint_pointers
from honeyledger.desktop.widgets.river_picture import Lane, RiverPicture

LARGER = {Qt.Key.Key_Plus: 1, Qt.Key.Key_Equal: 1, Qt.Key.Key_Minus: -1, Qt.Key.Key_0: 0}
_STEPS: dict[Qt.Key, Callable[[LaidRiver, str], str]] = {
    Qt.Key.Key_Right: lambda laid, now: laid.along(now, forward=True),
    Qt.Key.Key_Left: lambda laid, now: laid.along(now, forward=False),
    Qt.Key.Key_Up: lambda laid, now: laid.beside(now, -1),
    Qt.Key.Key_Down: lambda laid, now: laid.beside(now, 1),
    Qt.Key.Key_Home: lambda laid, _: laid.end_key(last=False),
    Qt.Key.Key_End: lambda laid, _: laid.end_key(last=True),
}
_TAB = (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)


class RiverCanvas(QWidget):
    """What is painted and answers; the scroll area around it shows a part of it.

    Signals:
        opened, centred, selected: a lot that was pressed, gone on from, chosen.
        reshaped: bands were opened or folded.
        zoomed: steps larger or smaller; 0 for as large as its place.
        walked: the lot that the keyboard has come to.
        pulled: how far the water was pulled, to the right and down.
    """

    opened = Signal(str)
    centred = Signal(str)
    selected = Signal(str)
    reshaped = Signal()
    zoomed = Signal(int)
    walked = Signal(str)
    pulled = Signal(int, int)

    def __init__(self, lane: Lane) -> None:
        super().__init__()
        self._laid: LaidRiver | None = None
        self._unfolded: set[int] = set()
        self._selected = self._current = self._pointed = ""
        self._walking = False
        self._held: QPoint | None = None
        self._picture = RiverPicture(lane)
        self._picture.changed.connect(self.update)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setProperty("ring", "none")
        self.setMouseTracking(True)

    # What is shown.

    def begin_anew(self) -> None:
        """Another trace comes."""
        self._laid = None
        self._unfolded = set()
        self._selected = self._current = self._pointed = ""
        self.setAccessibleName(self.tr("The river of this trace"))
        self.setAccessibleDescription("")
        self.update()

    def show_laid(self, laid: LaidRiver) -> None:
        """Show a river that was laid out."""
        self._laid = laid
        self.setAccessibleDescription(laid.words)
        if laid.spine(self._current) is None:
            self._current = laid.stands_for(self._current) or laid.stands_for(self._selected)
        if self.hasFocus() and not self._current:
            self._go_to(laid.first_key())
        self.update()

    def laid(self) -> LaidRiver | None:
        """The river as it lies there."""
        return self._laid

    def geometry_now(self) -> RiverGeometry | None:
        """Where everything stands."""
        return self._laid.geometry if self._laid is not None else None

    def unfolded(self) -> frozenset[int]:
        """The columns that show every lot."""
        return frozenset(self._unfolded)

    def select(self, key: str) -> None:
        """Frame a lot, as its row in the table is chosen; the keyboard will begin there."""
        self._selected = key
        shown = self.stands_for(key)
        if shown:
            self._current = shown
        self.update()

    def stands_for(self, key: str) -> str:
        """The lot itself, or the band it is folded into; "" for what is not in the river."""
        return self._laid.stands_for(key) if self._laid is not None else ""

    def selected_key(self) -> str:
        """The framed lot."""
        return self._selected

    def current_key(self) -> str:
        """The lot that has the keyboard."""
        return self._current

    # Bands.

    def unfold(self, column: int) -> None:
        """Show every lot of a column."""
        self._unfolded.add(column)
        self.reshaped.emit()

    def fold(self, *columns: int) -> bool:
        """Fold columns again, all of them where none is named; whether any was open."""
        folding = self._unfolded & set(columns or self._unfolded)
        self._unfolded -= folding
        if folding:
            self.reshaped.emit()
        return bool(folding)

    # By mouse.

    def spine_at(self, x: float, y: float) -> PlacedSpine | None:
        """The lot at a point, as far as it is not under the heads."""
        if self._laid is None or y < self._seen().top() + HEAD - 4:
            return None
        return self._laid.at(x, y)

    def _seen(self) -> QRect:
        return self.visibleRegion().boundingRect()

    def _press(self, spine: PlacedSpine) -> None:
        if spine.node.key.startswith(FOLD):
            self.unfold(spine.node.column)
            return
        self.select(spine.node.key)
        self.selected.emit(spine.node.key)
        self.opened.emit(spine.node.key)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        spine, head = self.spine_at(at.x(), at.y()), self._head_at(at.toPoint())
        if event.button() == Qt.MouseButton.LeftButton and spine is not None:
            self._current = spine.node.key
            self._press(spine)
        elif head in self._unfolded:
            self.fold(head)
        elif event.button() in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            self._held = event.globalPosition().toPoint()
            self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._held = None
        self._point(self._pointed, anew=True)
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held is not None:
            now = event.globalPosition().toPoint()
            by, self._held = now - self._held, now
            self.pulled.emit(by.x(), by.y())
            return
        at = event.position()
        spine = self.spine_at(at.x(), at.y())
        self._point(spine.node.key if spine is not None else "")

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        self._point("")

    def _point(self, key: str, *, anew: bool = False) -> None:
        if key != self._pointed or anew:
            self._pointed = key
            pointing = Qt.CursorShape.PointingHandCursor if key else Qt.CursorShape.ArrowCursor
            self.setCursor(pointing)
            self.update()

    def _head_at(self, point: QPoint) -> int:
        """The column whose head is at a point; -1 for none."""
        if self._laid is None or point.y() >= self._seen().top() + HEAD - 4:
            return -1
        return self._laid.column_at(point.x())

    # By key.

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        spine = self._laid.spine(self._current) if self._laid is not None else None
        if spine is not None and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self._current.startswith(FOLD):
                self._press(spine)
            else:
                self.centred.emit(self._current)
        elif spine is not None and key == Qt.Key.Key_Space:
            self._press(spine)
        elif key in LARGER:
            self.zoomed.emit(LARGER[key])
        elif key == Qt.Key.Key_Escape and self.fold():
            return
        elif not self._walk(key):
            super().keyPressEvent(event)

    def _walk(self, key: Qt.Key) -> bool:
        """Right and left along the widest ribbon, up and down within the column; to either end."""
        if self._laid is None or key not in _STEPS:
            return False
        self._walking = True
        self._go_to(_STEPS[key](self._laid, self._current))
        self.update()
        return True

    def _go_to(self, key: str) -> None:
        if not key or self._laid is None:
            return
        self._current = key
        self.setAccessibleName(node_sentence(self._laid.graph, key))
        event = QAccessibleEvent(self, QAccessible.Event.NameChanged)
        QAccessible.updateAccessibility(event)
        self.walked.emit(key)
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        # Coming to it by Tab is walking; a window that only becomes active fades nothing.
        self._walking = event.reason() in _TAB
        if self._laid is not None:
            known = self._laid.spine(self._current) is not None
            shown = self._current if known else self.stands_for(self._selected)
            self._go_to(shown or self._laid.first_key())
        self.update()

    # Painting.

    def shown(self) -> Shown:
        """What is chosen, pointed at and walked to."""
        focused = self._current if self.hasFocus() else ""
        about = self._pointed or (focused if self._walking else "")
        lit = self._laid.lit_by(about) if about and self._laid is not None else frozenset()
        return Shown(self.stands_for(self._selected), focused, self._pointed, lit)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("sheet"))
        laid = self._laid
        if laid is None or not laid.graph.nodes:
            return
        shown, seen = self.shown(), self._seen()
        lit = frozenset(shown.lit)
        self._picture.draw(painter, laid, lit, seen, self.devicePixelRatioF())
        paint_pointers(painter, laid.geometry, shown)
        whole = QRectF(0, 0, laid.geometry.width, laid.geometry.height)
        frame = QRectF(seen).intersected(whole)
        paint_frame(painter, laid.geometry, laid.graph.columns, frame)

    def tip_at(self, point: QPoint) -> str:
        """What is told of a point: a lot with its numbers, or a column's head in full."""
        if self._laid is None:
            return ""
        head = self._head_at(point)
        if head >= 0:
            return self._laid.head_words(head)
        spine = self.spine_at(point.x(), point.y())
        return node_words(spine.node) if spine else ""

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self.tip_at(event.pos()), self)
            return True
        return super().event(event)
