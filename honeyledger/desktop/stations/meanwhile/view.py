"""A place whose station is still to come: what is there, and which command works meanwhile."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.desk import EVERYTHING, Desk, StationAsks
from honeyledger.desktop.stations.meanwhile.pages import PAGES
from honeyledger.desktop.stations.meanwhile.presenter import MeanwhilePresenter
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.commands import Commands
from honeyledger.desktop.widgets.figures import Answer
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.table import Table


class MeanwhileView:
    """The page of one such place, made when it is first opened. See `StationView`."""

    def __init__(self, desk: Desk, key: str) -> None:
        self.widget = QWidget()
        self.asks = StationAsks()
        self._desk = desk
        self._is_made = False
        self.page = PAGES[key]()
        self.presenter = MeanwhilePresenter(desk, self.page)
        self.presenter.shown.connect(self._show)
        desk.refresh.watch(EVERYTHING, self._changed)

    def _make(self) -> None:
        self._is_made = True
        page, desk = self.page, self._desk
        tr = self.widget.tr
        self.answer = Answer()
        self.answer.show_answer(page.title, "")
        self.table = Table(
            page.columns(desk.unit),
            page.code,
            density=Density.DESK,
            empty=page.empty,
            sorts_itself=True,
        )
        self.table.view.setAccessibleName(page.heading)
        listed = Panel(page.heading, density=Density.DESK)
        listed.set_body(self.table)
        note = tr("With another house than your own, add --house and its file.")
        self.commands = Commands(page.will, note, page.commands)
        typed = Panel(tr("Meanwhile, in a terminal"), density=Density.DESK)
        typed.set_body(self.commands)
        spread = Spread(
            [Part(listed, page.title, 8, 5), Part(typed, tr("Commands"), 4, 3)],
            above=self.answer,
        )
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(spread)

    def _changed(self) -> None:
        """Something was recorded; a page nobody sees asks when it is opened."""
        if self.widget.isVisible():
            self.presenter.ask()

    def _show(self, rows: Sequence[Any]) -> None:
        unit = self._desk.unit
        self.answer.show_answer(self.page.title, self.page.answer(rows, unit))
        # The house's unit is known only since the first answer.
        self.table.model.columns = self.page.columns(unit)
        self.table.show_rows(rows)
        totals = self.page.totals(rows, unit)
        if totals and rows:
            self.table.show_totals(self.widget.tr("In all"), totals)

    # What the window asks of a station.

    def begin(self) -> None:
        """Ask what is there, and put the keyboard on the rows."""
        if not self._is_made:
            self._make()
        self.presenter.ask()
        self.table.take_focus()

    def take_code(self, _code: str) -> bool:
        """Its card opens."""
        return False

    def handle(self, _action: str) -> bool:
        """It has no keys of its own."""
        return False
