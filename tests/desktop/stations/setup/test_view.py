"""From an empty house to a received pallet, by keys alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.stations.setup.view import SetupView
from honeyledger.services.dock import dock_day
from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path, begun=False)
    yield made
    made.close()


def _setup(rig: Rig) -> SetupView:
    found = rig.window.stations["setup"]
    assert isinstance(found, SetupView)
    return found


def test_an_empty_house_receives_its_first_pallet_by_keys_alone(rig: Rig) -> None:
    rig.keys("Return")  # the dock offers to set the house up
    assert rig.window.shell.open_key() == "setup"
    rig.type("Hill House")
    rig.type("")  # this computer's zone
    rig.type("")  # kilograms
    rig.type("")  # no letters before codes
    assert _setup(rig).panel.heading.text() == "Yards"
    rig.type("Mill Lane")
    rig.type("30")
    rig.type("")  # of no place, region or country
    rig.type("")
    rig.type("")
    rig.type("")  # not organic
    rig.type("")  # Line 1
    rig.type("")  # Tank 1
    rig.type("")  # fed by Line 1
    rig.type("")  # of any size
    assert _setup(rig).panel.heading.text() == "People"
    rig.type("Ann Reed")
    rig.type("")
    assert _setup(rig).slot.sentence().startswith("All that is needed is there.")
    rig.keys("Return")  # and the dock is offered
    assert rig.window.shell.open_key() == "dock"
    rig.type("Mill")
    rig.type("")
    rig.type("")
    rig.type("North truck")
    rig.type("36")
    rig.type("")
    rig.type("")
    rig.type("")
    rig.type("")
    assert rig.toast().lead == "G26-0001-3 received: 36 supers, ≈ 533 kg of honey."
    arrivals = rig.house.ask(lambda view: dock_day(view, rig.now_ms)).arrivals
    assert [(row.yard, row.supers) for row in arrivals] == [("Mill Lane", 36)]


def test_a_refusal_stands_at_the_top_and_the_field_is_marked(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    rig.type("Hill House")
    rig.type("Mars")
    rig.type("")
    rig.type("")
    view = _setup(rig)
    shown = view.slot.shown()
    assert shown is not None
    assert shown.mark is Mark.REFUSED
    assert shown.text.startswith("Mars is not a time zone: type its name")
    assert rig.focused() == "Time zone"
    assert rig.head()[0] == 0


def test_the_list_says_what_there_is_and_opens_a_form(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    view = _setup(rig)
    rows = {kind.key: index for index, kind in enumerate(view.presenter.kinds)}
    state = view.table.model.cell(rows["yard"], 1)
    assert (state.text, state.mark) == ("needed", Mark.WARNING)
    assert view.table.model.cell(rows["customer"], 1).text == "if wanted"
    view.table.take_focus()
    view.table.select("product")
    rig.keys("Return")
    assert view.panel.heading.text() == "Products"
    assert rig.focused() == "Name of the product"


def test_a_name_that_is_there_shows_its_record(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    for text in ("Hill House", "", "", ""):
        rig.type(text)
    view = _setup(rig)
    view.presenter.turn("box")
    rig.type("deep")
    form = view.by_kind["box"]
    assert form.values() == {"name": "deep", "honey_g": "25.5", "tare_g": "8.5", "frames": "9"}
    assert view.slot.sentence().startswith("This one is registered.")
    rig.keys("Ctrl+Backspace")
    assert form.values()["name"] == ""


def test_a_form_can_be_skipped_and_the_dock_reached(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    view = _setup(rig)
    view.skip.setFocus()
    rig.keys("Return")
    assert view.panel.heading.text() == "Yards"
    view.to_dock.setFocus()
    rig.keys("Return")
    assert rig.window.shell.open_key() == "dock"


def test_what_is_set_up_in_a_terminal_stands_behind_the_list(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    view = _setup(rig)
    view.turning.setFocus()
    rig.keys("Return")
    assert view.listed.heading.text() == "Meanwhile, in a terminal"
    assert view.commands.isVisible()
    rig.keys("Return")
    assert view.listed.heading.text() == "What is registered"
    assert view.table.isVisible()
