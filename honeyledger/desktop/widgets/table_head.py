"""The head of a table: titles in caption, the unit on a second line, sorting by a click."""

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import QHeaderView, QWidget

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.models.rows import Column, Row
from honeyledger.desktop.tokens import SEMIBOLD, Type
from honeyledger.desktop.widgets.table_cells import draw_sort_arrow

HEAD = Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink2")
_ARROW_ROOM = 13


def head_width(column: Column[Row]) -> float:
    """The room a head wants, without padding."""
    return max(lettering.width([HEAD.run(line)]) for line in (column.title, column.unit))


class TableHead(QHeaderView):
    """A head 48 high that stays while the rows scroll.

    Signals:
        let_go: the mouse was let go, after whatever it did to the columns.
    """

    let_go = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.is_held = False
        self.right_pads: list[int] = []
        self.heading = ""
        self.sorted_by = ""
        self.descending = False
        self.setSectionsClickable(True)
        self.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setHighlightSections(False)
        self.setMinimumSectionSize(24)
        self.setFixedHeight(tokens.HEAD_HEIGHT)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def tip_at(self, at: QPoint) -> str:
        """A title whole, where its column has no room for it."""
        place, across = self.logicalIndexAt(at), Qt.Orientation.Horizontal
        return str(self.model().headerData(place, across, Qt.ItemDataRole.ToolTipRole) or "")

    def let_columns_be_set(self) -> None:
        """Let columns be moved and made wider with the mouse, all but the first one's place."""
        self.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self.setSectionsMovable(True)
        self.setFirstSectionMovable(False)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.is_held = True
        super().mousePressEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.is_held = True
        super().mouseDoubleClickEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        self.is_held = False
        self.let_go.emit()

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), tokens.HEAD_HEIGHT)

    def paintSection(self, painter: QPainter, rect: QRect, logicalIndex: int) -> None:
        painter.save()
        painter.fillRect(rect, look.colour("well"))
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        column = self.model().headerData(
            logicalIndex, Qt.Orientation.Horizontal, Qt.ItemDataRole.UserRole
        )
        if isinstance(column, Column):
            self._paint_words(painter, QRectF(rect), column, logicalIndex)
        painter.restore()

    def _paint_words(
        self, painter: QPainter, rect: QRectF, column: Column[object], place: int
    ) -> None:
        pad = self.right_pads[place] if place < len(self.right_pads) else tokens.CELL_PADDING
        left_pad = tokens.PANEL_SIDE - 1 if place == 0 else tokens.CELL_PADDING
        if column.is_right:
            left_pad = 2
        inner = rect.adjusted(left_pad, 0, -pad, -1)
        if place == 0 and self.heading:
            run = Hand(Type.TITLE).run(self.heading)
            lettering.draw(painter, inner, [run])
            return
        side = Side.RIGHT if column.is_right else Side.LEFT
        lines = [column.title, column.unit] if column.unit else [column.title]
        top = inner.center().y() - HEAD.line * len(lines) / 2 + 1
        for number, line in enumerate(lines):
            room = QRectF(inner.left(), top, inner.width(), HEAD.line)
            if number == 0 and self.sorted_by == column.key:
                room = self._with_arrow(painter, room, line, right=column.is_right)
            lettering.draw(painter, room, [HEAD.run(line)], side)
            top += HEAD.line - 1

    def _with_arrow(self, painter: QPainter, room: QRectF, line: str, *, right: bool) -> QRectF:
        width = lettering.width([HEAD.run(line)])
        # The arrow stands in the padding, so ordering by a column never changes its width.
        left = room.right() - width - _ARROW_ROOM if right else room.left() + width + 3
        draw_sort_arrow(painter, left, room.center().y(), down=self.descending)
        return room
