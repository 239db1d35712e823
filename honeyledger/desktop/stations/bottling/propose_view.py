"""Asks for drums to fill from, by the jars wanted, that keep a later recall small.

What is proposed stands as the order of the start: a person changes it, or throws it away. The
solver is loaded by name with the first proposal.
"""

import importlib
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.counting import counted
from honeyledger.desktop.stations.bottling.presenter import BottlingPresenter
from honeyledger.desktop.stations.bottling.rows import tr
from honeyledger.desktop.stations.bottling.steps import After
from honeyledger.desktop.stations.bottling.typed import START
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, format_mass, parse_count
from honeyledger.services.bottling_plan import (
    HOW_MANY_JARS,
    BottlingAsked,
    bottling_and_drums,
    plan_bottling,
)
from honeyledger.services.drums_page import DrumsPage
from honeyledger.services.planning import Planner
from honeyledger.services.recall_plans import Plan

LONGEST_S = 8
_SOLVER = "honeyledger.optimisation.plans"
# The fact a plan is refused for, and where it is typed.
_FIELDS = {"jars": "about", "least": "about", "moisture": "about"}


class ProposeFeeds(QObject):
    """The button that fills the order of a start with drums.

    Signals:
        told: a `Message` of what is proposed.
        refused: a `Refusal`, about a field of the form.
    """

    told = Signal(object)
    refused = Signal(object)

    def __init__(self, desk: Desk, presenter: BottlingPresenter, button: Button) -> None:
        super().__init__(button)
        self._desk, self._presenter = desk, presenter
        self.button = button
        button.clicked.connect(self.ask)
        presenter.filled.connect(lambda _at: self.fit())
        self.fit()

    def fit(self) -> None:
        """Only a start takes a proposal."""
        self.button.setVisible(self._presenter.hand.typed.kind == START)

    def ask(self) -> None:
        """Look for drums that hold the jars typed, beside the window."""
        typed = self._presenter.hand.typed
        house, now_ms = self._desk.house, self._desk.house.clock()
        try:
            if not typed.about.strip():
                raise Refusal(HOW_MANY_JARS, field="jars")
            jars = parse_count(typed.about, "jars", least=1, field="jars")
        except Refusal as refusal:
            self._refuse(refusal)
            return
        self.button.set_working(True)
        self._desk.jobs.read(
            lambda: house.ask(lambda view: bottling_and_drums(view, now_ms, typed.product, jars)),
            lambda outcome: self._read(typed.order, outcome),
        )

    def _read(self, own: Sequence[str], outcome: Outcome[tuple[BottlingAsked, DrumsPage]]) -> None:
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        asked, page = outcome.value
        self._desk.jobs.work(
            lambda _report: _looked(page, asked, own), partial(self._answered, asked)
        )

    def _answered(self, asked: BottlingAsked, outcome: Outcome[Plan]) -> None:
        if outcome.value is None:
            self._refuse(refusal_of(outcome))
            return
        self.button.set_working(False)
        typed = self._presenter.hand.typed
        if typed.kind == START:  # else something else happens by now
            order = outcome.value.lots[0].codes
            self._presenter.follow(After(replace(typed, order=order, feed=""), "feed"))
            message = plan_message(outcome.value, self._desk.unit)
            if asked.told:
                text = f"{say(asked.told)} {message.text}"
                message = replace(message, mark=Mark.WARNING, text=text)
            self.told.emit(message)

    def _refuse(self, refusal: Refusal) -> None:
        self.button.set_working(False)
        field = _FIELDS.get(refusal.field, refusal.field)
        self.refused.emit(
            Refusal(refusal.sentence, field=field, offers=refusal.offers, **refusal.facts)
        )


def _looked(page: DrumsPage, asked: BottlingAsked, own: Sequence[str]) -> Plan:
    planner: Planner = importlib.import_module(_SOLVER).SolverPlanner()
    return plan_bottling(page, asked, planner, LONGEST_S, lambda _best, _bound: True, own)


def plan_message(plan: Plan, unit: MassUnit) -> Message:
    """What is proposed, what a recall of one of its sources would take, and how good that is."""
    (lot,) = plan.lots
    lead = counted(len(lot.codes), tr("One drum is proposed."), tr("{n} drums are proposed."))
    sources = counted(len(lot.sources), tr("Of one source."), tr("They tie {n} sources together."))
    words = tr("A recall of one source would take {mass} on the mean.")
    said = [sources, words.format(mass=format_mass(plan.expected_g, unit, 0))]
    if plan.by_age_g is not None and plan.by_age_g > plan.expected_g:
        older = tr("With the oldest drums it would be {mass}.")
        said.append(older.format(mass=format_mass(plan.by_age_g, unit, 0)))
    if plan.own_g is not None:
        own = tr("With the drums in the order it would be {mass}.")
        said.append(own.format(mass=format_mass(plan.own_g, unit, 0)))
    better = tr("No choice is better.") if plan.stopped == "proved" else ""
    said.append(better or tr("A better choice may exist."))
    return Message(Mark.NOTE, lead, " ".join(said))
