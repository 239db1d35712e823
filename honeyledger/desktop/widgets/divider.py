"""Two parts of a page one above the other, and the divider between them that can be dragged."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSplitter, QSplitterHandle, QWidget

from honeyledger.desktop import look, rings

_HIGH = 8
_GRIP = 48
_STEP = 24
_SHARE = 0.62


class _Handle(QSplitterHandle):
    """Dragged by mouse, or moved with Up and Down while it has the keyboard."""

    def __init__(self, splitter: QSplitter) -> None:
        super().__init__(Qt.Orientation.Vertical, splitter)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setProperty("ring", "none")
        self.setAccessibleName(self.tr("Divider: Up and Down move it"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = {Qt.Key.Key_Up: -_STEP, Qt.Key.Key_Down: _STEP}.get(Qt.Key(event.key()))
        if by is None:
            super().keyPressEvent(event)
            return
        self.moveSplitter(self.y() + by)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        rect = QRectF(self.rect())
        painter.fillRect(rect, look.colour("well"))
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, 0, self.width(), 0)
        grip = QRectF(rect.center().x() - _GRIP / 2, rect.center().y() - 1, _GRIP, 2)
        painter.fillRect(grip, look.colour("edge"))
        if self.hasFocus():
            rings.draw_inset_ring(painter, rect)


class Divider(QSplitter):
    """An upper and a lower part; neither can be dragged away altogether.

    Args:
        upper_least: what the upper part keeps until the divider is dragged.
        lower_wants: what the lower part gets where there is room, three rows of a table.
    """

    def __init__(
        self, upper: QWidget, lower: QWidget, *, upper_least: int = 200, lower_wants: int = 208
    ) -> None:
        super().__init__(Qt.Orientation.Vertical)
        self._upper_least, self._lower_wants = upper_least, lower_wants
        self._moved = False
        self.setHandleWidth(_HIGH)
        self.addWidget(upper)
        self.addWidget(lower)
        self.setChildrenCollapsible(False)
        self.splitterMoved.connect(self._keep)

    def _keep(self) -> None:
        self._moved = True

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if not self._moved:
            room = self.height() - _HIGH
            upper = max(self._upper_least, min(int(room * _SHARE), room - self._lower_wants))
            self.setSizes([upper, room - upper])

    def createHandle(self) -> QSplitterHandle:
        return _Handle(self)
