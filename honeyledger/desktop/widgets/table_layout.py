"""Lays a table out: which columns are shown, in which order, how wide, and the foot under them.

The table decides by its contents and its room; what a person has set by hand stands above that.
By hand a code or a figure can be given more room, never so little that it is cut.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop import tokens
from honeyledger.desktop.models.column_choices import ColumnChoices
from honeyledger.desktop.models.rows import Column, RowsModel
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.table_foot import TableFoot
from honeyledger.desktop.widgets.table_measure import (
    last_key,
    shown_columns,
    wanted_columns,
    widened,
    without_notes,
)
from honeyledger.desktop.widgets.table_view import RowsView
from honeyledger.desktop.widgets.table_widths import Wanted, right_pads, sides, widths

# How much wider or narrower a column becomes at a step.
_STEP = 24


class TableLayout(QObject):
    """The columns of one table.

    Signals:
        chosen: a person has set the columns otherwise.
        laid_out: the columns stand where they are to.
    """

    chosen = Signal()
    laid_out = Signal()

    def __init__(self, view: RowsView, foot: TableFoot, density: Density) -> None:
        super().__init__(view)
        self._model: RowsModel[Any] = view.rows
        self._view, self._foot, self._density = view, foot, density
        self.choices = ColumnChoices()
        self._is_laying = self._was_set = False
        self._measured_of: tuple[object, ...] = ()
        self._measured: dict[int, Wanted] = {}
        view.head.sectionResized.connect(self._resized)
        view.head.sectionMoved.connect(self._moved)
        view.head.sectionHandleDoubleClicked.connect(self._as_by_itself)
        view.head.let_go.connect(self._let_go)
        view.horizontalScrollBar().valueChanged.connect(self.place_foot)

    # What a person sets.

    def choose(self, choices: ColumnChoices) -> None:
        """Set the columns, as a person does."""
        self.choices = choices
        self.lay_out()
        self.chosen.emit()

    def show_column(self, key: str, shown: bool) -> None:
        """Show a column, or leave it out; the first one stays."""
        if key != self._model.columns[0].key:
            self.choose(self.choices.with_shown(key, shown))

    def move_column(self, key: str, by: int) -> None:
        """Move a column past the next one that is shown, to the left or the right."""
        shown = [column.key for column in self.columns()]
        keys = self.choices.keys_in_order(self._model.column_keys())
        if key not in shown:
            return
        beside = shown[max(0, min(len(shown) - 1, shown.index(key) + by))]
        self.choose(self.choices.moved(self._model.column_keys(), key, keys.index(beside)))

    def widen_column(self, key: str, by: int) -> None:
        """Make a column so many steps wider, or narrower below 0."""
        at = self._model.column_keys().index(key)
        now = self._view.columnWidth(at)
        self.choose(self.choices.with_width(key, max(_STEP, now + by * _STEP)))

    def _is_by_hand(self) -> bool:
        return self._view.head.is_held and not self._is_laying

    def _resized(self, at: int, _old: int, new: int) -> None:
        if self._is_by_hand():
            key = self._model.columns[at].key
            self.choices, self._was_set = self.choices.with_width(key, new), True
            self.place_foot()

    def _moved(self, at: int, _old: int, new: int) -> None:
        if self._is_by_hand():
            keys = self._model.column_keys()
            self.choices, self._was_set = self.choices.moved(keys, keys[at], new), True

    def _as_by_itself(self, at: int) -> None:
        key = self._model.columns[at].key
        self.choices, self._was_set = self.choices.with_width(key, 0), True

    def _let_go(self) -> None:
        was_set, self._was_set = self._was_set, False
        if was_set:
            self.choose(self.choices)

    # What the table makes of it.

    def columns(self) -> list[Column[Any]]:
        """The columns that are shown, from left to right."""
        return [self._model.columns[at] for at in self._shown(self._view.viewport().width())]

    def wanted_width(self, *, tight: bool) -> float:
        """The width at which nothing gives way; or, tight, at which only notes do."""
        shown = self._shown(float("inf"))
        wanted = self._wanted(shown)
        if tight:
            wanted = without_notes(wanted)
        units = self._foot.has_unit(last_key(self._model, shown)) and not tight
        return sum(widths(wanted, right_pads(wanted, units_in_foot=units), 0, give_way=False))

    def lay_out(self) -> None:
        """Give each column its place and its width."""
        self._is_laying = True
        self._lay_out()
        self._is_laying = False
        self.place_foot()
        self.laid_out.emit()

    def _lay_out(self) -> None:
        view, keys = self._view, self._model.column_keys()
        room = view.viewport().width()
        shown = self._shown(room)
        wanted = self._wanted(shown)
        has_unit = self._foot.has_unit(last_key(self._model, shown))
        pads = right_pads(wanted, units_in_foot=has_unit)
        # Where room is short the unit is left to the head, which has it anyway.
        tight = has_unit and sum(widths(wanted, pads, 0, give_way=False)) > room
        if tight:
            pads = right_pads(wanted, units_in_foot=False)
        self._foot.show_last_unit(not tight)
        made = widths(self._as_chosen(shown, wanted, pads), pads, room)
        padding = [0] * len(keys)
        for at, pad, width in zip(shown, pads, made, strict=True):
            padding[at] = pad
            view.setColumnWidth(at, width)
        for at in range(len(keys)):
            view.setColumnHidden(at, at not in shown)
        for place, key in enumerate(self.choices.keys_in_order(keys)):
            view.head.moveSection(view.head.visualIndex(keys.index(key)), place)
        view.head.right_pads = padding
        view.delegate.right_pads = padding

    def _shown(self, room: float) -> list[int]:
        return shown_columns(self._model, room, self.choices)

    def _wanted(self, shown: Sequence[int]) -> list[Wanted]:
        made = self._measure(shown)
        keys = [self._model.columns[at].key for at in shown]
        return widened(made, [self._foot.total_width(key) for key in keys])

    def _measure(self, shown: Sequence[int]) -> list[Wanted]:
        """What the rows want; they change less often than room and totals, and take long."""
        model, view = self._model, self._view
        about = (model.rows(), model.columns, model.folded(), view.head.heading)
        known = self._measured_of
        if not known or any(one is not other for one, other in zip(about, known, strict=True)):
            self._measured_of, self._measured = about, {}
        new = [at for at in shown if at not in self._measured]
        found = wanted_columns(model, new, self._density, view.head.heading, view.columnSpan)
        self._measured.update(zip(new, found, strict=True))
        return [self._measured[at] for at in shown]

    def _as_chosen(
        self, shown: Sequence[int], wanted: Sequence[Wanted], pads: Sequence[int]
    ) -> list[Wanted]:
        """What the columns want where a person has said how wide some of them are."""
        made = []
        for place, (at, one, pad) in enumerate(zip(shown, wanted, pads, strict=True)):
            width = self.choices.widths.get(self._model.columns[at].key)
            if width is None:
                made.append(one)
                continue
            least = one.least if one.gives_way else one.content
            content = max(least, width - sides(place, pad))
            made.append(replace(one, content=content, gives_way=False, is_fixed=True))
        return made

    def place_foot(self) -> None:
        """Let each total end where its column does."""
        view, head = self._view, self._view.head
        spans: dict[str, tuple[float, float, bool]] = {}
        order = sorted(range(len(self._model.columns)), key=head.visualIndex)
        for place, at in enumerate(order):
            if view.isColumnHidden(at):
                continue
            left = head.sectionViewportPosition(at)
            pad = head.right_pads[at] if at < len(head.right_pads) else 0
            before = tokens.PANEL_SIDE - 1 if place == 0 else tokens.CELL_PADDING
            right = left + head.sectionSize(at) - pad
            column = self._model.columns[at]
            spans[column.key] = (left + before, right, column.is_right)
        self._foot.set_spans(spans)
