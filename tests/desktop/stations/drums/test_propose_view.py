"""Drums are proposed for a blend: by what is wanted of it, so that a later recall stays small."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.drums.propose_view import asked_of, plan_message
from honeyledger.domain.refusals import Refusal
from honeyledger.services.planning import Wanted
from honeyledger.services.recall_plans import Plan, PlannedLot
from tests.desktop.drums_rig import Station
from tests.desktop.rig import SOON, Rig

PLAN = Plan(
    (PlannedLot(("D26-0001-C", "D26-0002-A"), 450_000, 1_750, ("Mill Lane", "Willow Bank")),),
    *(450_000, 610_000, True, None, 450_000, "proved", {}),
)


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_what_is_wanted_comes_from_the_form() -> None:
    typed = FormTyped({"about": "1200", "most": "17,8", "span": "30-44"})
    assert asked_of(typed, "kg") == Wanted(1_200_000, 1_320_000, 1_780, None, 300, 440)
    assert asked_of(FormTyped({"about": "100"}), "kg") == Wanted(100_000, 110_000)


def test_what_is_proposed_is_said_with_what_a_recall_would_take() -> None:
    message = plan_message(PLAN, "kg")
    assert message.lead == "2 drums are proposed."
    assert message.text == (
        "They tie 2 yards together; a recall of one would take 450 kg on the mean. "
        "With the oldest drums it would be 610 kg. No choice is better."
    )
    own = plan_message(replace(PLAN, own_g=700_000, best_g=440_000, stopped="time"), "kg").text
    assert own.endswith(
        "With the drums that stood here it would be 700 kg. No choice can come below 440 kg."
    )
    plain = replace(PLAN, by_age_g=None, best_g=None, stopped="time")
    assert plan_message(plain, "kg").text.endswith("on the mean. A better choice may exist.")


def test_drums_are_proposed_by_a_button_and_stand_in_the_plan(station: Station) -> None:
    rig, cellar, view = station.rig, station.cellar, station.view
    assert not view.propose.button.isVisible()
    station.choose("blend")
    view.propose.button.click()
    assert station.says() == (
        "Not recorded. Type about how much the blend is to weigh; then drums can be proposed for "
        "it."
    )
    assert rig.focused() == "Wanted: about, kg"
    rig.type("450", enter=False)
    view.propose.button.click()
    rig.settle()
    assert sorted(line.code for line in station.typed().lines) == [cellar.second, cellar.third]
    assert rig.toast().lead == "2 drums are proposed."
    assert station.typed().text("about") == "450"
    assert station.figures()[0] == "450 kg, goes in"
    assert "No choice is better." in rig.toast().text
    assert "that stood here" not in rig.toast().text
    rig.scan(cellar.first)
    view.propose.button.click()
    rig.settle()
    assert "With the drums that stood here it would be " in rig.toast().text
    assert sorted(line.code for line in station.typed().lines) == [cellar.second, cellar.third]


def test_what_cannot_be_is_said_and_the_plan_stays(station: Station) -> None:
    rig, view = station.rig, station.view
    station.choose("blend")
    rig.scan(station.cellar.first)
    field = view.form.fields["blend"]["about"]
    view.form.form.take_focus(field)
    rig.type("9000", enter=False)
    view.propose.button.click()
    rig.settle()
    assert "less than the 9000.0 kg asked for" in station.says().replace("\u202f", "")
    assert [line.code for line in station.typed().lines] == [station.cellar.first]
    assert rig.focused() == "Wanted: about, kg"


def test_a_mass_that_is_none_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        asked_of(FormTyped({"about": "much"}), "kg")
    assert refused.value.field == "about"
