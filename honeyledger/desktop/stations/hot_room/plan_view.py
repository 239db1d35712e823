"""Runs proposed for what waits, so that a later recall stays small; a person takes one, or not.

Nothing is booked by it: taking a run orders the next one. The solver is loaded by name with the
first proposal, and looks beside the window.
"""

import importlib
from threading import Event

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.hot_room.plan_rows import (
    own_words,
    plan_figures,
    plan_message,
    run_columns,
    run_rows,
)
from honeyledger.desktop.stations.hot_room.presenter import HotRoomPresenter
from honeyledger.desktop.stations.hot_room.words import tr
from honeyledger.desktop.tokens import PANEL_SIDE, Density
from honeyledger.desktop.widgets.action_bar import ActionBar
from honeyledger.desktop.widgets.fields import MassField, TextField
from honeyledger.desktop.widgets.figures import KeyFigure, KeyFigures
from honeyledger.desktop.widgets.notes import Notes
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_mass_g, parse_moisture
from honeyledger.services.hot_room_page import HotRoomPage
from honeyledger.services.planning import Planner, Runs
from honeyledger.services.recall_plans import Plan, plan_runs, runs_as_by_age, with_the_rest

LONGEST_S = 8
NOTE_HEIGHT = 96
_SOLVER = "honeyledger.optimisation.plans"

HOW_MUCH_A_RUN = Sentence(
    "plan-how-much-a-run", "Type how much honey one run holds at most; then runs can be proposed."
)


class RunPlan(QWidget):
    """What a run may hold, the runs that are proposed, and what a recall would take with them.

    Signals:
        told: a `Message` of what was taken.
    """

    told = Signal(object)

    def __init__(
        self, desk: Desk, presenter: HotRoomPresenter, density: Density, bar: ActionBar
    ) -> None:
        super().__init__()
        self._desk, self._presenter = desk, presenter
        self._stop = Event()
        self._page: HotRoomPage | None = None
        self.plan: Plan | None = None
        self.most = MassField(tr("One run holds at most"), density=density)
        self.moisture = TextField(tr("Moisture at most"), unit="%", density=density)
        self.notes = Notes()
        self.notes.setFixedHeight(NOTE_HEIGHT)
        self.notes.hide()
        self.figures = KeyFigures(density=Density.DESK)
        self.table = Table(
            run_columns("kg"),
            lambda one: one.key,
            density=density,
            empty=tr("No runs are proposed yet."),
            sorts_itself=True,
        )
        self.table.view.setAccessibleName(tr("Runs that are proposed"))
        self.table.set_above_foot(self.figures)
        self.propose = bar.add_secondary(tr("Propose runs"))
        self.halt = bar.add_secondary(tr("Stop looking"))
        self.take = bar.add_secondary(tr("Take this run"))
        self.halt.setToolTip(tr("Takes the best that was found so far"))
        self._lay_out()
        self.show_buttons(shown=False)
        self.propose.clicked.connect(self._asked)
        self.halt.clicked.connect(self._stop.set)
        self.take.clicked.connect(lambda: self._take(self.table.selected_key()))
        self.table.opened.connect(self._take)
        for field in (self.most, self.moisture):
            field.submitted.connect(self._asked)

    def _lay_out(self) -> None:
        head = QWidget()
        row = QHBoxLayout(head)
        row.setContentsMargins(PANEL_SIDE - 1, 4, PANEL_SIDE - 1, 8)
        row.addWidget(self.most, 1)
        row.addWidget(self.moisture, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(head)
        column.addWidget(self.notes)
        column.addWidget(self.table, 1)

    def show_buttons(self, *, shown: bool) -> None:
        """Its buttons stand in the panel's bar while it is looked at."""
        looks = self.propose.is_working()
        self.propose.setVisible(shown)
        self.halt.setVisible(shown and looks)
        self.take.setVisible(shown and not looks)

    def show_page(self, page: HotRoomPage) -> None:
        """Other pallets wait: what was proposed for the others goes."""
        waits = {(row.code, row.state, row.grams) for row in page.rows}
        was = (
            {(row.code, row.state, row.grams) for row in self._page.rows} if self._page else waits
        )
        self._page = page
        self.most.set_unit(page.unit)
        self.table.model.columns = run_columns(page.unit)
        if waits != was:
            self._show(None)

    def take_focus(self) -> None:
        """Put the keyboard where the plan begins."""
        self.most.take_focus()

    def _asked(self) -> None:
        """Look for runs beside the window, and until somebody stops it."""
        page = self._page
        if page is None or self.propose.is_working():
            return
        self.most.set_refused(False)
        self.moisture.set_refused(False)
        try:
            asked = runs_asked(page, self.most.text(), self.moisture.text())
        except Refusal as refusal:
            self._refuse(refusal)
            return
        self._stop.clear()
        self._work(works=True)
        own, stop = with_the_rest(page, self._presenter.order.codes, asked.most_g), self._stop
        self._desk.jobs.work(lambda _report: _looked(page, asked, own, stop), self._answered)

    def _work(self, *, works: bool) -> None:
        self.propose.set_working(works)
        self.show_buttons(shown=not self.propose.isHidden())

    def _answered(self, outcome: Outcome[Plan]) -> None:
        self._work(works=False)
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        self._show(outcome.value)
        self.table.select("1")
        self.table.take_focus()

    def _show(self, plan: Plan | None) -> None:
        self.plan = plan
        page = self._page
        if plan is None or page is None:
            self.table.show_rows(())
            self.figures.show_figures("", [])
            self.notes.hide()
            return
        self.table.show_rows(run_rows(plan, page))
        shown = [KeyFigure(one.figure, one.meaning) for one in plan_figures(plan, page.unit)]
        self.figures.show_figures(tr("Recall to expect, were one yard bad"), shown)
        self._say(plan_message(plan, page.unit))

    def _refuse(self, refusal: Refusal) -> None:
        self._show(None)
        self._say(Message(Mark.REFUSED, tr("Nothing is proposed."), refusal_words(refusal)))
        field = self.moisture if refusal.field == "moisture" else self.most
        field.set_refused(True)
        field.take_focus()

    def _say(self, message: Message) -> None:
        self.notes.show_messages([message])
        self.notes.show()

    def _take(self, key: str) -> None:
        """The next run is ordered as the run in hand; the first one where none is."""
        if self.plan is None:
            words = tr("Propose runs first: the one in hand is taken then.")
            self._say(Message(Mark.NOTE, words))
            return
        lots = self.plan.lots
        at = int(key) - 1 if key else 0
        if at < len(lots):
            self._presenter.take(lots[at].codes)
            self.told.emit(Message(Mark.READY, own_words(lots[at].codes)))


def runs_asked(page: HotRoomPage, most: str, moisture: str) -> Runs:
    """What the runs are to keep, as typed; in no more of them than oldest first takes.

    Raises:
        Refusal: no mass is typed, or something cannot be read.
    """
    if not most.strip():
        raise Refusal(HOW_MUCH_A_RUN, field="most")
    most_g = parse_mass_g(most, page.unit, field="most")
    wettest = parse_moisture(moisture, field="moisture") if moisture.strip() else None
    return runs_as_by_age(page, most_g, wettest)


def _looked(page: HotRoomPage, asked: Runs, own: tuple[tuple[str, ...], ...], stop: Event) -> Plan:
    planner: Planner = importlib.import_module(_SOLVER).SolverPlanner()
    return plan_runs(page, asked, planner, LONGEST_S, lambda _best, _bound: not stop.is_set(), own)
