"""Bulk trade at dispatch: its forms in the place of the note's, its two lists beside them."""

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QObject

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.rows import Column
from honeyledger.desktop.stations.dispatch import trade_rows
from honeyledger.desktop.stations.dispatch.rows import tr
from honeyledger.desktop.stations.dispatch.side_view import SidePanel
from honeyledger.desktop.stations.dispatch.trade_asks import (
    CUSTOMERS,
    EMPTIES,
    NOTES,
    PARTIES,
    TAKEN,
    trade_forms,
)
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.second_forms import SecondForms
from honeyledger.desktop.widgets.table import Table, TablePlan
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.empties_owed import Owed, empties_owed
from honeyledger.services.gate_sales import GateSale, gate_sales

OWED, GATE_VIEW = "owed", "gate-sales"
Lists = tuple[tuple[Owed, ...], tuple[GateSale, ...]]


class Trade(QObject):
    """The forms of bulk trade, the containers owed, and the farm gate by day.

    The lists are asked for while one of them is shown, and not with every page.
    """

    def __init__(self, desk: Desk, first: Panel, side: SidePanel, density: Density) -> None:
        super().__init__()
        self._desk, self._side, self._density = desk, side, density
        words = tr("Trade"), tr("What happened")
        self.forms = SecondForms(desk, "trade", trade_forms, first, words, TAKEN, density)
        side.add_view(OWED, tr("Containers owed"), self._owed_table, tr("Owed"))
        side.add_view(GATE_VIEW, tr("Farm gate, day by day"), self._gate_table, tr("Farm gate"))
        self.forms.use_button(side.bar.add_plain(""), tr("Trade…"), tr("To the note"))
        side.wanted.connect(lambda view: self.ask() if view in (OWED, GATE_VIEW) else None)
        desk.refresh.watch(EVERYTHING, self._changed)

    @property
    def owed(self) -> Table:
        """Which of the house's containers are with whom."""
        return self._side.table(OWED)

    @property
    def gate(self) -> Table:
        """What went at the farm gate."""
        return self._side.table(GATE_VIEW)

    def _owed_table(self) -> Table:
        empty = tr("No container of the house is with a customer.")
        return self._table(trade_rows.owed_columns(), trade_rows.owed_key, empty)

    def _gate_table(self) -> Table:
        empty = tr("Nothing went at the farm gate.")
        return self._table(trade_rows.gate_columns("kg"), trade_rows.gate_key, empty)

    def _table(
        self, columns: Sequence[Column[Any]], key: Callable[[Any], str], empty: str
    ) -> Table:
        plan = TablePlan(foot_height=48)
        return Table(columns, key, density=self._density, empty=empty, plan=plan)

    def show_page(self, page: DispatchPage) -> None:
        """Offer what there is to choose from."""
        offer = self.forms.offer_choices
        offer(CUSTOMERS, [Choice(one.name, one.name) for one in page.customers])
        offer(PARTIES, [Choice(one.name, one.name) for one in page.parties])
        offer(NOTES, [Choice(one.code, one.code, one.name) for one in page.notes])
        self.forms.show_page(page, page.ledger, page.today)

    def _changed(self) -> None:
        if self._side.shown in (OWED, GATE_VIEW):
            self.ask()

    def ask(self) -> None:
        """Ask for both lists as they are now."""
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(lambda view: (empties_owed(view), gate_sales(view))),
            self._answered,
            about=(self, "lists"),
        )

    def _answered(self, outcome: Outcome[Lists]) -> None:
        if outcome.value is None:
            return
        owed, sales = outcome.value
        unit = self._desk.unit
        self.owed.show_rows(owed)
        self.owed.show_totals(trade_rows.owed_words(owed), {})
        self.gate.model.columns = trade_rows.gate_columns(unit)
        self.gate.show_rows(sales[::-1])
        self.gate.show_totals(*trade_rows.gate_totals(sales, unit))
        for table in (self.owed, self.gate):
            if not table.selected_key() and table.model.rowCount():
                table.select(table.model.key_at(0))

    def opened(self, view: str, key: str) -> str:
        """Enter on a row: a container owed is taken back; of the gate, the lot's card to open."""
        if view == GATE_VIEW:
            return key.partition("/")[2]
        row = next((one for one in self.owed.model.rows() if one.container == key), None)
        if row is not None:
            self._take_back(row)
        return ""

    def _take_back(self, row: Owed) -> None:
        """Its customer and its code into the form of empties; another one joins it."""
        if not self.forms.is_shown():
            self.forms.turn()
        self.forms.form.choose(EMPTIES, begins=False)
        asking = self.forms.asking
        asking.fill(asking.now().with_value("customer", row.customer_name))
        asking.scan(row.container)
        self.forms.form.begin()
