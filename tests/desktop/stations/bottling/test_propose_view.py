"""Drums are proposed for a bottling, by the jars that are wanted of a product."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.bottling.propose_view import plan_message
from honeyledger.desktop.stations.bottling.typed import LABELS, Typed
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.recall_plans import Plan, PlannedLot
from tests.desktop.bottling_rig import PRODUCT, Filler
from tests.desktop.rig import SOON, Rig

PLAN = Plan(
    (PlannedLot(("D26-0001-C",), 100_000, None, ("Mill Lane",)),),
    *(80_000, 130_000, True, 90_000, 80_000, "proved", {}),
)


@pytest.fixture
def filler(qtbot: QtBot, tmp_path: Path) -> Iterator[Filler]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Filler(rig)
    rig.close()


def test_what_is_proposed_is_said_with_what_a_recall_would_take() -> None:
    message = plan_message(PLAN, "kg")
    assert message.lead == "One drum is proposed."
    assert message.text.replace("\u00a0", " ") == (
        "Of one source. A recall of one source would take 80 kg on the mean. With the oldest "
        "drums it would be 130 kg. With the drums in the order it would be 90 kg. No choice is "
        "better."
    )
    plain = replace(PLAN, by_age_g=None, own_g=None, stopped="time")
    assert plan_message(plain, "kg").text.endswith("on the mean. A better choice may exist.")


def test_a_start_is_filled_with_the_drums_proposed(filler: Filler) -> None:
    button, presenter = filler.view.propose.button, filler.presenter
    assert button.isVisible()
    button.click()
    filler.settle()
    assert filler.says() == (
        "Not recorded. Type about how many jars of which product are to be filled; then drums "
        "can be proposed."
    )
    presenter.type(Typed(product=PRODUCT, about="100"))
    filler.view.form.fill()
    button.click()
    filler.settle()
    assert presenter.hand.typed.order == (filler.second,)
    assert filler.window.toast().lead == "One drum is proposed."
    assert presenter.hand.typed.about == "100"
    presenter.type(replace(presenter.hand.typed, about="9000"))
    button.click()
    filler.settle()
    assert filler.says().startswith("Not recorded. The drums that may go in hold ")
    assert filler.at() == "about"
    assert presenter.hand.typed.order == (filler.second,)
    presenter.choose(LABELS)
    assert not button.isVisible()


def test_an_origin_that_was_not_judged_is_told_with_the_proposal(filler: Filler) -> None:
    loose = {"name": "Loose", "net_g": 500, "origin": "from around here"}
    filler.rig.house.record(Register("product", loose))
    filler.presenter.type(Typed(product="Loose", about="100"))
    filler.view.form.fill()
    filler.view.propose.button.click()
    filler.settle()
    toast = filler.window.toast()
    assert toast.mark is Mark.WARNING
    assert toast.text.startswith(
        "No drum was judged by the origin typed for its label, from around here: "
    )
