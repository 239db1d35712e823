"""From an empty house to a received pallet, by keys alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop import look, tokens
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
    for _ in range(5):  # kilograms, this computer's zone, the tolerances, no letters
        rig.type("")
    assert _setup(rig).panel.heading.text() == "People"
    rig.type("Ann Reed")
    rig.type("")
    assert _setup(rig).panel.heading.text() == "Yards"
    rig.type("Mill Lane")
    rig.type("30")
    rig.type("")
    assert rig.focused() == "Name of the yard"
    rig.type("")  # no second yard
    assert _setup(rig).panel.heading.text() == "Boxes"
    rig.type("")  # as usual
    rig.type("")  # Line 1
    for _ in range(3):  # Tank 1, fed by Line 1, of any size
        rig.type("")
    assert _setup(rig).slot.sentence().startswith("All that is needed is there.")
    rig.keys("Return")  # and the dock is offered
    assert rig.window.shell.open_key() == "dock"
    rig.type("Mill")
    rig.type("")
    rig.type("")
    rig.type("North truck")
    rig.type("36")
    for _ in range(4):
        rig.type("")
    assert rig.toast().lead == "G26-0001-3 received: 36 supers, ≈ 533 kg of honey."
    arrivals = rig.house.ask(lambda view: dock_day(view, rig.now_ms)).arrivals
    assert [(row.yard, row.supers) for row in arrivals] == [("Mill Lane", 36)]


def test_a_refusal_stands_at_the_top_and_the_field_is_marked(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    rig.type("Hill House")
    rig.type("")
    rig.type("Mars")
    for _ in range(3):
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
    assert view.table.model.cell(rows["yard"], 0).mark is Mark.WARNING
    assert view.table.model.cell(rows["yard"], 1).text == "needed"
    assert view.table.model.cell(rows["customer"], 1).text == ""
    view.table.take_focus()
    view.table.select("product")
    rig.keys("Return")
    assert view.panel.heading.text() == "Products"
    assert rig.focused() == "Name of the product"


def _begin(rig: Rig) -> SetupView:
    rig.keys("Ctrl+0")
    for text in ("Hill House", "", "", "", "", ""):
        rig.type(text)
    return _setup(rig)


def test_a_name_that_is_there_shows_its_record(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("box")
    rig.type("deep")
    form = view.by_kind["box"]
    assert form.values() == {"name": "deep", "honey_g": "25.5", "tare_g": "8.5", "frames": "9"}
    assert view.slot.sentence().startswith("This one is registered.")
    rig.keys("Ctrl+Backspace")
    assert form.values()["name"] == ""


def test_a_record_is_taken_in_hand_from_the_list_of_them(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("box")
    view.there.records.take_focus()
    view.there.records.select("deep")
    rig.keys("Return")
    assert view.by_kind["box"].values()["name"] == "deep"
    assert rig.focused() == "Name of the box"


def test_more_facts_are_asked_where_they_are_wanted(rig: Rig) -> None:
    view = _begin(rig)
    form = view.by_kind["yard"]
    view.presenter.turn("yard")
    assert form.by_key["forage"].isHidden()
    view.more.setFocus()
    rig.keys("Return")
    assert not form.by_key["forage"].isHidden()
    assert view.more.text() == "Fewer facts"
    rig.keys("Return")
    assert form.by_key["forage"].isHidden()


def test_a_form_can_be_skipped_and_the_dock_reached(rig: Rig) -> None:
    rig.keys("Ctrl+0")
    view = _setup(rig)
    view.skip.setFocus()
    rig.keys("Return")
    assert view.panel.heading.text() == "People"
    view.to_dock.setFocus()
    rig.keys("Return")
    assert rig.window.shell.open_key() == "dock"


def test_a_table_is_chosen_and_what_is_wrong_in_it_stands_beside(rig: Rig, tmp_path: Path) -> None:
    view = _begin(rig)
    file = tmp_path / "yards.csv"
    file.write_text("name,colonies\nMill Lane,many\nHigh Wood,few\n")
    rig.desk.choose_file = lambda _parent: file
    view.presenter.turn("table")
    view.more.setFocus()
    rig.keys("Return")
    assert rig.focused() == "File"
    rig.keys("Return")
    assert len(view.there.notes.sentences()) == 2
    assert view.slot.sentence() == (
        "Not saved. yards.csv has 2 things to put right, so nothing of it was taken in."
    )
    file.write_text("name,colonies\nMill Lane,30\n")
    rig.keys("Return")
    assert view.there.bodies.currentWidget() is view.there.records
    assert rig.toast().lead == "yards.csv: 1 new yard, 0 changed."


def test_backups_and_papers_are_a_press_away(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("papers")
    rig.keys("Return")
    assert rig.opened == [rig.desk.papers]
    assert rig.desk.papers.is_dir()
    view.presenter.turn("kept")
    rig.keys("Return")
    assert rig.window.shell.open_key() == "entries"


def test_the_look_changes_at_once(rig: Rig) -> None:
    view = _begin(rig)
    view.presenter.turn("computer")
    view.by_kind["computer"].fill({"station": "bench", "look": "dark", "scale": "100"})
    view.save.click()
    rig.settle()
    assert look.theme() is tokens.DARK
