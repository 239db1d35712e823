"""What the plan's page knows, without its widgets."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.season import plan_presenter
from honeyledger.desktop.stations.season.plan_presenter import PlanPresenter
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.season_rig import SeasonRig


@pytest.fixture
def season(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SeasonRig]:
    monkeypatch.setattr(plan_presenter, "SEASONS", 4)
    made = SeasonRig(qtbot, tmp_path)
    yield made
    made.close()


@pytest.fixture
def plan(season: SeasonRig, qtbot: QtBot) -> PlanPresenter:
    made = PlanPresenter(season.rig.desk)
    with qtbot.waitSignal(made.shown, timeout=20_000):
        made.ask()
    return made


def test_nothing_is_known_before_it_has_come(season: SeasonRig) -> None:
    made = PlanPresenter(season.rig.desk)
    assert (made.defaults, made.usual("crew"), made.unit) == (None, "", "kg")
    made.run()
    assert not made.is_working


def test_what_is_typed_as_it_was_is_nothing_typed(plan: PlanPresenter) -> None:
    plan.type("crew", "9")
    assert plan.text_of("crew") == "9"
    plan.type("crew", plan.usual("crew"))
    plan.type("shifts", "  ")
    assert plan.typed == {}
    assert plan.defaults is not None
    assert plan.plan() == plan.defaults.plan


def test_it_is_asked_anew_when_something_was_recorded_unless_something_is_typed(
    season: SeasonRig, plan: PlanPresenter, qtbot: QtBot
) -> None:
    plan.open()
    assert plan.usual("colonies") == "30"
    plan.type("crew", "9")
    season.rig.told(Register("yard", {"name": "Cedar", "colonies": 40}))
    plan.open()
    assert plan.usual("colonies") == "30"
    plan.type("crew", "")
    with qtbot.waitSignal(plan.shown, timeout=20_000):
        plan.open()
    assert plan.usual("colonies") == "70"


def test_figures_are_read_into_the_plan(plan: PlanPresenter) -> None:
    for name, text in (("begins", "5 Jul 2028"), ("honey_g", "20"), ("frames", "10")):
        plan.type(name, text)
    made = plan.plan()
    assert made.begins.isoformat() == "2028-07-05"
    assert [(box.frames, box.honey_g) for box in made.boxes] == [(10, 20_000)] * len(made.boxes)


def test_a_day_that_is_none_is_refused(plan: PlanPresenter) -> None:
    plan.type("begins", "soon")
    with pytest.raises(Refusal) as refused:
        plan.plan()
    assert refused.value.field == "begins"
