"""A row's second line, where its column is too narrow for it: it goes on under those beside it.

Figures and codes have one line, so that the room below them is free; a reason is then read and not
guessed. It goes on to the right first, begins further left where that is not enough, and takes a
third line where that is not enough either.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QTableView

from honeyledger.desktop import lettering, tokens
from honeyledger.desktop.lettering import Run
from honeyledger.desktop.models.rows import Cell, Row, RowsModel
from honeyledger.desktop.widgets.table_cells import RowDelegate, note_width


@dataclass(frozen=True, slots=True)
class _Span:
    """Where a column stands in the viewport."""

    at: int
    left: float
    right: float


class LongNotes:
    """The second lines of a table that do not fit into their columns."""

    def __init__(self, view: QTableView, model: RowsModel[Row], delegate: RowDelegate) -> None:
        self._view, self._model, self._delegate = view, model, delegate

    def _spans(self) -> list[_Span]:
        """The columns that are shown, from left to right."""
        view = self._view
        head = view.horizontalHeader()
        shown = [at for at in range(head.count()) if not view.isColumnHidden(at)]
        lefts = [(at, float(view.columnViewportPosition(at))) for at in shown]
        spans = [_Span(at, left, left + view.columnWidth(at)) for at, left in lefts]
        return sorted(spans, key=lambda span: head.visualIndex(span.at))

    def _edge(self) -> float:
        """What is further right than is seen before one scrolls sideways is no room to read in."""
        return float(self._view.viewport().width() - self._view.horizontalScrollBar().value())

    def room(self, place: int, at: int) -> QRectF:
        """Where the second line of a cell stands: up to the next one that has its own."""
        view, spans = self._view, self._spans()
        noted = {**self._model.noted(place), at: self._model.cell(place, at)}
        own = next(span for span in spans if span.at == at)
        top, height = view.rowViewportPosition(place), view.rowHeight(place)
        whole = QRectF(own.left, top, own.right - own.left, height)
        under = self._delegate.under(whole, at, noted[at])
        left, right = self._reach(noted, spans, spans.index(own), self._edge())
        under.setLeft(left)
        under.setRight(right)
        return under

    def _reach(
        self, noted: Mapping[int, Cell], spans: Sequence[_Span], own: int, edge: float
    ) -> tuple[float, float]:
        """From where to where a second line may stand: further right first, then further left."""
        cell = noted[spans[own].at]
        last = own
        while last + 1 < len(spans) and spans[last + 1].at not in noted:
            last += 1
        right = min(spans[last].right, edge) - tokens.CELL_PADDING
        left = spans[own].left + self._delegate.before_under(spans[own].at, cell)
        first = own
        while first and note_width(cell) > right - left and spans[first - 1].at not in noted:
            first -= 1
            left = spans[first].left + (tokens.CELL_PADDING if first else tokens.PANEL_SIDE - 1)
        return left, right

    def fits(self, place: int, at: int) -> bool:
        """Whether a cell's second line is seen whole."""
        return note_width(self._model.cell(place, at)) <= self.room(place, at).width() + 0.5

    def long_rows(self, rows: Iterable[int]) -> set[int]:
        """Those of them whose second line has no room in one line, however far it goes.

        Where columns stand is asked once for all of them: of a long list that is most of the work.
        """
        spans, edge = self._spans(), self._edge()
        found: set[int] = set()
        for place in rows:
            noted = self._model.noted(place)
            for own, span in enumerate(spans if noted else ()):
                if span.at not in noted:
                    continue
                left, right = self._reach(noted, spans, own, edge)
                if note_width(noted[span.at]) > right - left + 0.5:
                    found.add(place)
                    break
        return found

    def paint(self, painter: QPainter, rows: Iterable[int]) -> None:
        """Write those that the delegate left out, for want of room in their own columns."""
        shown = [span.at for span in self._spans()]
        for place in rows:
            noted = self._model.noted(place)
            for at in shown if noted else ():
                if at not in noted:
                    continue
                own = QRectF(self._view.visualRect(self._model.index(place, at)))
                if self._delegate.leaves_out(own, at, noted[at]):
                    self._write(painter, self.room(place, at), self._delegate.note_runs(noted[at]))

    def _write(self, painter: QPainter, room: QRectF, note: list[Run]) -> None:
        """A note in one line, or in as many as its row has room for."""
        row = QRectF(self._view.visualRect(self._view.indexAt(room.topLeft().toPoint())))
        most = max(1, int((row.bottom() - room.top()) // room.height()))
        for line in lettering.run_lines(note, room.width(), most):
            lettering.draw(painter, room, line)
            room = room.translated(0, room.height())
