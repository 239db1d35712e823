"""A row's second line, where its column is too narrow for it: it goes on under those beside it.

Figures and codes have one line, so that the room below them is free; a reason is then read and not
guessed. It goes on to the right first, begins further left where that is not enough, and takes a
third line where that is not enough either.
"""

from collections.abc import Iterable

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QTableView

from honeyledger.desktop import lettering, tokens
from honeyledger.desktop.lettering import Run
from honeyledger.desktop.models.rows import Row, RowsModel
from honeyledger.desktop.widgets.table_cells import RowDelegate, note_width


class LongNotes:
    """The second lines of a table that do not fit into their columns."""

    def __init__(self, view: QTableView, model: RowsModel[Row], delegate: RowDelegate) -> None:
        self._view, self._model, self._delegate = view, model, delegate

    def _columns(self) -> list[int]:
        """The columns that are shown, from left to right."""
        view = self._view
        head = view.horizontalHeader()
        shown = [at for at in range(head.count()) if not view.isColumnHidden(at)]
        return sorted(shown, key=head.visualIndex)

    def room(self, place: int, at: int) -> QRectF:
        """Where the second line of a cell stands: up to the next one that has its own."""
        view, delegate = self._view, self._delegate
        cell = self._model.cell(place, at)
        columns = self._columns()
        last = at
        for beside in columns[columns.index(at) + 1 :]:
            if self._has_note(place, beside):
                break
            last = beside
        left = float(view.columnViewportPosition(at))
        # What is further right than is seen before one scrolls sideways is no room to read in.
        edge = view.viewport().width() - view.horizontalScrollBar().value()
        right = float(min(view.columnViewportPosition(last) + view.columnWidth(last), edge))
        own = QRectF(left, view.rowViewportPosition(place), right - left, view.rowHeight(place))
        under = delegate.under(own, at, cell)
        under.setRight(right - tokens.CELL_PADDING)
        for beside in reversed(columns[: columns.index(at)]):
            if note_width(cell) <= under.width() or self._has_note(place, beside):
                break
            pad = tokens.PANEL_SIDE - 1 if beside == columns[0] else tokens.CELL_PADDING
            under.setLeft(view.columnViewportPosition(beside) + pad)
        return under

    def _has_note(self, place: int, at: int) -> bool:
        return at in self._model.noted_columns() and bool(self._model.cell(place, at).note)

    def fits(self, place: int, at: int) -> bool:
        """Whether a cell's second line is seen whole."""
        return note_width(self._model.cell(place, at)) <= self.room(place, at).width() + 0.5

    def is_long(self, place: int) -> bool:
        """Whether a second line of this row has no room in one line, however far it goes."""
        noted = [at for at in self._columns() if self._has_note(place, at)]
        return any(not self.fits(place, at) for at in noted)

    def paint(self, painter: QPainter, rows: Iterable[int]) -> None:
        """Write those that the delegate left out, for want of room in their own columns."""
        noted = [at for at in self._columns() if at in self._model.noted_columns()]
        for place in rows if noted else ():
            for at in noted:
                cell = self._model.cell(place, at)
                if not cell.note:
                    continue
                own = QRectF(self._view.visualRect(self._model.index(place, at)))
                if self._delegate.leaves_out(own, at, cell):
                    self._write(painter, self.room(place, at), self._delegate.note_runs(cell))

    def _write(self, painter: QPainter, room: QRectF, note: list[Run]) -> None:
        """A note in one line, or in as many as its row has room for."""
        row = QRectF(self._view.visualRect(self._view.indexAt(room.topLeft().toPoint())))
        most = max(1, int((row.bottom() - room.top()) // room.height()))
        for line in lettering.run_lines(note, room.width(), most):
            lettering.draw(painter, room, line)
            room = room.translated(0, room.height())
