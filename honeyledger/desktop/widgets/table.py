"""A table as the stations use it: head, rows, what stands above the foot, pinned totals.

Sorting, filtering and finding are done where the rows come from; a small table may be asked to
sort the rows it holds. Selection is kept by key when the rows are replaced.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, QObject, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.models.rows import (
    Column,
    RowsModel,
    Total,
    sorted_rows,
)
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table_foot import TableFoot
from honeyledger.desktop.widgets.table_frozen import FrozenCodes
from honeyledger.desktop.widgets.table_measure import (
    last_key,
    shown_columns,
    wanted_columns,
    widened,
    without_notes,
)
from honeyledger.desktop.widgets.table_view import RowsView
from honeyledger.desktop.widgets.table_widths import Wanted, right_pads, widths

_ROWS_LEFT = 3


@dataclass(frozen=True, slots=True)
class TablePlan:
    """What only some tables ask for.

    Args:
        heading: a panel's heading, standing in the head of the first column.
        pitch: the height of a row, where tables stand side by side.
        foot_height: the height of the totals.
    """

    heading: str = ""
    pitch: int = 0
    foot_height: int = 0


USUAL_PLAN = TablePlan()


def _span_rows(view: RowsView, counts: Iterable[int]) -> None:
    """The first cell of each row reaches over so many columns."""
    view.clearSpans()
    for place, count in enumerate(counts):
        if count > 1:
            view.setSpan(place, 0, 1, count)


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
        sorts_itself: bool = False,
        plan: TablePlan = USUAL_PLAN,
    ) -> None:
        super().__init__()
        self._density = density
        self._sorts_itself = sorts_itself
        self._says_rows = self._had_notes = False
        self._pitch = plan.pitch
        self._above: QWidget | None = None
        self._spans: Callable[[Any], int] | None = None
        self.model: RowsModel[Any] = RowsModel(columns, key, self)
        self.view = RowsView(self.model, density)
        self.view.empty = empty
        # What a screen reader says where the station gives no better name.
        self.view.setAccessibleName(str(plan.heading or columns[0].title))
        self.view.head.heading = plan.heading
        self.view.set_pitch(self._row_height())
        self.foot = TableFoot(density, plan.foot_height or self._row_height())
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
        self._above = widget
        self._make_room()

    def _make_room(self) -> None:
        """Where the window is low the rows need the room more than what stands above the foot."""
        if self._above is None:
            return
        foot = 0 if self.foot.isHidden() else self.foot.height()
        free = self.height() - tokens.HEAD_HEIGHT - foot - self._above.sizeHint().height()
        self._above.setVisible(free >= _ROWS_LEFT * self._row_height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def minimumSizeHint(self) -> QSize:
        foot = 0 if self.foot.isHidden() else self.foot.height()
        return QSize(160, tokens.HEAD_HEIGHT + self._row_height() + foot)

    def wanted_width(self, *, tight: bool = False) -> float:
        """The width at which nothing gives way; or, tight, at which only notes do."""
        shown = shown_columns(self.model, float("inf"))
        wanted = self._wanted(shown)
        if tight:
            wanted = without_notes(wanted)
        units = self.foot.has_unit(last_key(self.model, shown)) and not tight
        pads = right_pads(wanted, units_in_foot=units)
        bar = self.view.verticalScrollBar()
        scrolled = tokens.SCROLL_BAR if bar.maximum() > bar.minimum() else 0
        return sum(widths(wanted, pads, 0, give_way=False)) + scrolled

    def _wanted(self, shown: Sequence[int]) -> list[Wanted]:
        view = self.view
        made = wanted_columns(self.model, shown, self._density, view.head.heading, view.columnSpan)
        return widened(made, [self.foot.total_width(self.model.columns[at].key) for at in shown])

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

    def fold_columns(self, *keys: str) -> None:
        """Let these columns stand under the name; none for all in their own places."""
        if self.model.folded() == frozenset(keys):
            return
        chosen = self.selected_key()
        self.model.fold(keys)
        self._set_heights()
        self._lay_out()
        if chosen:
            self.select(chosen)

    def set_spans(self, spans: Callable[[Any], int]) -> None:
        """Let the first cell of some rows reach over so many columns; 1 for the usual row."""
        self._spans = spans

    def _row_height(self, *, two_lines: bool = False) -> int:
        """With a pitch, two lines take two of it, so that tables side by side agree."""
        if self._pitch:
            if not two_lines:
                return self._pitch
            if not self.model.folded():
                return self._pitch * 2
        return tokens.row_height(self._density, two_lines=two_lines)

    def _set_heights(self) -> None:
        if self._spans is not None:
            _span_rows(self.view, [self._spans(row) for row in self.model.rows()])
        has_notes = self.model.has_notes()
        if has_notes or self._had_notes:
            self.view.set_heights(self._row_height(), self._row_height(two_lines=has_notes))
        self._had_notes = has_notes

    def _lay_out(self) -> None:
        room = self.view.viewport().width()
        shown = shown_columns(self.model, room)
        wanted = self._wanted(shown)
        has_unit = self.foot.has_unit(last_key(self.model, shown))
        pads = right_pads(wanted, units_in_foot=has_unit)
        # Where room is short the unit is left to the head, which has it anyway.
        tight = has_unit and sum(widths(wanted, pads, 0, give_way=False)) > room
        if tight:
            pads = right_pads(wanted, units_in_foot=False)
        self.foot.show_last_unit(not tight)
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
        seen = self.view.rows_in_view()
        words = self.tr("rows {first} to {last} of {count}") if seen else ""
        first, last = seen or (0, 0)
        self.foot.set_note(words.format(first=first, last=last, count=self.model.rowCount()))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._lay_out()
            self._tell_rows()
        return super().eventFilter(watched, event)

    def take_focus(self) -> None:
        """Put the keyboard on the rows."""
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)
