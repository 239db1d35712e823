"""The dock's page: the form at the left, what arrived today at the right."""

from PySide6.QtWidgets import QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.label_print import print_label
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper, paper_message, paper_of
from honeyledger.desktop.sheets import Sheets
from honeyledger.desktop.stations.dock.form_view import DockForm
from honeyledger.desktop.stations.dock.pallets_view import Pallets
from honeyledger.desktop.stations.dock.presenter import DockPresenter
from honeyledger.desktop.stations.dock.rows import (
    Received,
    arrival_columns,
    arrival_rows,
    heading,
    season_figures,
    season_heading,
    totals,
)
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.desktop.widgets.wedge import Wedge
from honeyledger.domain.refusals import Refusal
from honeyledger.services.dock_page import DockPage

_FOOT = 48


class DockView:
    """The page of the dock. See `StationView`."""

    def __init__(self, desk: Desk) -> None:
        self.widget = QWidget()
        self.asks = StationAsks()
        self._desk = desk
        self._arrived = ""
        self.sheets = Sheets(desk, lambda message: self.form.say([message]))
        density = desk.density(Density.FLOOR)
        self.presenter = DockPresenter(desk)
        self.form = DockForm(self.presenter, density)
        self.arrivals = Panel(self.widget.tr("Arrivals today"), density=density)
        self.table = Table(
            arrival_columns(desk.unit),
            lambda row: row.key,
            density=density,
            empty=self.widget.tr("Nothing received today. Scan a pull sheet, or press F2."),
            plan=TablePlan(foot_height=_FOOT),
            sorts_itself=True,
        )
        self.table.view.setAccessibleName(self.widget.tr("Arrivals today"))
        self.figures = KeyFigures(density=density)
        self.above_foot = self.table.set_above_foot(self.figures)
        self.above_foot.want(False)
        self.arrivals.set_body(self.table)
        self.pallets = Pallets(desk, self.form.panel, density, self._made)
        bar = self.arrivals.add_bar()
        self.receipt = bar.add_secondary(self.widget.tr("Dock receipt"), icon="print")
        self.receipt.clicked.connect(self.print_receipt)
        words = self.widget.tr("Split, join, buy in…"), self.widget.tr("To the receipt")
        self.pallets.forms.use_button(bar.add_plain(""), *words)
        self.spread = Spread(
            [
                Part(self.pallets.forms.leaves, self.widget.tr("Receive supers"), 5, 4),
                Part(self.arrivals, self.widget.tr("Arrivals"), 7, 4),
            ]
        )
        self.spread.fill(self.widget)
        self.table.opened.connect(self.asks.card)
        self.form.slot.action_pressed.connect(lambda key: self.asks.open.emit(str(key)))
        self.presenter.shown.connect(self._show)
        self.presenter.received.connect(self._received)
        self.presenter.printed.connect(self._printed)
        self.presenter.refused.connect(self._refused)
        self.pallets.forms.turned.connect(self._turned)
        self.pallets.forms.done.connect(self.asks.told)
        self.pallets.forms.refused.connect(lambda _refusal: self.spread.show_part(0))
        self.presenter.ask()

    def _turned(self) -> None:
        self.spread.show_part(0)
        self.begin()

    def _made(self, code: str) -> None:
        """What was printed last is what Ctrl+P opens."""
        self.presenter.last_tag = code

    def _show(self, page: DockPage) -> None:
        self.form.show_page(page)
        self.pallets.show_page(page)
        self.arrivals.set_heading(heading(page))
        # The house's unit is known only since the first answer.
        self.table.model.columns = arrival_columns(page.unit)
        self.table.show_rows(arrival_rows(page))
        if self._arrived:
            self.table.mark_arrived(self._arrived)
            self._arrived = ""
        self.table.show_totals(self.widget.tr("Today"), totals(page))
        season = page.season
        has_figures = season is not None and season.pulls > 0
        if season is not None and has_figures:
            colour = season.colour / 10 if season.colour is not None else None
            figures = [
                KeyFigure(one.figure, one.meaning) for one in season_figures(season, page.unit)
            ]
            self.figures.show_figures(season_heading(season), figures, Wedge(colour, mean=True))
        self.above_foot.want(has_figures)

    def _received(self, received: Received) -> None:
        self._arrived = received.pull
        self.asks.told(received.message)
        self.form.begin()

    def _printed(self, what: object) -> None:
        if isinstance(what, Paper | Refusal):
            tr = self.widget.tr
            said = paper_message(what, tr("The tag {code}"), tr("No tag printed."))
            self.form.say([said])

    def _refused(self, refusal: Refusal) -> None:
        self.spread.show_part(0)
        self.form.show_refusal(refusal)

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where the form goes on."""
        if self.pallets.forms.is_shown():
            self.pallets.forms.form.begin()
        else:
            self.form.begin()

    def take_code(self, code: str) -> bool:
        """A pull sheet begins a receipt, or the next yard of the pallet; the rest is for cards."""
        if self.pallets.take_code(code):
            return True
        if self._desk.letter_of(code) != "Y":
            return False
        self.pallets.forms.show_first()
        self.spread.show_part(0)
        if self.presenter.scan_yard(self._desk.code_of(code)):
            self.form.begin()
        return True

    def handle(self, action: str) -> bool:
        """The keys of this station."""
        doing = {
            "clear": self._clear,
            "repeat": self._repeat,
            "more-yards": self.presenter.keep_line,
            "print": self._open_tag,
            "card": self._card,
            "trace-this": self._trace,
        }.get(action)
        if doing is not None:
            doing()
        return doing is not None

    def _clear(self) -> None:
        if self.pallets.forms.clear():
            return
        self.presenter.begin_anew()
        self.form.begin()

    def _repeat(self) -> None:
        """The last pallet again: what differs is its count, and its weight behind it."""
        self.pallets.forms.show_first()
        self.presenter.repeat()
        self.form.begin()

    def _open_tag(self) -> None:
        tag = self.presenter.last_tag
        file = self._desk.papers / f"{tag}.pdf"
        if tag and self._desk.looks_first:
            print_label(self._desk, tag, lambda done: self._printed(paper_of(done)))
        elif tag:
            self._desk.open_paper(file)
        else:
            words = self.widget.tr("Receive a pallet first: its tag is printed then.")
            self.form.say([Message(Mark.NOTE, words)])

    def print_receipt(self) -> None:
        """Of the arrival that is chosen, else of the pallet received last, else of the day."""
        self.sheets.print_kind(
            "dock-receipt", self.table.selected_key() or self.presenter.last_tag
        )

    def _card(self) -> None:
        if self.table.selected_key():
            self.asks.card.emit(self.table.selected_key())

    def _trace(self) -> None:
        if self.table.selected_key():
            self.asks.trace.emit(self.table.selected_key())
