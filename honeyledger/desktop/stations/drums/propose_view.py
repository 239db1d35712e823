"""Asks for a choice of drums that comes to what a blend should, and keeps a later recall small.

What is proposed stands in the form as a plan: a person weighs it, changes it, or throws it away.
The solver is loaded by name with the first proposal.
"""

import importlib
from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked import FormTyped, LineTyped
from honeyledger.desktop.stations.drums.blend_asks import ABOUT, BLEND
from honeyledger.desktop.stations.drums.blend_plan import MOST, wanted_of
from honeyledger.desktop.stations.drums.presenter import DrumsPresenter
from honeyledger.desktop.stations.drums.words import counted, tr
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, format_mass, parse_mass_g
from honeyledger.services.drums_page import DrumsPage
from honeyledger.services.planning import Planner, Wanted
from honeyledger.services.recall_plans import Plan, plan_blend

LONGEST_S = 8
_SOLVER = "honeyledger.optimisation.plans"
# The facts a plan is refused for, and where they are typed.
_FIELDS = {"least": ABOUT, "moisture": MOST}

ABOUT_HOW_MUCH = Sentence(
    "blend-about-how-much",
    "Type about how much the blend is to weigh; then drums can be proposed for it.",
)


class Propose(QObject):
    """The button of the blend's form that fills it with drums.

    Signals:
        told: a `Message` of what is proposed.
    """

    told = Signal(object)

    def __init__(
        self, desk: Desk, presenter: DrumsPresenter, form: AskingPanel, button: Button
    ) -> None:
        super().__init__(form)
        self._desk, self._presenter, self._form = desk, presenter, form
        self.button = button
        button.clicked.connect(self.ask)
        form.chosen.connect(self._fit)
        self._fit(presenter.asking.kind)

    def _fit(self, kind: str) -> None:
        self.button.setVisible(kind == BLEND)

    def ask(self) -> None:
        """Look for drums that come to what is typed, beside the window."""
        page, typed = self._presenter.page, self._presenter.asking.now()
        if page is None:
            return
        try:
            asked = asked_of(typed, page.unit)
        except Refusal as refusal:
            self._form.show_refusal(refusal)
            return
        own = tuple(line.code for line in typed.lines)
        self.button.set_working(True)
        self._desk.jobs.work(lambda _report: _looked(page, asked, own), self._answered)

    def _answered(self, outcome: Outcome[Plan]) -> None:
        self.button.set_working(False)
        page, asking = self._presenter.page, self._presenter.asking
        if outcome.value is None or page is None:
            self._form.show_refusal(_about_a_field(refusal_of(outcome)))
            return
        (lot,) = outcome.value.lots
        lines = tuple(LineTyped(code) for code in lot.codes)
        asking.fill(FormTyped(asking.now().values, lines))
        self.told.emit(plan_message(outcome.value, page.unit))


def asked_of(typed: FormTyped, unit: MassUnit) -> Wanted:
    """What the blend is to be: about so much and up to a tenth more, and as the form says.

    Raises:
        Refusal: no mass is typed, or something cannot be read.
    """
    about = typed.text(ABOUT)
    if not about:
        raise Refusal(ABOUT_HOW_MUCH, field=ABOUT)
    least_g, wanted = parse_mass_g(about, unit, field=ABOUT), wanted_of(typed)
    lightest, darkest = wanted.span or (None, None)
    return Wanted(least_g, least_g + least_g // 10, wanted.most, None, lightest, darkest)


def _looked(page: DrumsPage, asked: Wanted, own: Sequence[str]) -> Plan:
    planner: Planner = importlib.import_module(_SOLVER).SolverPlanner()
    return plan_blend(page, asked, planner, LONGEST_S, lambda _best, _bound: True, own)


def _about_a_field(refusal: Refusal) -> Refusal:
    field = _FIELDS.get(refusal.field, refusal.field)
    return Refusal(refusal.sentence, field=field, offers=refusal.offers, **refusal.facts)


def plan_message(plan: Plan, unit: MassUnit) -> Message:
    """What is proposed, what a recall of one of its sources would take, and how good that is."""
    (lot,) = plan.lots
    lead = counted(len(lot.codes), tr("One drum is proposed."), tr("{n} drums are proposed."))
    words = tr("They tie {n} yards together; a recall of one would take {mass} on the mean.")
    said = [words.format(n=len(lot.sources), mass=format_mass(plan.expected_g, unit, 0))]
    if plan.by_age_g is not None and plan.by_age_g > plan.expected_g:
        older = tr("With the oldest drums it would be {mass}.")
        said.append(older.format(mass=format_mass(plan.by_age_g, unit, 0)))
    if plan.own_g is not None:
        own = tr("With the drums that stood here it would be {mass}.")
        said.append(own.format(mass=format_mass(plan.own_g, unit, 0)))
    if plan.stopped == "proved":
        said.append(tr("No choice is better."))
    elif plan.best_g is not None:
        gap = tr("No choice can come below {mass}.")
        said.append(gap.format(mass=format_mass(plan.best_g, unit, 0)))
    else:
        said.append(tr("A better choice may exist."))
    return Message(Mark.NOTE, lead, " ".join(said))
