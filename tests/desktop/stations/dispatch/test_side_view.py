"""The right panel: which of its views is shown, and what a row of it does."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.dispatch import DispatchLine
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig

CLOVER = "product/clover-500-g"


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_what_is_on_hand_is_shown_until_the_first_line(station: Station) -> None:
    side = station.view.side
    assert (side.shown, side.panel.heading.text()) == ("hand", "On hand, the oldest first")
    station.rig.scan(station.goods.drum)
    assert (side.shown, side.panel.heading.text()) == ("note", "This note")
    station.view.presenter.take_off(station.goods.drum)
    assert side.shown == "hand"


def test_what_the_person_chose_to_see_stays(station: Station) -> None:
    side = station.view.side
    side.choose_view("hand")
    station.form.note.take_wanted(CLOVER)
    station.rig.type("5")
    assert side.shown == "hand"
    station.rig.scan(station.goods.drum)
    assert side.shown == "note", "a scan shows where it went"


def test_every_view_can_be_reached_and_says_what_it_is(station: Station) -> None:
    side = station.view.side
    for view, heading in (("note", "This note"), ("notes", "Dispatch notes")):
        side.choose_view(view)
        assert side.panel.heading.text() == heading
        assert side.stack.currentWidget() is side.tables[view]
    shown = [side.take_off.isVisible(), side.paper.isVisible()]
    assert shown == [False, True]
    side.choose_view("note")
    assert [side.take_off.isVisible(), side.paper.isVisible()] == [True, False]
    station.rig.type("")
    assert station.view.side.selected() == "", "there is no row to go on with"


def test_a_product_on_hand_is_wanted_by_enter(station: Station) -> None:
    rig, side = station.rig, station.view.side
    side.choose_view("hand")
    side.tables["hand"].select(CLOVER)
    rig.type("")
    assert rig.focused() == "Jars wanted"
    rig.type("24")
    side.choose_view("note")
    rig.type("")
    assert (rig.focused(), station.fields.jars.text()) == ("Jars wanted", "24")


def test_on_hand_gives_the_oldest_lot_to_a_sample(station: Station) -> None:
    rig, side = station.rig, station.view.side
    station.choose("sample")
    assert side.shown == "hand"
    side.choose_view("hand")
    side.tables["hand"].select("lots/D")
    rig.type("")
    assert station.fields.lot.text() == station.goods.drum


def test_who_has_a_lot_and_that_nobody_has(station: Station) -> None:
    rig, goods = station.rig, station.goods
    goods.sent("Packer", DispatchLine(goods.old, jars=40))
    station.choose("back")
    table = station.view.side.tables["had"]
    assert table.view.empty == "Scan what came back: who has it stands here."
    rig.scan(goods.old)
    assert table.foot.words() == f"{goods.old} Clover 500 g: 1 customer"
    rig.scan(goods.aster)
    assert table.model.rowCount() == 0
    assert table.view.empty == f"No customer has anything of {goods.aster} in the books."
    assert table.foot.isHidden()


def test_open_notes_have_no_paper(station: Station) -> None:
    rig, side = station.rig, station.view.side
    rig.type("Packer")
    rig.keys("Ctrl+N")
    side.choose_view("notes")
    side.tables["notes"].select("aside/0")
    side.paper.click()
    rig.settle()
    assert not (rig.folder / "papers").exists()
    rig.keys("Ctrl+P")
    assert station.says() == (
        "Sign a note first, or choose one of the notes: its paper is printed then."
    )
