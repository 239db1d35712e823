"""The yards' page: what is written down at the left; the yards as a list, a map or a chart."""

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtWidgets import QStackedWidget, QWidget

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.label_print import ChosenLabel, LabelWords
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.yards.asks import BOXES, FEED, TREATMENTS, YARDS
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
from honeyledger.desktop.stations.yards.yield_chart import yield_chart
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, in_pieces, whole
from honeyledger.desktop.widgets.asking_page import TOTALS_HEIGHT, AskingPage
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.bars import Bars
from honeyledger.desktop.widgets.chart import ChartView
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.yard_map import YardsMap
from honeyledger.services.yards_page import YardsPage

YARD = "Y"
HONEY = "DPJKE"


class YardsView(AskingPage):
    """The page of the yards. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        whole(self.pieces(desk))

    def pieces(self, desk: Desk) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        self.presenter = YardsPresenter(desk)
        super().__init__(desk, self.presenter, Density.DESK)
        self.form = yield from in_pieces(
            AskingPanel,
            self.presenter.asking,
            tr("Yards"),
            tr("What is written down"),
            self.density,
        )
        yield
        self.labels = ChosenLabel(desk, self.form.say, _sheet_words())
        self.sheets = Sheets(desk, lambda message: self.form.say(message))
        self._sheets_of: Sequence[str] = ()
        listed = self._made_list()
        yield
        self._connect()
        self.lay_out(tr("Write down"), listed, tr("All yards"))

    def _made_list(self) -> Panel:
        panel = Panel(tr("All yards"), density=self.density)
        self.table = Table(
            yard_columns("kg"),
            lambda one: one.code,
            density=self.density,
            empty=tr("No yard yet. Name the first one at the left."),
            sorts_itself=True,
            plan=TablePlan(foot_height=TOTALS_HEIGHT),
        )
        self.table.view.setAccessibleName(tr("All yards"))
        self.bars = Bars()
        self.bars.hide()
        self.map = YardsMap(tr("No yard has its latitude and longitude on record yet."))
        self.bodies = QStackedWidget()
        self.bodies.addWidget(self.table)
        self.bodies.addWidget(self.map)
        self.chart = ChartView()
        self.bodies.addWidget(self.chart)
        panel.set_bodies((self.bodies, 1), (self.bars, 0))
        bar = panel.add_bar()
        self.pull_sheet = bar.add_secondary(tr("Pull sheet"), icon="print")
        self.sheet = bar.add_secondary(tr("Code"))
        self.sheet.setAccessibleName(tr("Pull sheet code"))
        self.turning = bar.add_secondary(tr("Map"))
        self.drawing = bar.add_secondary(tr("Chart"))
        self.to_dock = bar.add_plain(tr("To the dock"))
        return panel

    def _connect(self) -> None:
        self.presenter.shown.connect(self._show)
        self.table.selected.connect(self._chosen)
        self.table.opened.connect(self._take_in_hand)
        self.map.selected.connect(self.table.select)
        self.map.opened.connect(self._take_in_hand)
        self.sheet.clicked.connect(lambda: self.labels.write(self.table.view.chosen_keys()))
        self.pull_sheet.clicked.connect(self._print_sheets)
        self.chart.selected.connect(self.table.select)
        self.chart.opened.connect(self._take_in_hand)
        self.turning.clicked.connect(self.turn)
        self.drawing.clicked.connect(self.draw)
        self.to_dock.clicked.connect(lambda: self.asks.open.emit("dock"))

    # What is shown.

    def _show(self, page: YardsPage) -> None:
        self.form.set_unit(page.unit)
        yards = [Choice(row.code, row.name, row.text("place")) for row in page.rows]
        self.form.offer(YARDS, yards)
        names = {row.code: row.name for row in page.rows}
        self.form.offer(
            TREATMENTS,
            [
                Choice(str(one.entry), f"{names[one.yard]}: {one.product}", str(one.entry))
                for one in page.treatments
            ],
        )
        self.form.offer(BOXES, [Choice(box.code, box.name) for box in page.boxes])
        self.listed.set_heading(heading(page))
        self.table.model.columns = yard_columns(page.unit)
        self.table.show_rows(page.rows)
        self.table.show_totals(*totals(page))
        self.map.show_spots(yard_spots(page.rows))
        self.chart.show_chart(yield_chart(page))
        self._chosen(self.table.selected_key())

    def _chosen(self, key: str) -> None:
        """The yard in hand: its bars under the list and the map."""
        self.map.choose(key)
        self.chart.select(key)
        page, row = self.presenter.page, self.presenter.row(key)
        self.bars.setVisible(row is not None)
        if page is not None and row is not None:
            self.bars.show_bars(bars_heading(row), yard_bars(row, page))

    def turn(self) -> None:
        """From the list to the map, and back."""
        self._show_body(self.table if self.bodies.currentWidget() is self.map else self.map)

    def draw(self) -> None:
        """From the list to the chart of what a colony gave, and back."""
        self._show_body(self.table if self.bodies.currentWidget() is self.chart else self.chart)

    def _show_body(self, body: QWidget) -> None:
        self.bodies.setCurrentWidget(body)
        self.turning.setText(tr("List") if body is self.map else tr("Map"))
        self.drawing.setText(tr("List") if body is self.chart else tr("Chart"))
        shown: QWidget = self.table.view if body is self.table else body
        shown.setFocus()

    def _take_in_hand(self, key: str) -> None:
        """A yard was opened: the form in hand takes it."""
        if key:
            self.presenter.asking.scan(key)
            self.table.select(key)
            self.go_on()

    def _print_sheets(self) -> None:
        """A pull sheet of each yard chosen, a file each: each goes with its own crew."""
        chosen = self.table.view.chosen_keys()
        if not chosen:
            self.form.say(
                Message(Mark.NOTE, tr("Choose a yard first: its pull sheet is printed."))
            )
        self._sheets_of = chosen
        for code in chosen:
            self.sheets.print_kind("pull-sheet", code)

    def _print(self) -> None:
        """The pull sheet just printed is opened; else the codes of the yards chosen."""
        chosen = self.table.view.chosen_keys()
        if not (chosen and chosen == self._sheets_of and self.sheets.open_printed()):
            self.labels.open(chosen)

    # What the window asks of a station.

    def take_code(self, code: str) -> bool:
        """A yard goes into the form in hand, and honey into what bees are fed of it."""
        letter, plain = self.desk.letter_of(code), self.desk.code_of(code)
        asking = self.presenter.asking
        if asking.kind == FEED and letter and letter in HONEY:
            asking.fill(asking.now().with_value("source", plain))
            self.go_on()
            return True
        if letter != YARD or self.presenter.row(plain) is None:
            return False
        self._take_in_hand(plain)
        return True

    def own_keys(self) -> Mapping[str, Callable[[], object]]:
        return {"print": self._print}


def _sheet_words() -> LabelWords:
    return LabelWords(
        choose=tr("Choose a yard first: the code for its pull sheets is printed then."),
        lead=tr("The code of {code}"),
        many=tr("The codes of {n} yards"),
        failed=tr("Nothing printed."),
    )
