"""The scrolling part of a table: rows, hover, selection by key, the ring round the whole row."""

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QRect,
    QRectF,
    Qt,
    QVariantAnimation,
    Signal,
)
from PySide6.QtGui import (
    QHelpEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTableView, QToolTip

from honeyledger.desktop import lettering, look, rings, style, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.rows import Row, RowsModel
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.table_cells import RowDelegate, RowState, is_cell_cut
from honeyledger.desktop.widgets.table_head import TableHead
from honeyledger.desktop.widgets.table_notes import LongNotes

_OWN_HEIGHTS_TO = 2000
# They are looked at anew whenever the columns are.
_LONG_NOTES_TO = 200


class RowsView(QTableView):
    """Rows under a head; the one with the keyboard is in hand, others may be chosen with it.

    Signals:
        opened: the key of a row, by Enter or a double click.
        copy_asked: the chosen rows are wanted for another program.
    """

    opened = Signal(str)
    copy_asked = Signal()

    def __init__(self, model: RowsModel[Row], density: Density) -> None:
        super().__init__()
        self.rows = model
        self.empty = ""
        self._density = density
        self._state = RowState()
        self.delegate = RowDelegate(density, self._state, self)
        self.head = TableHead(self)
        self.setHorizontalHeader(self.head)
        self.setItemDelegate(self.delegate)
        self.setModel(model)
        self.long_notes = LongNotes(self, model, self.delegate)
        self.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.setMouseTracking(True)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.head.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.head.let_columns_be_set()
        self.setProperty("ring", "none")
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setMinimumSectionSize(tokens.TARGET_LEAST)
        self.set_pitch(tokens.row_height(density))
        self._fade = QVariantAnimation(self)
        self._fade.setStartValue(1.0)
        self._fade.setEndValue(0.0)
        self._fade.valueChanged.connect(self._faded)
        self.doubleClicked.connect(self._open)
        model.modelReset.connect(self._rows_replaced)
        self.verticalScrollBar().rangeChanged.connect(self._stand_whole)

    def set_pitch(self, height: int) -> None:
        """The height of a row."""
        self.verticalHeader().setDefaultSectionSize(height)
        self.delegate.pitch = height
        self.setMinimumHeight(tokens.HEAD_HEIGHT + height)

    def set_heights(self, one_line: int, two_lines: int) -> None:
        """Give each row the height its lines need; in a long table all rows get two lines'."""
        count = self.rows.rowCount()
        if count > _OWN_HEIGHTS_TO:
            # Asking each of many rows costs more than the room saved.
            self.set_pitch(two_lines)
            return
        self.set_pitch(one_line)
        for place in range(count):
            self.setRowHeight(place, two_lines if self.rows.is_two_line(place) else one_line)

    def fit_notes(self, two_lines: int) -> None:
        """Give a row one line more where its second one has no room, and take it back."""
        if self.rows.rowCount() > _LONG_NOTES_TO or not self.rows.noted_columns():
            return
        noted = [at for at in range(self.rows.rowCount()) if self.rows.is_two_line(at)]
        long = self.long_notes.long_rows(noted)
        for place in noted:
            more = self.delegate.note_line() if place in long else 0
            if self.rowHeight(place) != two_lines + more:
                self.setRowHeight(place, two_lines + more)
        self._stand_whole()

    def _stand_whole(self) -> None:
        """Let the first row seen stand whole under the head, where rows or the room changed."""
        first, bar = self.rowAt(0), self.verticalScrollBar()
        over = -self.rowViewportPosition(first) if first >= 0 else 0
        if over > 0 and bar.value() < bar.maximum():
            bar.setValue(bar.value() - over)

    def rows_in_view(self) -> tuple[int, int] | None:
        """The first and the last row that is seen whole, counted from one."""
        count = self.rows.rowCount()
        if not count:
            return None
        last_pixel = self.viewport().height() - 1
        first = max(0, self.rowAt(0))
        last = self.rowAt(last_pixel)
        last = count - 1 if last < 0 else last
        if last > first and self.row_rect(last).bottom() > last_pixel:
            last -= 1
        return first + 1, last + 1

    def mark_arrived(self, place: int) -> None:
        """Tint a row that has just been recorded; with motion off the tint holds."""
        self._fade.stop()
        self._state.arrived_row = place
        self._state.arrived_share = 1.0
        self.viewport().update()
        if look.duration(1):
            total = tokens.ARRIVED_MS + tokens.SLOW_MS
            self._fade.setKeyValueAt(tokens.ARRIVED_MS / total, 1.0)
            self._fade.setDuration(total)
            self._fade.start()

    def forget_arrived(self) -> None:
        """The rows were replaced, so the place no longer says which row it was."""
        self._fade.stop()
        self._state.arrived_row = -1

    def arrived_place(self) -> int:
        """The row that is tinted as fresh, or -1."""
        return self._state.arrived_row

    def _faded(self, share: float) -> None:
        self._state.arrived_share = share
        if share <= 0.0:
            self._state.arrived_row = -1
        self.viewport().update()

    def _open(self, index: QModelIndex) -> None:
        if index.isValid():
            self.opened.emit(self.rows.key_at(index.row()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._open(self.currentIndex())
            return
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy_asked.emit()
            return
        super().keyPressEvent(event)

    def chosen_places(self) -> list[int]:
        """The rows that are chosen, from above; many are told as quickly as few."""
        chosen = self.selectionModel().selection()
        pieces = [chosen.at(at) for at in range(chosen.size())]
        return sorted({at for one in pieces for at in range(one.top(), one.bottom() + 1)})

    def chosen_keys(self) -> tuple[str, ...]:
        """The keys of all rows that are chosen, from above; () for none."""
        return tuple(self.rows.key_at(place) for place in self.chosen_places())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._hover(self.rowAt(int(event.position().y())))
        super().mouseMoveEvent(event)

    def viewportEvent(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self.tip_at(event.pos()), self)
            return True
        if event.type() in (QEvent.Type.Leave, QEvent.Type.HoverLeave):
            self._hover(-1)
        return super().viewportEvent(event)

    def tip_at(self, point: QPoint) -> str:
        """The whole of a cell that is cut, and what more there is to know of it; else nothing."""
        index = self.indexAt(point)
        if not index.isValid():
            return ""
        cell = self.rows.cell(index.row(), index.column())
        room = self.visualRect(index).width() - self.delegate.padding(index.column())
        is_under = self.rowHeight(index.row()) > self.delegate.pitch * 1.25
        has_note = bool(cell.note) and is_under
        if cell.detail:
            return "\n".join(part for part in (cell.text, cell.aside, cell.detail) if part)
        if not is_cell_cut(cell, room, self._density, with_note=not has_note) and (
            not has_note or self.long_notes.fits(index.row(), index.column())
        ):
            return ""
        return "\n".join(part for part in (cell.text, cell.aside, cell.note) if part)

    def scrollTo(
        self,
        index: QModelIndex | QPersistentModelIndex,
        hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible,
    ) -> None:
        """Bring a cell into view, and let a whole row stand under the head."""
        super().scrollTo(index, hint)
        first = self.rowAt(0)
        over = -self.rowViewportPosition(first) if first >= 0 else 0
        if over > 0 and first != index.row():
            bar = self.verticalScrollBar()
            bar.setValue(bar.value() - over + self.rowHeight(first))

    def _hover(self, row: int) -> None:
        if row != self._state.hovered:
            self._state.hovered = row
            self.viewport().update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self.viewport())
        painter.fillRect(event.rect(), look.colour("sheet"))
        painter.end()
        super().paintEvent(event)
        painter = QPainter(self.viewport())
        first, last = self.rows_in_view() or (1, 0)
        self.long_notes.paint(painter, range(first - 1, last))
        painter.fillRect(self.cut_row(), look.colour("sheet"))
        if not self.rows.rowCount():
            self._paint_empty(painter)
        elif self.hasFocus() and self.currentIndex().isValid():
            rings.draw_inset_ring(painter, QRectF(self.row_rect(self.currentIndex().row())))
        painter.end()

    def cut_row(self) -> QRect:
        """What is seen of a last row that the foot would cut: it is left out, and scrolled to."""
        seen = self.rows_in_view()
        if seen is None or seen[1] >= self.rows.rowCount():
            return QRect()
        bottom = self.row_rect(seen[1] - 1).bottom() + 2
        return QRect(0, bottom, self.viewport().width(), self.viewport().height() - bottom)

    def row_rect(self, place: int) -> QRect:
        """Where a row stands in the viewport, the whole width of it."""
        top = self.rowViewportPosition(place)
        return QRect(0, top, self.viewport().width(), self.rowHeight(place) - 1)

    def _paint_empty(self, painter: QPainter) -> None:
        hand = Hand(Type.BODY, self._density, colour="ink2")
        room = self.viewport().width() - 2 * tokens.PANEL_SIDE
        top = float(tokens.PANEL_GAP)
        for line in lettering.wrapped(self.empty, hand, room):
            rect = QRectF(tokens.PANEL_SIDE - 1, top, room, hand.line)
            lettering.draw(painter, rect, line)
            top += hand.line

    def focusInEvent(self, event: object) -> None:
        super().focusInEvent(event)  # type: ignore[arg-type]
        self._take_first()
        self.viewport().update()

    def _rows_replaced(self) -> None:
        if self.hasFocus():
            self._take_first()

    def _take_first(self) -> None:
        """Where the keyboard is, a row has it."""
        if not self.currentIndex().isValid() and self.rows.rowCount():
            self.setCurrentIndex(self.rows.index(0, 0))

    def focusOutEvent(self, event: object) -> None:
        super().focusOutEvent(event)  # type: ignore[arg-type]
        self.viewport().update()
