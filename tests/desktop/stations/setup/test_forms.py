"""What is typed in the set-up is kept, and a new house goes on where it was."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.setup.forms import SetupForms
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup_page import setup_page
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def _forms(rig: DeskRig) -> tuple[SetupForms, list[str]]:
    forms, turned = SetupForms(rig.desk, "Europe/Berlin"), list[Any]()
    forms.turned.connect(lambda kind: turned.append(kind.key))
    forms.page = rig.house.ask(setup_page)
    forms.restore(forms.page)
    rig.settle()
    return forms, turned


def test_what_is_half_filled_outlives_the_window(rig: DeskRig) -> None:
    forms, turned = _forms(rig)
    assert turned == ["operator"]
    forms.skip()
    assert forms.sentence().startswith("Step 3 of 6. Name a yard,")
    forms.type({"name": "Mill L", "colonies": "3"})
    rig.desk.refresh.broadcast(["closing"])
    again, turned = _forms(rig)
    assert turned == ["yard"]
    assert again.form_of(again.kind) == again.begins_as(again.kind) | {
        "name": "Mill L",
        "colonies": "3",
    }
    again.clear()
    assert again.form_of(again.kind)["name"] == ""


def test_typing_is_kept_soon_and_not_when_it_is_what_was_there(rig: DeskRig) -> None:
    forms, _ = _forms(rig)
    forms.turn("box")
    forms.type(forms.begins_as(forms.kind) | {"name": "jumbo"})
    rig.settle(forms.pause)
    kept = rig.desk.drafts.read("setup-ledger-1")
    assert kept["at"] == "box"
    forms.type(forms.begins_as(forms.kind))
    assert forms.typed == {}


def test_a_draft_that_means_nothing_is_passed_over(rig: DeskRig) -> None:
    rig.desk.drafts.keep(
        "setup-ledger-1", {"at": "nothing", "seen": 3, "forms": {"box": 1, "x": {}}}
    )
    forms, turned = _forms(rig)
    assert turned == ["operator"]
    assert forms.typed == {}


def test_a_house_that_is_set_up_begins_with_itself_and_is_done(rig: DeskRig) -> None:
    for kind, record in (
        ("yard", {"name": "Mill Lane"}),
        ("vessel", {"name": "Line 1", "sort": "line"}),
        ("vessel", {"name": "Tank 1", "sort": "tank"}),
    ):
        rig.house.record(Register(kind, record))
    forms, turned = _forms(rig)
    assert turned == ["house"]
    assert not forms.may_go_on()
    done: list[bool] = []
    forms.completed.connect(lambda: done.append(True))
    forms.complete()
    assert done == [True]
    assert forms.values_of("MILL lane") is None
    forms.turn("yard")
    found = forms.values_of("mill lane")
    assert found is not None
    assert found["name"] == "Mill Lane"


def test_a_form_is_recorded_once_however_often_it_is_tried(rig: DeskRig) -> None:
    forms, _ = _forms(rig)
    forms.turn("supply")
    forms.type(forms.begins_as(forms.kind) | {"name": "Jars"})
    assert forms.command_of(forms.kind, "first") == "first"
    rig.settle(forms.pause)
    again, _ = _forms(rig)
    assert again.kind.key == "supply"
    assert again.command_of(again.kind, "second") == "first"
    again.forget(again.kind)
    assert again.command_of(again.kind, "third") == "third"
