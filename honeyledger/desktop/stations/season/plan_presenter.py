"""What the plan's page knows: what the plan begins with, what was typed, and what came of it."""

import importlib
from collections.abc import Callable
from dataclasses import dataclass, replace
from threading import Event
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import LaneClosed, Outcome, Report
from honeyledger.desktop.models.asked_page import NOT_SHOWN
from honeyledger.desktop.models.days import format_day
from honeyledger.desktop.sheets import print_report
from honeyledger.desktop.stations.season.words import tr
from honeyledger.domain.moments import house_day, parse_day
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, format_number, format_weight
from honeyledger.ledger.booking import rules_of
from honeyledger.services.printed import SEASON_PLAN
from honeyledger.services.season_defaults import Defaults, plan_defaults
from honeyledger.services.season_forecast import Forecast, Simulator, forecast
from honeyledger.services.season_plan import HousePlan, PlanYard
from honeyledger.services.season_plan_report import PlanFrame, plan_frame, plan_report
from honeyledger.services.season_typed import parse_plan_figure, plan_figure
from honeyledger.services.store import View

SEASONS = 60
"""Simulated at once: enough for a band, and a few seconds' work."""

MANY = 1_000
"""Where somebody asks for a finer band, and has a minute."""

BEGINS = "begins"
_SIMULATOR = "honeyledger.optimisation.season_runs"
_OF_BOXES = ("frames", "honey_g")


@dataclass(frozen=True, slots=True)
class _Begun:
    """What a plan begins with, and the frame of its paper."""

    defaults: Defaults
    frame: PlanFrame
    zone: str


def _begun(view: View, now_ms: int, whole: bool | None) -> _Begun:
    return _Begun(plan_defaults(view, now_ms, whole), plan_frame(view), rules_of(view).zone)


class PlanPresenter(QObject):
    """A season's plan.

    Signals:
        begun: what the plan begins with has come, or was taken anew.
        shown: a `Forecast` has come.
        moved: how many seasons are simulated, of how many.
        failed: a `Refusal`.
        printed: the paper that was written, or the `Refusal` it ended with.
    """

    begun = Signal()
    shown = Signal(object)
    moved = Signal(int, int)
    failed = Signal(object)
    printed = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._known: _Begun | None = None
        self._stop = Event()
        self._number = 0
        self.whole: bool | None = None
        self.is_many = False
        self.typed: dict[str, str] = {}
        self.made: Forecast | None = None
        self.is_working = False
        self.is_stale = True
        desk.refresh.watch(EVERYTHING, self._changed)

    # What it begins with.

    def _changed(self) -> None:
        """Something was recorded: what the plan begins with may be another."""
        self.is_stale = True

    def open(self) -> None:
        """Somebody looks at it: ask, unless it is still true or something was typed over it."""
        if self._known is None or (self.is_stale and not self.typed):
            self.ask()

    def ask(self) -> None:
        """Ask what the plan begins with; the plan is made at once."""
        self.is_stale = False
        house, whole = self._desk.house, self.whole
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: _begun(view, now_ms, whole)),
            self._asked,
            about=(self, "plan"),
        )

    def _asked(self, outcome: Outcome[_Begun]) -> None:
        if outcome.value is None:
            why = type(outcome.error).__name__
            self.failed.emit(outcome.refusal or Refusal(NOT_SHOWN, why=why))
            return
        self._known = outcome.value
        self.typed.clear()
        self.begun.emit()
        self.run()

    def choose(self, *, whole: bool) -> None:
        """Plan a whole season, or what is left of this one."""
        self.whole = whole
        self.ask()

    @property
    def defaults(self) -> Defaults | None:
        """What the plan begins with; None until it has come."""
        return self._known.defaults if self._known is not None else None

    @property
    def unit(self) -> MassUnit:
        """The house's unit."""
        return self._known.frame.unit if self._known is not None else "kg"

    def text_of(self, name: str) -> str:
        """A figure as it stands in its field: as typed, else as the plan begins."""
        return self.typed.get(name, self.usual(name))

    def usual(self, name: str) -> str:
        """A figure as the plan begins."""
        defaults = self.defaults
        if defaults is None:
            return ""
        plan = defaults.plan
        if name == BEGINS:
            return format_day(plan.begins)
        if name == "frames":
            return format_number(round(plan.frames_a_1000 / 1_000))
        if name == "honey_g":
            return format_weight(plan.super_g, self.unit).removesuffix(f" {self.unit}")
        return plan_figure(name, int(getattr(plan, name)), self.unit)

    def type(self, name: str, text: str) -> None:
        """Something was typed; what it was before is nothing typed."""
        if text.strip() == self.usual(name) or not text.strip():
            self.typed.pop(name, None)
        else:
            self.typed[name] = text

    # What comes of it.

    def plan(self) -> HousePlan:
        """The plan with what was typed.

        Raises:
            Refusal: something typed is no figure.
        """
        assert self._known is not None
        plan = self._known.defaults.plan
        changes: dict[str, Any] = {}
        for name, text in self.typed.items():
            if name == BEGINS:
                today = house_day(self._desk.house.clock(), self._known.zone)
                changes[name] = parse_day(text, today, field=name)
                continue
            value = parse_plan_figure(name, text, self.unit)
            if name == "colonies":
                changes["yards"] = (PlanYard("", value),)
            elif name in _OF_BOXES:
                made: dict[str, Any] = {name: value}
                boxes = changes.get("boxes", plan.boxes)
                changes["boxes"] = tuple(replace(box, **made) for box in boxes)
            else:
                changes[name] = value
        return replace(plan, **changes)

    @property
    def count(self) -> int:
        """How many seasons are simulated."""
        return MANY if self.is_many else SEASONS

    def run(self) -> None:
        """Make the plan as it stands now, beside the window; one under way is dropped."""
        if self._known is None:
            return
        try:
            plan = self.plan()
        except Refusal as refusal:
            self.failed.emit(refusal)
            return
        self.stop()
        self._stop = Event()
        self._number += 1
        self.is_working = True
        self._desk.jobs.work(
            _simulated(plan, self.count, self._stop, lambda: self._desk.jobs.is_closing),
            self._arrived(self._number),
            progress=self.moved.emit,
        )

    def stop(self) -> None:
        """Stop simulating; what there is by then is shown."""
        self._stop.set()

    def _arrived(self, number: int) -> Callable[[Outcome[Forecast]], None]:
        def then(outcome: Outcome[Forecast]) -> None:
            if number != self._number or isinstance(outcome.error, LaneClosed):
                return
            self.is_working = False
            if outcome.value is None:
                self.failed.emit(refusal_of(outcome))
                return
            self.made = outcome.value
            self.shown.emit(outcome.value)

        return then

    # On paper.

    def print(self) -> None:
        """Write the plan among the papers."""
        known, made = self._known, self.made
        if known is None or made is None:
            return
        report = plan_report(made, known.defaults, known.frame)
        begins = made.plan.begins.isoformat()
        named = (f"season-plan-{begins}", tr("The plan"), SEASON_PLAN, begins)
        print_report(
            self._desk,
            report,
            named,
            lambda done: self.printed.emit(done.value or refusal_of(done)),
        )


def _simulated(
    plan: HousePlan, count: int, stop: Event, is_closing: Callable[[], bool]
) -> Callable[[Report], Forecast]:
    def task(report: Report) -> Forecast:
        def go_on(done: int, of: int) -> bool:
            report(done, of)
            return not stop.is_set() and not is_closing()

        simulator: Simulator = importlib.import_module(_SIMULATOR).HouseSimulator()
        return forecast(plan, simulator, go_on, count=count)

    return task
