"""A table as the stations use it: head, rows, what stands above the foot, pinned totals.

A station gives rows and columns; that a person may order and narrow the rows, set the columns and
take what is shown elsewhere is the table's own affair. Selection is kept by key when the rows are
replaced.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from PySide6.QtCore import (
    QEvent,
    QItemSelectionModel,
    QModelIndex,
    QObject,
    QPoint,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.models.row_order import Meant
from honeyledger.desktop.models.rows import Column, RowsModel, Total
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table_find import TableFind
from honeyledger.desktop.widgets.table_foot import AboveFoot, TableFoot
from honeyledger.desktop.widgets.table_frozen import FrozenCodes
from honeyledger.desktop.widgets.table_layout import TableLayout
from honeyledger.desktop.widgets.table_rows import TableRows
from honeyledger.desktop.widgets.table_view import RowsView

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
        menu_asked: a person wants to know what can be done with the table; where, on the screen.
        copy_asked: the chosen rows are wanted for another program.
    """

    selected = Signal(str)
    opened = Signal(str)
    menu_asked = Signal(QPoint)
    copy_asked = Signal()

    def __init__(
        self,
        columns: Sequence[Column[Any]],
        key: Callable[[Any], str],
        *,
        density: Density = Density.FLOOR,
        empty: str = "",
        sorts_itself: bool = True,
        plan: TablePlan = USUAL_PLAN,
    ) -> None:
        super().__init__()
        self._density = density
        self.sorts_itself = sorts_itself
        self._chosen = ""
        self._says_rows = self._had_notes = False
        self._pitch = plan.pitch
        self._above: AboveFoot | None = None
        self._spans: Callable[[Any], int] | None = None
        self.model: RowsModel[Any] = RowsModel(columns, key, self)
        self.view = RowsView(self.model, density)
        self.view.empty = empty
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
        self.columns = TableLayout(self.view, self.foot, density)
        if not self._pitch:  # rows that stand level with another table's keep their height
            fit = partial(self.view.fit_notes, self._row_height(two_lines=True))
            self.columns.laid_out.connect(fit)
        self.columns.laid_out.connect(self.frozen.refresh)
        self.rows = TableRows(self.model, self)
        self.rows.changing.connect(self._remember_chosen)
        self.rows.changed.connect(self._rows_changed)
        self.finding: TableFind | None = None
        self.view.opened.connect(self.opened)
        self.view.copy_asked.connect(self.copy_asked)
        for part in (self.view, self.view.head):
            part.customContextMenuRequested.connect(self._ask_menu)
        self.view.head.sectionClicked.connect(lambda at: self.order_by(self.model.columns[at].key))
        self.view.selectionModel().currentRowChanged.connect(self._row_changed)
        bar = self.view.verticalScrollBar()
        bar.valueChanged.connect(self._tell_rows)
        bar.rangeChanged.connect(self._tell_rows)
        self.view.viewport().installEventFilter(self)
        self.setFocusProxy(self.view)

    def show_rows(self, rows: Iterable[object]) -> None:
        """Show these rows; the chosen one stays chosen if it is still there."""
        self.rows.give(rows)

    def _remember_chosen(self) -> None:
        self._chosen = self.selected_key() or self._chosen

    def _rows_changed(self) -> None:
        self.view.forget_arrived()
        self._set_heights()
        self.columns.lay_out()
        # What is narrowed away meanwhile is still chosen when it comes back.
        if self.model.place_of(self._chosen) is not None:
            self.select(self._chosen)
        self._tell_rows()
        if self.finding is not None:
            self.finding.has_totals = bool(self.foot.totals())
            self.finding.show_counts(self.model.rowCount(), self.rows.count())

    def show_totals(self, lead: str, totals: Mapping[str, Total]) -> None:
        """Pin these totals to the foot, by column key."""
        self.foot.show_totals(lead, totals)
        self.foot.show()
        self.columns.lay_out()

    def set_above_foot(self, widget: QWidget) -> AboveFoot:
        """What stands between the rows and the totals: the season's figures of a yard."""
        self._column.insertWidget(1, widget)
        self._above = AboveFoot(widget, self._make_room)
        return self._above

    def _make_room(self) -> None:
        """Where the window is low the rows need the room more than what stands above the foot."""
        if self._above is None:
            return
        foot = 0 if self.foot.isHidden() else self.foot.height()
        if self.finding is not None and not self.finding.isHidden():
            foot += self.finding.height()
        free = self.height() - tokens.HEAD_HEIGHT - foot - self._above.wanted_height()
        self._above.give_room(free >= _ROWS_LEFT * self._row_height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()

    def minimumSizeHint(self) -> QSize:
        foot = 0 if self.foot.isHidden() else self.foot.height()
        # One row is always seen whole.
        row = self._row_height(two_lines=self.model.has_notes() and not self._pitch)
        return QSize(160, tokens.HEAD_HEIGHT + row + foot)

    def wanted_width(self, *, tight: bool = False) -> float:
        """The width at which nothing gives way; or, tight, at which only notes do."""
        bar = self.view.verticalScrollBar()
        scrolled = tokens.SCROLL_BAR if bar.maximum() > bar.minimum() else 0
        return self.columns.wanted_width(tight=tight) + scrolled

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
        # It may be among the rows that are on their way.
        self._chosen = key if place is None and self.rows.is_waiting() else ""
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

    # Order and narrowing.

    def order_by(self, key: str) -> None:
        """Order by a column; again for the reverse, once more, or by "", as they were given."""
        if self.sorts_itself:
            self._mean(self.rows.meant.turned(key))

    def narrow(self, words: str) -> None:
        """Show only the rows that have all these words somewhere."""
        self._mean(replace(self.rows.meant, words=words))

    def _mean(self, meant: Meant) -> None:
        head = self.view.head
        head.sorted_by, head.descending = meant.by, meant.descending
        head.viewport().update()
        self.rows.mean(meant)

    def begin_find(self) -> None:
        """Put the keyboard where the rows are narrowed."""
        if self.finding is None:
            self.finding = TableFind(self._density)
            self._column.insertWidget(1, self.finding)
            self.finding.wanted.connect(self.narrow)
            self.finding.left.connect(self._leave_finding)
            self.finding.entered.connect(self.take_focus)
        self.finding.begin(self.model.rowCount(), self.rows.count())
        self._make_room()

    def _leave_finding(self) -> None:
        self.narrow("")
        self._make_room()
        self.take_focus()

    def _ask_menu(self, at: QPoint) -> None:
        self.menu_asked.emit(self.view.viewport().mapToGlobal(at))

    def _row_changed(self, now: QModelIndex, _before: QModelIndex) -> None:
        self.selected.emit(self.model.key_at(now.row()) if now.isValid() else "")

    def fold_columns(self, *keys: str) -> None:
        """Let these columns stand under the name; none for all in their own places."""
        if self.model.folded() == frozenset(keys):
            return
        chosen = self.selected_key()
        self.model.fold(keys)
        self._set_heights()
        self.columns.lay_out()
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

    def _tell_rows(self) -> None:
        if not self._says_rows:
            return
        first, last = seen = self.view.rows_in_view() or (0, 0)
        words = self.tr("rows {first} to {last} of {count}") if any(seen) else ""
        self.foot.set_note(words.format(first=first, last=last, count=self.model.rowCount()))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QResizeEvent):
            if event.oldSize().width() != event.size().width():
                self.columns.lay_out()
            self._tell_rows()
        return super().eventFilter(watched, event)

    def has_keyboard(self) -> bool:
        """Whether the keyboard is on the rows, or where they are narrowed."""
        return self.view.hasFocus() or (
            self.finding is not None and self.finding.editor.hasFocus()
        )

    def take_focus(self) -> None:
        """Put the keyboard on the rows."""
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)
