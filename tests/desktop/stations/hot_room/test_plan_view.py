"""Runs are proposed in the hot room, and one is taken by a person; nothing is booked by it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.hot_room.plan_view import RunPlan, runs_asked
from honeyledger.domain.refusals import Refusal
from honeyledger.services.planning import Runs
from tests.desktop.hot_room_rig import Station
from tests.desktop.rig import SOON, Rig
from tests.desktop.stations.hot_room.pages import OLD, PAGE
from tests.support.houses import refused


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def opened(station: Station) -> RunPlan:
    station.view.turn_to_plan()
    assert station.view.plan is not None
    return station.view.plan


def test_what_runs_are_to_keep_comes_from_the_fields() -> None:
    asked = runs_asked(PAGE, "400", "18,5")
    assert asked == Runs(400_000, 1, 1_850, ((OLD.code, 0),))
    sentence = "Type how much honey one run holds at most; then runs can be proposed."
    assert refused(lambda: runs_asked(PAGE, " ", "")) == sentence
    with pytest.raises(Refusal) as wrong:
        runs_asked(PAGE, "400", "wet")
    assert wrong.value.field == "moisture"


def test_runs_are_proposed_and_the_one_in_hand_is_taken(station: Station) -> None:
    rig, waiting, view = station.rig, station.waiting, station.view
    before = rig.house.ask(lambda page: page.head())
    plan = opened(station)
    assert rig.focused() == "One run holds at most, kg"
    rig.type("320")
    rig.settle()
    assert plan.plan is not None
    assert [lot.codes for lot in plan.plan.lots] == [(waiting.old,), (waiting.new,)]
    assert plan.plan.left_out == {waiting.wet: "dry first"}
    plan.table.select("2")
    plan.take.click()
    assert view.presenter.order.codes == (waiting.new,)
    assert rig.toast().lead == "The next run is ordered as proposed: 1 pallet."
    assert rig.house.ask(lambda page: page.head()) == before
    # What was ordered is held against what is proposed next.
    plan.propose.click()
    rig.settle()
    assert plan.plan.own_g is not None


def test_what_cannot_be_says_so_and_marks_its_field(station: Station) -> None:
    rig = station.rig
    plan = opened(station)
    plan.propose.click()
    assert rig.focused() == "One run holds at most, kg"
    assert plan.notes.isVisible()
    rig.type("100")
    rig.settle()
    assert plan.plan is None
    plan.take.click()
    assert plan.notes.sentences() == ["Propose runs first: the one in hand is taken then."]
    rig.type("320", enter=False)
    plan.moisture.set_text("15")
    plan.propose.click()
    rig.settle()
    assert plan.plan is None
    assert not plan.table.model.rowCount()


def test_while_it_looks_it_can_be_stopped(station: Station) -> None:
    plan = opened(station)
    assert not plan.halt.isVisible()
    plan.most.set_text("320")
    plan.propose.click()
    assert plan.halt.isVisible()
    assert not plan.take.isVisible()
    plan.halt.click()
    station.rig.settle()
    assert not plan.halt.isVisible()
    assert plan.plan is not None


def test_when_other_pallets_wait_the_proposal_goes(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    plan = opened(station)
    rig.type("320")
    rig.settle()
    assert plan.plan is not None
    waiting.pallet(waiting.bank, 5)
    station.view.presenter.ask()
    rig.settle()
    assert plan.plan is None


def test_the_list_comes_back_with_its_buttons(station: Station) -> None:
    view = station.view
    plan = opened(station)
    assert plan.propose.isVisible()
    assert not view.join.isVisible()
    view.turn_to_plan()
    assert not plan.propose.isVisible()
    assert view.join.isVisible()
