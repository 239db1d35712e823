"""Two tables side by side on one row pitch: each gets the width its columns want."""

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from honeyledger.desktop import look
from honeyledger.desktop.widgets.table import Table

_RULE = 1
_MAY_GIVE = 48
_STACKED_ROWS = 2


class TwinTables(QWidget):
    """What went in beside what came out, an upright hairline between them."""

    def __init__(self, left: Table, right: Table) -> None:
        super().__init__()
        self._left, self._right = left, right
        for table in (left, right):
            table.setParent(self)
            # The scroll bar of one takes room that the other may have to spare.
            table.view.verticalScrollBar().rangeChanged.connect(self.share)
        self._stacked, self._room_beside = False, 0
        self._sharing = self._asked_again = False
        self._keep_height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.share()

    def sizeHint(self) -> QSize:
        return QSize(640, 200)

    def share(self) -> None:
        """Share the width by what the columns want; call it when the rows were replaced.

        Where not even names fit side by side, one stands above the other; one that is hidden
        leaves all of it to the other.
        """
        # A table that is given its width may show its scroll bar or lose it, which asks again.
        self._asked_again = self._sharing
        if self._sharing:
            return
        self._sharing = True
        self._share()
        if self._asked_again:
            self._share()
        self._sharing = False

    def _share(self) -> None:
        if self._is_alone():
            self._stacked = False
            self._keep_height()
            for table in (self._left, self._right):
                table.setGeometry(self.rect())
            return
        room = self.width() - _RULE
        one, other = self._left.wanted_width(), self._right.wanted_width()
        if one + other > room:
            one = self._left.wanted_width(tight=True)
            other = self._right.wanted_width(tight=True)
        # Stacked, the page may scroll, and its scroll bar take room that it had side by side:
        # what was too little then is too little now, or one way would always lead to the other.
        if not self._stacked:
            self._room_beside = room
        self._stacked = one + other > max(room, self._room_beside) + _MAY_GIVE
        self._keep_height()
        if self._stacked:
            half = self.height() // 2
            self._left.setGeometry(0, 0, self.width(), half)
            self._right.setGeometry(0, half, self.width(), self.height() - half)
            return
        first = round(one + (room - one - other) / 2)
        # A table that wants far more than the other may not push it out of the page.
        first = min(max(first, round(room * 0.3)), round(room * 0.7))
        self._left.setGeometry(0, 0, first, self.height())
        self._right.setGeometry(first + _RULE, 0, room - first, self.height())

    def _is_alone(self) -> bool:
        """Whether only one of the tables is wanted."""
        return self._left.isHidden() or self._right.isHidden()

    def is_stacked(self) -> bool:
        """Whether one table stands above the other."""
        return self._stacked

    def _keep_height(self) -> None:
        tables = (self._left, self._right)
        least = max(table.minimumSizeHint().height() for table in tables)
        if self._stacked:
            rows = _STACKED_ROWS * self._left.view.verticalHeader().defaultSectionSize()
            least = 2 * (least + rows)
        if self.minimumHeight() != least:
            self.setMinimumHeight(least)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._stacked or self._is_alone():
            return
        # The totals are one line under both tables.
        foot = self._left.foot
        height = self.height() - (0 if foot.isHidden() else foot.height())
        left = float(self._left.geometry().right() + 1)
        QPainter(self).fillRect(QRectF(left, 0, _RULE, height), look.colour("rule"))
