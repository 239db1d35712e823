"""A form: rows of fields in the order of the work, Enter moving on, the last Enter recording.

Where the window is too low the fields scroll between the slot and the bar, and the focused one is
kept in view.
"""

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

from PySide6.QtCore import QEvent, QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from honeyledger.desktop import look, style, tokens
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.fields import Field

FormField = Field | ChoiceButtons
_COLUMN_GAP = 12
_ROW_GAP = 8
_LOW = 480
# So many rows of pinned buttons leave room for a field in a low window.
_PINNED_IF_LOW = 2
# Room for the focus ring, which stands outside the field.
_RING = tokens.FOCUS_GAP + tokens.FOCUS_WIDTH
# Below the fields of a form that is as high as they need.
_SPARE = 8
_MOST_HIGH = 16_777_215


class _Sheet(QWidget):
    """What the fields stand on.

    Signals:
        resized: fields came or went, or the window changed.
    """

    resized = Signal()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(QRectF(self.rect()), look.colour("sheet"))


class _Head(QWidget):
    """What stands over the fields and does not scroll.

    Signals:
        asked: something in it came or went.
    """

    asked = Signal()

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest:
            self.asked.emit()
        return done

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(QRectF(self.rect()), look.colour("sheet"))


class Form(QScrollArea):
    """Fields in rows; the fields of one row share its width by the given parts."""

    def __init__(self) -> None:
        super().__init__()
        self._fields: list[FormField] = []
        self._passed: frozenset[FormField] = frozenset()
        self._acts: dict[FormField, Callable[[], bool]] = {}
        self._primary: Button | None = None
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        style.wear_bars(self)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setProperty("ring", "none")
        sheet = _Sheet()
        sheet.resized.connect(self._give_ring_room)
        sheet.resized.connect(self._keep_in_view)
        # How far it can scroll is known only after that.
        self.verticalScrollBar().rangeChanged.connect(self._keep_in_view)
        self._column = QVBoxLayout(sheet)
        side = tokens.PANEL_SIDE - 1
        self._column.setContentsMargins(side, 0, side, 0)
        self._column.setSpacing(_ROW_GAP)
        self._column.addStretch(1)
        self.setWidget(sheet)
        self._head = _Head(self)
        self._head.hide()
        self._pinned: tuple[ChoiceButtons, ...] = ()
        self._is_let_go = self._is_held = False

    def add_row(self, *fields: tuple[FormField, int]) -> None:
        """A row of fields, each with its part of the width."""
        row = QHBoxLayout()
        row.setSpacing(_COLUMN_GAP)
        for field, part in fields:
            row.addWidget(field, part)
            self._fields.append(field)
            field.submitted.connect(self._moving_on(field))
        self._column.insertLayout(self._column.count() - 1, row)

    def pin(self, *fields: ChoiceButtons) -> None:
        """Rows of buttons over the fields: what chooses a form does not scroll away with it.

        Many of them do where the window is low, or no field would be left in view.
        """
        column = QVBoxLayout(self._head)
        for field in fields:
            column.addWidget(field)
            self._fields.append(field)
            field.submitted.connect(self._moving_on(field))
        self._pinned = fields
        self._head.asked.connect(self._fit_head)
        self._head.asked.connect(self._hold)

    def _fit_head(self) -> None:
        """Give what is pinned its height; where the window is low its label gives way."""
        is_low = self.window().height() < _LOW
        column = self._head.layout()
        if isinstance(column, QVBoxLayout):
            self._let_go(column, is_low and len(self._pinned) > _PINNED_IF_LOW)
        shown = [one for one in self._pinned if not one.isHidden() and not self._is_let_go]
        if self._pinned and column is not None:
            if self._pinned[0].label.isHidden() != is_low:
                self._pinned[0].label.setVisible(not is_low)
                # Qt keeps how high the row was, and asks anew only where it is in sight.
                self._pinned[0].updateGeometry()
            gap = _ROW_GAP // 2 if is_low else _ROW_GAP
            column.setSpacing(gap)
            column.setContentsMargins(tokens.PANEL_SIDE - 1, 0, tokens.PANEL_SIDE - 1, gap)
            # What came or went a moment ago counts now, not with the event that is yet to come.
            for layout in (*(field.layout() for field in shown), column):
                if layout is not None:
                    layout.invalidate()
        high = self._head.sizeHint().height() if shown else 0
        self._head.setVisible(bool(shown))
        if self.viewportMargins().top() != high:
            self.setViewportMargins(0, high, 0, 0)
        self._head.setGeometry(0, 0, self.viewport().width(), high)

    def _let_go(self, head: QVBoxLayout, is_let_go: bool) -> None:
        """Let what is pinned scroll with the fields, or pin it again."""
        if is_let_go == self._is_let_go:
            return
        self._is_let_go = is_let_go
        for place, field in enumerate(self._pinned):
            if is_let_go:
                self._column.insertWidget(place, field)
            else:
                head.addWidget(field)

    def _head_height(self) -> int:
        return self.viewportMargins().top()

    def pass_over(self, fields: Iterable[FormField]) -> None:
        """Let Enter go on past these, which say already what they will; Tab still stops there."""
        self._passed = frozenset(fields)

    def on_enter(self, field: FormField, act: Callable[[], bool]) -> None:
        """Let Enter in a field do this first; where it answers True, Enter does no more."""
        self._acts[field] = act

    def fields(self) -> Sequence[FormField]:
        """The fields in the order of the work."""
        return tuple(self._fields)

    def stops(self) -> list[QWidget]:
        """Where Tab stops in it, in the order of the work."""
        found: list[QWidget] = []
        for field in self._fields:
            found += [field.editor] if isinstance(field, Field) else field.buttons()
        return found

    def finish_with(self, primary: Button) -> None:
        """The button that the last Enter presses."""
        self._primary = primary
        self._order_tabs()

    def _order_tabs(self) -> None:
        """Let Tab go through the fields as Enter does, and then to the button."""
        if self._primary is None or self._primary.window() is not self.window():
            return  # Before they stand in one window there is no order between them.
        for before, after in pairwise([*self.stops(), self._primary]):
            QWidget.setTabOrder(before, after)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._order_tabs()

    def room(self) -> int:
        """The height the visible fields need, so that what is below them gets the rest."""
        # Rows hidden a moment ago still count in the layouts until an event that is yet to come.
        for at in range(self._column.count()):
            if (row := self._column.itemAt(at)) is not None:
                row.invalidate()
        self._column.invalidate()
        self._fit_head()
        return self._head_height() + self._column.totalSizeHint().height()

    def hold_height(self) -> None:
        """Be as high as the visible fields need, and stay so however the window changes."""
        self._is_held = True
        self._hold()

    def free_height(self) -> None:
        """Be as high as the layout wants it again."""
        self._is_held = False
        self.setMinimumHeight(0)
        self.setMaximumHeight(_MOST_HIGH)

    def _hold(self) -> None:
        if self._is_held:
            # Where all of it is seen, the last field's ring needs no room of its own.
            self.setFixedHeight(self.room() - self._column.contentsMargins().bottom() + _SPARE)

    def begin(self) -> None:
        """Put the keyboard in the first field."""
        if self._fields:
            self._fields[0].take_focus()

    def take_focus(self, field: FormField) -> None:
        """Put the keyboard in a field and bring it into view."""
        field.take_focus()
        self._bring_into_view(field)

    def _bring_into_view(self, field: FormField) -> None:
        """Show a field with its ring; of one that is just seen, Qt would leave the ring cut.

        In a window so low that the panel itself scrolls, the panel goes along.
        """
        area: QWidget | None = self
        while area is not None:
            sheet = area.widget() if isinstance(area, QScrollArea) else None
            if isinstance(area, QScrollArea) and sheet is not None and sheet.isAncestorOf(field):
                at = field.mapTo(sheet, field.rect().topLeft())
                area.ensureVisible(at.x(), at.y() + field.height(), 0, _RING)
                area.ensureVisible(at.x(), at.y(), 0, 0)
            area = area.parentWidget()
        self._begin_with_whole_row(field)

    def _begin_with_whole_row(self, field: FormField) -> None:
        """Scroll on to where a row begins, as far as the field stays in view."""
        bar, sheet = self.verticalScrollBar(), self.widget()
        if sheet is None or not sheet.isAncestorOf(field):
            return
        if not 0 < bar.value() < bar.maximum():
            return
        shown = [one for one in self._fields if sheet.isAncestorOf(one) and one.isVisibleTo(sheet)]
        tops = sorted(one.mapTo(sheet, one.rect().topLeft()).y() for one in shown)
        own = field.mapTo(sheet, field.rect().topLeft()).y()
        bar.setValue(next((top for top in tops if bar.value() <= top <= own), bar.value()))

    def _keep_in_view(self) -> None:
        """The field that has the keyboard is seen, wherever the fields before it went."""
        for field in self._fields:
            if field.focusWidget() is not None and field.focusWidget().hasFocus():
                self._bring_into_view(field)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_head()
        self._hold()
        self._give_ring_room()
        self._keep_in_view()

    def _give_ring_room(self) -> None:
        """Where the fields scroll, the last one's ring has room; else they fit to the pixel."""
        now = self._column.contentsMargins()
        fits = self.room() - now.bottom() <= self.height()
        wanted = 0 if fits else _RING
        if now.bottom() != wanted:
            self._column.setContentsMargins(now.left(), 0, now.right(), wanted)

    def _moving_on(self, field: FormField) -> Callable[[], None]:
        return lambda: self._move_on(field)

    def _stops_at(self, field: FormField) -> bool:
        if field in self._passed or _is_fixed(field):
            return False
        return field.isVisibleTo(self) and field.isEnabled()

    def _move_on(self, field: FormField) -> None:
        act = self._acts.get(field)
        if act is not None and act():
            return
        for after in self._fields[self._fields.index(field) + 1 :]:
            if self._stops_at(after):
                self.take_focus(after)
                return
        if self._primary is not None:
            self._primary.click()


def _is_fixed(field: FormField) -> bool:
    return isinstance(field, Field) and field.box.read_only
