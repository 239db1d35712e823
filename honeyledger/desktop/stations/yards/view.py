"""The yards' page: what is written down at the left, the yards as a list or a map at the right."""

from collections.abc import Callable

from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import ChosenLabel, LabelWords
from honeyledger.desktop.stations.yards.asks import BOXES, YARDS
from honeyledger.desktop.stations.yards.presenter import YardsPresenter
from honeyledger.desktop.stations.yards.rows import (
    bars_heading,
    heading,
    totals,
    yard_bars,
    yard_columns,
    yard_spots,
)
from honeyledger.desktop.stations.yards.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.bars import Bars
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.yard_map import YardsMap
from honeyledger.domain.refusals import Refusal
from honeyledger.services.yards_page import YardsPage

_FOOT = 48
YARD = "Y"


class YardsView:
    """The page of the yards. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        self.widget = QWidget()
        self.asks = StationAsks()
        self._desk = desk
        density = desk.density(Density.DESK)
        self.presenter = YardsPresenter(desk)
        self.form = AskingPanel(
            self.presenter.asking, tr("Yards"), tr("What is written down"), density
        )
        self.labels = ChosenLabel(desk, self.form.say, _sheet_words())
        self.listed = self._made_list(density)
        self.spread = Spread(
            [
                Part(self.form.panel, tr("Write down"), 5, 8),
                Part(self.listed, tr("All yards"), 7, 8),
            ]
        )
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.spread)
        self._connect()
        self.presenter.ask()

    def _made_list(self, density: Density) -> Panel:
        panel = Panel(tr("All yards"), density=density)
        self.table = Table(
            yard_columns("kg"),
            lambda one: one.code,
            density=density,
            empty=tr("No yard yet. Name the first one at the left."),
            sorts_itself=True,
            plan=TablePlan(foot_height=_FOOT),
        )
        self.table.view.setAccessibleName(tr("All yards"))
        self.bars = Bars()
        self.bars.hide()
        self.map = YardsMap(tr("No yard has its latitude and longitude on record yet."))
        self.bodies = QStackedWidget()
        self.bodies.addWidget(self.table)
        self.bodies.addWidget(self.map)
        body = QWidget()
        column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.bodies, 1)
        column.addWidget(self.bars)
        panel.set_body(body)
        bar = panel.add_bar()
        self.sheet = bar.add_secondary(tr("Pull sheet code"), icon="print")
        self.turning = bar.add_secondary(tr("Map"))
        self.to_dock = bar.add_plain(tr("To the dock"))
        return panel

    def _connect(self) -> None:
        asking = self.presenter.asking
        self.presenter.shown.connect(self._show)
        asking.refused.connect(self._refused)
        asking.done.connect(self._done)
        self.table.selected.connect(self._chosen)
        self.table.opened.connect(self._take_in_hand)
        self.map.selected.connect(self.table.select)
        self.map.opened.connect(self._take_in_hand)
        self.sheet.clicked.connect(lambda: self.labels.write(self.table.selected_key()))
        self.turning.clicked.connect(self.turn)
        self.to_dock.clicked.connect(lambda: self.asks.open.emit("dock"))

    # What is shown.

    def _show(self, page: YardsPage) -> None:
        self.form.set_unit(page.unit)
        yards = [Choice(row.code, row.name, row.text("place")) for row in page.rows]
        self.form.offer(YARDS, yards)
        self.form.offer(BOXES, [Choice(box.code, box.name) for box in page.boxes])
        self.listed.set_heading(heading(page))
        self.table.model.columns = yard_columns(page.unit)
        self.table.show_rows(page.rows)
        self.table.show_totals(*totals(page))
        self.map.show_spots(yard_spots(page.rows))
        self._chosen(self.table.selected_key())

    def _chosen(self, key: str) -> None:
        """The yard in hand: its bars under the list and the map."""
        self.map.choose(key)
        page, row = self.presenter.page, self.presenter.row(key)
        self.bars.setVisible(row is not None)
        if page is not None and row is not None:
            self.bars.show_bars(bars_heading(row), yard_bars(row, page))

    def turn(self) -> None:
        """From the list to the map, and back."""
        to_map = self.bodies.currentWidget() is self.table
        self.bodies.setCurrentWidget(self.map if to_map else self.table)
        self.turning.setText(tr("List") if to_map else tr("Map"))
        shown: QWidget = self.map if to_map else self.table.view
        shown.setFocus()

    # What happened.

    def _refused(self, refusal: Refusal) -> None:
        self.spread.show_part(0)
        self.form.show_refusal(refusal)

    def _done(self, _kind: str, message: Message) -> None:
        self.asks.told(message)
        self.form.begin()

    def _take_in_hand(self, key: str) -> None:
        """A yard was opened: the form in hand takes it."""
        if key:
            self.spread.show_part(0)
            self.presenter.asking.scan(key)
            self.table.select(key)
            self.form.begin()

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where the form goes on."""
        self.form.begin()

    def take_code(self, code: str) -> bool:
        """A yard of this house goes into the form in hand; the rest is for cards."""
        plain = self._desk.code_of(code)
        if self._desk.letter_of(code) != YARD or self.presenter.row(plain) is None:
            return False
        self._take_in_hand(plain)
        return True

    def handle(self, action: str) -> bool:
        """The keys of this station."""
        doing: Callable[[], object] | None = {
            "clear": self._clear,
            "print": lambda: self.labels.open(self.table.selected_key()),
            "card": lambda: self._of_yard(self.asks.card.emit),
            "trace-this": lambda: self._of_yard(self.asks.trace.emit),
        }.get(action)
        if doing is not None:
            doing()
        return doing is not None

    def _clear(self) -> None:
        self.presenter.asking.clear()
        self.form.begin()

    def _of_yard(self, ask: Callable[[str], object]) -> None:
        if code := self.table.selected_key():
            ask(code)


def _sheet_words() -> LabelWords:
    return LabelWords(
        choose=tr("Choose a yard first: the code for its pull sheets is printed then."),
        lead=tr("The code of {code}"),
        where=tr("is in {file}; Ctrl+P opens it."),
        failed=tr("Nothing printed."),
    )
