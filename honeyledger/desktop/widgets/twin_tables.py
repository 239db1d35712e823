"""Two tables side by side on one row pitch: each gets the width its columns want."""

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from honeyledger.desktop import look
from honeyledger.desktop.widgets.table import Table

_RULE = 1


class TwinTables(QWidget):
    """What went in beside what came out, an upright hairline between them."""

    def __init__(self, left: Table, right: Table) -> None:
        super().__init__()
        self._left, self._right = left, right
        for table in (left, right):
            table.setParent(self)
            # The scroll bar of one takes room that the other may have to spare.
            table.view.verticalScrollBar().rangeChanged.connect(self.share)
        least = max(left.minimumSizeHint().height(), right.minimumSizeHint().height())
        self.setMinimumHeight(least)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.share()

    def sizeHint(self) -> QSize:
        return QSize(640, 200)

    def share(self) -> None:
        """Share the width by what the columns want; call it when the rows were replaced."""
        room = self.width() - _RULE
        one, other = self._left.wanted_width(), self._right.wanted_width()
        if one + other > room:
            one = self._left.wanted_width(tight=True)
            other = self._right.wanted_width(tight=True)
        first = round(one + (room - one - other) / 2)
        # A table that wants far more than the other may not push it out of the page.
        first = min(max(first, round(room * 0.3)), round(room * 0.7))
        self._left.setGeometry(0, 0, first, self.height())
        self._right.setGeometry(first + _RULE, 0, room - first, self.height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        # The totals are one line under both tables.
        foot = self._left.foot
        height = self.height() - (0 if foot.isHidden() else foot.height())
        left = float(self._left.geometry().right() + 1)
        QPainter(self).fillRect(QRectF(left, 0, _RULE, height), look.colour("rule"))
