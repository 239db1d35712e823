"""The floor's page: queue, sheet and what its buttons offer."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.extraction.view import ExtractionView
from honeyledger.desktop.stations.hot_room.view import HotRoomView
from honeyledger.desktop.turns import whole
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.floor_rig import Floor
from tests.desktop.rig import SOON, Rig


def test_the_queue_has_those_that_wait_longest_first(floor: Floor) -> None:
    view = floor.view.floor
    assert [row.pallet for row in view.queue.model.rows()] == [floor.tag, floor.later]
    assert view.queue.foot.words().startswith("2 pallets wait")
    floor.loaded()
    assert [row.pallet for row in view.queue.model.rows()] == [floor.later]
    assert view.queue.foot.words().startswith("1 pallet waits")


def test_a_pallet_of_the_queue_goes_into_the_form(floor: Floor) -> None:
    floor.loaded()
    floor.view.floor.choose("drum")
    floor.view.floor.choose("load")
    floor.view.floor.queue.take_focus()
    floor.rig.keys("Return")
    assert floor.view.floor.form.pallet.text() == floor.later
    assert floor.view.floor.form.pallet.editor.hasFocus()


def test_the_sheet_adds_up_as_it_goes(floor: Floor) -> None:
    run = floor.loaded()
    view = floor.view.floor
    assert view.sheet_panel.heading.text() == f"Run {run}, Line A"
    assert "36" in view.went_in.foot.accessibleName()
    floor.rig.scan(floor.drum)
    floor.rig.type("308")
    floor.rig.type("")
    assert "290.0 kg" in view.came_out.foot.accessibleName()


def test_the_buttons_offer_what_can_be_done(floor: Floor) -> None:
    view = floor.view.floor
    assert not view.close_run.isVisible()
    assert not view.new_run.isVisible()
    floor.open_run()
    assert view.close_run.isVisible()
    assert not view.other_run.isVisible()
    floor.rig.told(Register("vessel", {"name": "Line B", "sort": "line"}))
    view.new_run.click()
    view.form.line.set_text("Line B")
    view.form.record.click()
    floor.rig.settle()
    assert view.other_run.isVisible()
    view.other_run.click()
    floor.rig.settle()
    assert view.sheet_panel.heading.text().endswith("Line A")


def test_the_fields_have_their_room_where_the_window_grew_while_they_were_out_of_sight(
    floor: Floor,
) -> None:
    floor.loaded()
    rig, form = floor.rig, floor.view.floor.form.form
    rig.window.resize(640, 400)
    rig.settle()
    rig.window.open_station(SOON)
    rig.settle()
    rig.window.resize(1280, 800)
    rig.settle()
    rig.window.open_station("extraction")
    rig.settle()
    assert form.verticalScrollBar().maximum() == 0
    assert form.height() >= form.room()


def test_a_scan_without_a_run_says_what_to_do(floor: Floor) -> None:
    floor.rig.scan(floor.tag)
    assert floor.says() == "No run is open. Open one, then scan the pallet again."
    assert floor.view.floor.queue.model.rowCount() == 2


def test_a_vessels_code_says_where_a_drum_is_filled_from(floor: Floor) -> None:
    floor.loaded()
    floor.view.floor.choose("drum")
    assert floor.view.floor.scan_container(floor.line)
    assert floor.view.floor.form.source.key() == floor.line
    assert not floor.view.floor.scan_container("E26-9999-X")


@pytest.mark.parametrize("width", [1280, 1024, 640])
def test_a_scan_brings_the_form_to_the_front(floor: Floor, width: int) -> None:
    floor.open_run()
    floor.rig.window.resize(width, 640)
    floor.rig.settle()
    floor.view.floor.spread.show_part(1)
    floor.rig.scan(floor.tag)
    assert floor.view.floor.form.panel.isVisible()
    assert floor.view.floor.went_in.model.rowCount() == 1


def test_hidden_fields_take_no_room_from_the_queue(floor: Floor) -> None:
    view = floor.view.floor
    view.form.choose("drum")
    view.choose("load")
    whole(view.showing(floor.view.presenter.page))
    assert view.form.form.height() <= view.form.form.room() + 8


def test_the_next_run_of_the_hot_room_leads_the_queue_and_outlives_the_window(
    floor: Floor, qtbot: QtBot, tmp_path: Path
) -> None:
    """Ordered in the hot room, seen on the floor; at the next start, from its draft."""
    rig = floor.rig
    rig.keys("Ctrl+3")
    room = rig.window.stations["hot_room"]
    assert isinstance(room, HotRoomView)
    room.presenter.join(floor.later)
    rig.keys("Ctrl+4")
    queue = floor.view.floor.queue
    assert [row.pallet for row in queue.model.rows()] == [floor.later, floor.tag]
    assert [column.key for column in queue.model.columns] == [
        *("code", "yards", "next", "supers", "hours")
    ]
    floor.rig.settle()
    rig.close()
    again = Rig(qtbot, tmp_path, first=SOON)
    again.keys("Ctrl+4")
    found = again.window.stations["extraction"]
    assert isinstance(found, ExtractionView)
    assert [row.pallet for row in found.floor.queue.model.rows()] == [floor.later, floor.tag]
    again.close()


def test_the_pace_says_when_it_will_be_through(floor: Floor) -> None:
    floor.loaded()
    figures = floor.view.floor.pace
    assert "from the second pallet on" in _figures(floor)
    floor.wait(60)
    floor.rig.scan(floor.later)
    floor.wait(5)
    floor.rig.scan(floor.rig.told(Receive((Line(floor.yard, 5),))).given[-1])
    assert figures.heading.text().endswith("of 30 frames so far")
    said = _figures(floor)
    assert "frames an hour" in said
    assert "through at this pace" in said


def _figures(floor: Floor) -> str:
    widgets = floor.view.floor.pace.findChildren(QWidget)
    return "; ".join(one.accessibleName() for one in widgets if one.accessibleName())


def test_in_a_low_window_what_waits_has_a_tab_and_its_pallets_go_into_the_form(
    floor: Floor,
) -> None:
    floor.open_run()
    view, window = floor.view.floor, floor.rig.window
    assert view.spread.offered() == [0, 1]
    window.resize(640, 400)
    floor.rig.settle()
    assert view.spread.offered() == [0, 1, 2]
    view.spread.show_part(2)
    assert view.queue.isVisible()
    view.queue.take_focus()
    floor.rig.keys("Return")
    assert view.form.pallet.isVisible()
    assert view.form.pallet.text() == floor.tag
    window.resize(1280, 800)
    floor.rig.settle()
    assert view.spread.offered() == [0, 1]
    assert view.form.panel.isAncestorOf(view.queue)
    assert view.queue.isVisible()
