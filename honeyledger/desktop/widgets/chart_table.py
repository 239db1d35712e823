"""The figures of a chart as a table, and a chart with its table behind it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.models.charts import Chart, ChartItem, chart_columns, column_key
from honeyledger.desktop.models.rows import Total
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.chart import NO_CHART, ChartView
from honeyledger.desktop.widgets.table import Table


def _key(item: ChartItem) -> str:
    return item.key


class ChartTable(Table):
    """A chart's items as rows, with the totals the chart has."""

    def __init__(self) -> None:
        super().__init__(chart_columns(NO_CHART), _key, density=Density.DESK, sorts_itself=True)
        self._heads = NO_CHART.heads

    def show_chart(self, chart: Chart) -> None:
        """Show the figures of a chart."""
        self.view.empty = chart.empty
        self.view.setAccessibleName(chart.title)
        if chart.heads != self._heads:
            # Rows under heads that are not theirs would have too few cells.
            self.show_rows(())
            self._heads = chart.heads
            self.model.set_columns(chart_columns(chart))
        self.show_rows(chart.items)
        lead, *figures = chart.totals or ("",)
        self.foot.setVisible(bool(chart.totals))
        if chart.totals:
            heads = enumerate(chart.heads[1:], start=1)
            made = [
                (column_key(at, head), Total(words, estimated=head.estimated))
                for (at, head), words in zip(heads, figures, strict=True)
                if words
            ]
            self.show_totals(lead, dict(made))


def follow_each_other(chart: ChartView, table: Table) -> None:
    """What is chosen in the one is chosen in the other."""
    chart.selected.connect(table.select)
    table.selected.connect(chart.select)


class ChartBoth(QWidget):
    """A chart with its table behind it, where there is room for one; T turns it over.

    Signals:
        opened: what Enter in either opens.
        turned: whether the table is in front now.
    """

    opened = Signal(str)
    turned = Signal(bool)

    def __init__(self, *, says: bool = True) -> None:
        super().__init__()
        self.chart = ChartView(says=says)
        self.table = ChartTable()
        self.stack = QStackedWidget()
        self.stack.addWidget(self.chart)
        self.stack.addWidget(self.table)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.stack)
        follow_each_other(self.chart, self.table)
        self.chart.opened.connect(self.opened)
        self.table.opened.connect(self._opened_in_table)
        shortcut = QShortcut(QKeySequence(Qt.Key.Key_T), self)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(self.turn)
        self.setFocusProxy(self.chart)

    def show_chart(self, chart: Chart) -> None:
        """Show a chart, whichever side is in front."""
        self.chart.show_chart(chart)
        self.table.show_chart(chart)

    def shows_table(self) -> bool:
        """Whether the table is in front."""
        return self.stack.currentWidget() is self.table

    def turn(self) -> None:
        """Show the other side, with the keyboard in it."""
        focused = QApplication.focusWidget()
        had_focus = focused is not None and self.isAncestorOf(focused)
        self.stack.setCurrentWidget(self.chart if self.shows_table() else self.table)
        front = self.table.view if self.shows_table() else self.chart
        self.setFocusProxy(front)
        if had_focus:
            front.setFocus(Qt.FocusReason.OtherFocusReason)
        self.turned.emit(self.shows_table())

    def _opened_in_table(self, key: str) -> None:
        place = self.chart.chart().place_of(key)
        item = self.chart.chart().items[place] if place is not None else None
        if item is not None and item.opens:
            self.opened.emit(item.opens)
