"""A table as the stations use it: head, rows, what stands above the foot, pinned totals.

Sorting, filtering and finding are done where the rows come from; a small table may be asked to
sort the rows it holds. Selection is kept by key when the rows are replaced.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, QObject, Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.models.rows import (
    Column,
    ColumnKind,
    RowsModel,
    Total,
    sorted_rows,
)
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table_cells import cell_width
from honeyledger.desktop.widgets.table_foot import TableFoot
from honeyledger.desktop.widgets.table_frozen import FrozenCodes
from honeyledger.desktop.widgets.table_head import head_width
from honeyledger.desktop.widgets.table_view import RowsView
from honeyledger.desktop.widgets.table_widths import Wanted, right_pads, widths

_MEASURED_ROWS = 200
_OWN_HEIGHTS_TO = 2000
_GIVES_WAY = (ColumnKind.NAME, ColumnKind.TEXT)


class Table(QWidget):
    """Rows with their head and totals.

    Signals:
        selected: the key of the row that was chosen, "" for none.
        opened: the key of a row, by Enter or a double click.
        sort_requested: a column's key, and whether largest first.
    """

    selected = Signal(str)
    opened = Signal(str)
    sort_requested = Signal(str, bool)

    def __init__(
        self,
        columns: Sequence[Column[Any]],
        key: Callable[[Any], str],
        *,
        density: Density = Density.FLOOR,
        empty: str = "",
        heading: str = "",
        foot_height: int = 0,
        sorts_itself: bool = False,
    ) -> None:
        super().__init__()
        self._density = density
        self._sorts_itself = sorts_itself
        self._says_rows = False
        self.model: RowsModel[Any] = RowsModel(columns, key, self)
        self.view = RowsView(self.model, density)
        self.view.empty = empty
        self.view.head.heading = heading
        self.foot = TableFoot(density, foot_height or tokens.row_height(density))
        self.foot.hide()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addWidget(self.view, 1)
        self._column.addWidget(self.foot)
        self.frozen = FrozenCodes(self.view)
        self.view.opened.connect(self.opened)
        self.view.head.sectionClicked.connect(self._sort_by)
        self.view.selectionModel().currentRowChanged.connect(self._row_changed)
        bar = self.view.verticalScrollBar()
        bar.valueChanged.connect(self._tell_rows)
        bar.rangeChanged.connect(self._tell_rows)
        self.view.horizontalScrollBar().valueChanged.connect(self._place_foot)
        self.view.viewport().installEventFilter(self)
        self.setFocusProxy(self.view)

    def show_rows(self, rows: Iterable[object]) -> None:
        """Show these rows; the chosen one stays chosen if it is still there."""
        chosen = self.selected_key()
        self.view.forget_arrived()
        self.model.show(rows)
        self._set_heights()
        self._lay_out()
        if chosen:
            self.select(chosen)
        self._tell_rows()

    def show_totals(self, lead: str, totals: Mapping[str, Total]) -> None:
        """Pin these totals to the foot, by column key."""
        self.foot.show_totals(lead, totals)
        self.foot.show()
        self._lay_out()

    def set_above_foot(self, widget: QWidget) -> None:
        """What stands between the rows and the totals: the season's figures of a yard."""
        self._column.insertWidget(1, widget)

    def say_rows(self, says: bool = True) -> None:
        """Tell in the foot which rows are in view, for a table that is about to be signed."""
        self._says_rows = says
        self.foot.show()
        self._tell_rows()

    def selected_key(self) -> str:
        """The key of the chosen row, or ""."""
        index = self.view.currentIndex()
        return self.model.key_at(index.row()) if index.isValid() else ""

    def select(self, key: str) -> None:
        """Choose a row by its key and bring it into view; an unknown key chooses none."""
        place = self.model.place_of(key)
        model = self.view.selectionModel()
        if place is None:
            model.clear()
            return
        index = self.model.index(place, 0)
        flags = QItemSelectionModel.SelectionFlag
        model.setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)
        self.view.scrollTo(index)

    def mark_arrived(self, key: str) -> None:
        """Tint the row that was just recorded."""
        place = self.model.place_of(key)
        if place is not None:
            self.view.mark_arrived(place)

    def show_order(self, column_key: str, *, descending: bool) -> None:
        """Show in the head what the rows are ordered by."""
        head = self.view.head
        head.sorted_by, head.descending = column_key, descending
        head.viewport().update()

    def _sort_by(self, place: int) -> None:
        column = self.model.columns[place]
        if column.sort_key is None:
            return
        head = self.view.head
        descending = head.sorted_by == column.key and not head.descending
        self.show_order(column.key, descending=descending)
        if self._sorts_itself:
            self.show_rows(sorted_rows(self.model.rows(), column, descending=descending))
        self.sort_requested.emit(column.key, descending)

    def _row_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        self.selected.emit(self.model.key_at(now.row()) if now.isValid() else "")

    def _set_heights(self) -> None:
        if not self.model.has_notes():
            return
        two_lines = tokens.row_height(self._density, two_lines=True)
        count = self.model.rowCount()
        if count > _OWN_HEIGHTS_TO:
            # Asking each of many rows costs more than the room saved.
            self.view.set_pitch(two_lines)
            return
        one_line = tokens.row_height(self._density)
        self.view.set_pitch(one_line)
        for place in range(count):
            height = two_lines if self.model.is_two_line(place) else one_line
            self.view.setRowHeight(place, height)

    def _last_key(self, shown: Sequence[int]) -> str:
        return self.model.columns[shown[-1]].key if shown else ""

    def _wanted(self, shown: Sequence[int]) -> list[Wanted]:
        measured = range(min(self.model.rowCount(), _MEASURED_ROWS))
        made: list[Wanted] = []
        for at in shown:
            column = self.model.columns[at]
            cells = (cell_width(self.model.cell(row, at), self._density) for row in measured)
            made.append(
                Wanted(
                    max([head_width(column), *cells]) + 1,
                    right=column.is_right,
                    is_name=column.kind is ColumnKind.NAME,
                    gives_way=column.kind in _GIVES_WAY,
                    least=column.least,
                )
            )
        return made

    def _lay_out(self) -> None:
        room = self.view.viewport().width()
        shown = [at for at, one in enumerate(self.model.columns) if one.from_width <= room]
        wanted = self._wanted(shown)
        pads = right_pads(wanted, units_in_foot=self.foot.has_unit(self._last_key(shown)))
        made = widths(wanted, pads, room)
        padding = [0] * len(self.model.columns)
        for place, pad, width in zip(shown, pads, made, strict=True):
            padding[place] = pad
            self.view.setColumnWidth(place, width)
        for place in range(len(padding)):
            self.view.setColumnHidden(place, place not in shown)
        self.view.head.right_pads = padding
        self.view.delegate.right_pads = padding
        self.frozen.refresh()
        self._place_foot()

    def _place_foot(self) -> None:
        head = self.view.head
        spans: dict[str, tuple[float, float, bool]] = {}
        for place, column in enumerate(self.model.columns):
            if self.view.isColumnHidden(place):
                continue
            left = head.sectionViewportPosition(place)
            pad = head.right_pads[place] if place < len(head.right_pads) else 0
            before = tokens.PANEL_SIDE - 1 if place == 0 else tokens.CELL_PADDING
            right = left + head.sectionSize(place) - pad
            spans[column.key] = (left + before, right, column.is_right)
        self.foot.set_spans(spans)

    def _tell_rows(self) -> None:
        if not self._says_rows:
            return
        count = self.model.rowCount()
        if not count:
            self.foot.set_note("")
            return
        last_pixel = self.view.viewport().height() - 1
        first = max(0, self.view.rowAt(0))
        last = self.view.rowAt(last_pixel)
        last = count - 1 if last < 0 else last
        if last > first and self.view.row_rect(last).bottom() > last_pixel:
            last -= 1
        words = self.tr("rows {first} to {last} of {count}")
        self.foot.set_note(words.format(first=first + 1, last=last + 1, count=count))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._lay_out()
            self._tell_rows()
        return super().eventFilter(watched, event)

    def take_focus(self) -> None:
        """Put the keyboard on the rows."""
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)
