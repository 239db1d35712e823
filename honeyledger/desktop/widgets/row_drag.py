"""Rows of a table that are dragged to another place with the mouse or a finger."""

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from honeyledger.desktop.widgets.table import Table


class RowDrag(QObject):
    """Watches a table's rows; the order itself is kept where the rows come from.

    Signals:
        moved: the key of a row, and the place it was let go at.
    """

    moved = Signal(str, int)

    def __init__(self, table: Table) -> None:
        super().__init__(table)
        self._table = table
        # Where a row stands is what is decided here: in another order a place would mean nothing.
        table.sorts_itself = False
        self._key = ""
        self._from = QPoint()
        self._is_dragging = False
        table.view.viewport().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QMouseEvent):
            at = event.position().toPoint()
            if event.type() == QEvent.Type.MouseButtonPress:
                self._press(at, event)
            elif event.type() == QEvent.Type.MouseMove and self._key:
                self._drag(at)
                return self._is_dragging
            elif event.type() == QEvent.Type.MouseButtonRelease and self._key:
                self._release(at)
        return super().eventFilter(watched, event)

    def _press(self, at: QPoint, event: QMouseEvent) -> None:
        place = self._table.view.rowAt(at.y())
        is_left = event.button() == Qt.MouseButton.LeftButton
        self._key = self._table.model.key_at(place) if is_left and place >= 0 else ""
        self._from, self._is_dragging = at, False

    def _drag(self, at: QPoint) -> None:
        far = (at - self._from).manhattanLength() >= QApplication.startDragDistance()
        if far and not self._is_dragging:
            self._is_dragging = True
            self._table.view.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)

    def _release(self, at: QPoint) -> None:
        key, was_dragging = self._key, self._is_dragging
        self._key, self._is_dragging = "", False
        if not was_dragging:
            return
        self._table.view.viewport().unsetCursor()
        place = self._table.view.rowAt(at.y())
        if place < 0:
            place = 0 if at.y() < 0 else self._table.model.rowCount() - 1
        self.moved.emit(key, place)
