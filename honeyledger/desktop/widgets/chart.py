"""A chart: looked at, pointed at, walked with the arrows, copied.

The line under the plot says the item in hand in full; a screen reader hears the same. A table of
the same figures stands beside a chart, or behind it (`chart_table`).
"""

from PySide6.QtCore import QEvent, QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFocusEvent,
    QGuiApplication,
    QHelpEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractScrollArea, QFrame, QToolTip

from honeyledger.desktop import lettering, look, rings, style
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.chart_layout import (
    AXIS,
    KEY,
    PITCH,
    SIDE,
    ChartPlace,
    PlacedItem,
    lay_out_chart,
)
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, as_lines
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.chart_paint import Pointed, paint_chart, words_wide

SAID = 28  # the line under the plot
LEAST, LOW = 120, 200
_STEP = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_PageUp: -5,
    Qt.Key.Key_PageDown: 5,
}
_SAYS = Hand(Type.BODY, Density.DESK)
_HINT = Hand(Type.CAPTION, colour="ink2")
NO_CHART = Chart(ChartForm.BARS, "", "", "", (ChartHead("", is_number=False),))


class ChartView(QAbstractScrollArea):
    """A chart on a sheet.

    Args:
        says: whether the line under the plot is there; a small chart has it in its tip alone.

    Signals:
        selected: the key of the item that was chosen.
        opened: what Enter or a double click opens, where there is something.
    """

    selected = Signal(str)
    opened = Signal(str)

    def __init__(self, *, says: bool = True) -> None:
        super().__init__()
        self._chart = NO_CHART
        self._says = SAID if says else 0
        self._current = self._under = ""
        self._place = lay_out_chart(NO_CHART, 1, 1, words_wide)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setProperty("ring", "none")
        self.viewport().setMouseTracking(True)
        style.wear_bars(self)
        for bar in (self.verticalScrollBar(), self.horizontalScrollBar()):
            bar.valueChanged.connect(lambda _value: self.viewport().update())

    # What is shown.

    def show_chart(self, chart: Chart) -> None:
        """Show another chart; the item in hand stays so where it is still there."""
        is_other = chart.title != self._chart.title
        self._chart = chart
        if is_other or chart.place_of(self._current) is None:
            self._current = ""
        self._under = ""
        self._lay_out()
        if is_other:
            # What is newest stands at the right.
            self.horizontalScrollBar().setValue(self.horizontalScrollBar().maximum())
            self.verticalScrollBar().setValue(0)
        self._name()

    def chart(self) -> Chart:
        """What is shown."""
        return self._chart

    def place(self) -> ChartPlace:
        """Where everything stands."""
        return self._place

    def current(self) -> str:
        """The key of the item in hand, or ""."""
        return self._current

    def select(self, key: str) -> None:
        """Take an item in hand by its key and bring it into view; nothing is told."""
        if key == self._current or (key and self._chart.place_of(key) is None):
            return
        self._current = key
        self._bring_into_view()
        self._name()
        self.viewport().update()

    def _name(self) -> None:
        item = self._item()
        summary = self._chart.empty if not self._chart.items else ""
        said = item.spoken if item is not None else summary
        self.setAccessibleName(f"{self._chart.title}: {said}" if said else self._chart.title)
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))

    def _item(self, key: str = "") -> ChartItem | None:
        at = self._chart.place_of(key or self._current)
        return self._chart.items[at] if at is not None else None

    def _lay_out(self) -> None:
        width, height = float(self.viewport().width()), float(self._plot_height())
        self._place = lay_out_chart(self._chart, width, height, words_wide)
        place = self._place
        down = max(0, round(place.plot.height - place.window.height))
        right = max(0, round(place.plot.width - place.window.width))
        lies = place.is_lying
        vertical, horizontal = self.verticalScrollBar(), self.horizontalScrollBar()
        vertical.setRange(0, down if lies else 0)
        vertical.setPageStep(max(1, round(place.window.height)))
        vertical.setSingleStep(round(PITCH))
        horizontal.setRange(0, 0 if lies else right)
        horizontal.setPageStep(max(1, round(place.window.width)))
        horizontal.setSingleStep(round(PITCH))
        self.viewport().update()

    def _plot_height(self) -> int:
        return self.viewport().height() - self._said_height()

    def _said_height(self) -> int:
        """The line under the plot gives way where the chart is low."""
        return self._says if self.viewport().height() >= LOW else 0

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()
        self._bring_into_view()

    def sizeHint(self) -> QSize:
        return QSize(480, 320)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, LEAST)

    # By key.

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        last = len(self._chart.items) - 1
        at = self._chart.place_of(self._current)
        if event.matches(QKeySequence.StandardKey.Copy):
            QGuiApplication.clipboard().setText(as_lines(self._chart, self._chart.items))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and at is not None:
            self._open(self._chart.items[at])
        elif key in _STEP and last >= 0 and not event.modifiers() & _HELD:
            begins = 0 if _STEP[key] > 0 else last
            self._take(begins if at is None else max(0, min(last, at + _STEP[key])))
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End) and last >= 0:
            self._take(0 if key == Qt.Key.Key_Home else last)
        else:
            # A scroll area would take keys that the page has a use for.
            event.ignore()

    def _take(self, at: int) -> None:
        key = self._chart.items[at].key
        if key != self._current:
            self.select(key)
            self.selected.emit(key)

    def _open(self, item: ChartItem) -> None:
        if item.opens:
            self.opened.emit(item.opens)

    def _bring_into_view(self) -> None:
        place = self._place
        one = next((row for row in place.items if row.item.key == self._current), None)
        if one is None:
            return
        room, window = one.room, place.window
        if place.is_lying:
            bar, low, high = self.verticalScrollBar(), room.top, room.bottom
            first, last = window.top, window.bottom
        else:
            bar, low, high = self.horizontalScrollBar(), room.left, room.right
            first, last = window.left, window.right
        if low - bar.value() < first:
            bar.setValue(round(low - first))
        elif high - bar.value() > last:
            bar.setValue(round(high - last))

    # By mouse.

    def _at(self, point: QPoint) -> PlacedItem | None:
        if not KEY <= point.y() < self._plot_height():
            return None
        right, down = self.horizontalScrollBar().value(), self.verticalScrollBar().value()
        return self._place.item_at(point.x() + right, point.y() + down)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        one = self._at(event.position().toPoint())
        if one is not None and event.button() == Qt.MouseButton.LeftButton:
            at = self._chart.place_of(one.item.key)
            assert at is not None
            self._take(at)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        event.accept()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        one = self._at(event.position().toPoint())
        if one is not None:
            self._open(one.item)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._point(self._at(event.position().toPoint()))

    def viewportEvent(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self.tip_at(event.pos()), self)
            return True
        if event.type() == QEvent.Type.Leave:
            self._point(None)
        return super().viewportEvent(event)

    def _point(self, one: PlacedItem | None) -> None:
        key = one.item.key if one is not None else ""
        if key != self._under:
            self._under = key
            self.viewport().update()

    def tip_at(self, point: QPoint) -> str:
        """What is said of the item at a point; under the plot, of the one in hand."""
        one = self._at(point)
        if one is not None:
            return one.item.spoken
        return self.said() if point.y() >= self._plot_height() else ""

    def said(self) -> str:
        """What the line under the plot says."""
        item = self._item(self._under) or self._item()
        if item is not None:
            return item.spoken
        return self.tr("Arrows walk through it; Ctrl+C copies the figures.")

    # Painting.

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.viewport().update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        view = self.viewport()
        painter = QPainter(view)
        painter.fillRect(view.rect(), look.colour("sheet"))
        moved = float(self.horizontalScrollBar().value()), float(self.verticalScrollBar().value())
        size = float(view.width()), float(self._plot_height())
        pointed = Pointed(self._current, self._under)
        paint_chart(painter, self._place, size, moved, pointed)
        if self._said_height() and self._chart.items:
            self._paint_said(painter, size[1])
        if self.hasFocus():
            rings.draw_inset_ring(painter, QRectF(view.rect()))

    def _paint_said(self, painter: QPainter, top: float) -> None:
        wide = float(self.viewport().width())
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, round(top), round(wide), round(top))
        room = QRectF(SIDE, top, wide - 2 * SIDE, self._said_height())
        has_item = bool(self._under or self._current)
        hand = _SAYS if has_item else _HINT
        lettering.draw(painter, room, lettering.runs(self.said(), hand))


_HELD = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier


def wanted_height(chart: Chart, *, rows: int) -> int:
    """How high a chart of bars is with at most so many in view, the line under it left out."""
    count = min(rows, max(1, len(chart.items)))
    return round(KEY + AXIS + PITCH * count)
