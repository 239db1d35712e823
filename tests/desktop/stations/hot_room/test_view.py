"""The hot room worked by keys and scanner alone, on a real house."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.ledger.verbs.hot_room import RoomLog
from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.hot_room_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_what_waits_too_long_is_told_before_the_next_step(station: Station) -> None:
    shown = station.view.form.slot.shown()
    assert shown is not None
    assert shown.mark is Mark.WAITING
    assert station.says().startswith("One pallet waits longer than 3 days")
    assert station.codes()[0] == station.waiting.old
    assert station.view.listed.heading.text().startswith("3 pallets wait, ≈ ")


def test_the_air_is_logged_and_says_whether_it_dries(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    assert rig.focused() == "Room"
    rig.type("Hot room")
    rig.type("34")
    rig.type("45")
    rig.type("fan on")
    assert rig.toast().lead == "Hot room: 34.0 °C, 45.0 %."
    assert waiting.said() == {
        "room": "Hot room",
        "temperature": 340,
        "humidity": 4_500,
        "note": "fan on",
    }
    row = station.view.presenter.row(waiting.wet)
    assert row is not None
    assert row.air == "dries"
    rig.scan(waiting.wet)
    assert "the air dries it" in station.view.figures.heading.text()


def test_heat_is_warned_of_before_it_is_recorded(station: Station) -> None:
    rig = station.rig
    rig.type("Hot room")
    rig.type("41.5")
    assert "combs sag and honey suffers" in station.says()
    rig.type("62")
    assert "and 1 more" in station.says()
    rig.type("")
    assert "combs sag" in rig.toast().text
    assert station.view.figures.heading.text().startswith("Above 40 °C combs sag")


def test_a_room_nobody_knows_is_asked_about_and_added(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    rig.type("Loft")
    assert rig.focused() == "No room of that name yet: add it"
    rig.type("")
    rig.type("30")
    rig.type("40")
    rig.type("")
    assert rig.toast().lead == "Loft: 30.0 °C, 40.0 %."
    assert [room.name for room in station.view.presenter.page.rooms] == ["Hot room", "Loft"]  # type: ignore[union-attr]
    assert waiting.said()["room"] == "Loft"


def test_a_reading_that_cannot_be_stands_at_the_top_of_the_form(station: Station) -> None:
    rig = station.rig
    rig.type("Hot room")
    rig.type("34")
    rig.type("145")
    rig.type("")
    assert station.says().startswith("Not recorded. 145 cannot be a humidity")
    assert rig.focused() == "Humidity, %"


def test_pallets_are_scanned_into_the_next_run_and_ordered_by_keys(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    for tag in (waiting.new, waiting.wet, waiting.new):
        rig.scan(tag)
    assert station.codes() == [waiting.new, waiting.wet, waiting.old]
    assert station.view.table.foot.words().startswith("Next run: 2 pallets, 2 yards tied")
    station.view.table.take_focus()
    station.view.table.select(waiting.wet)
    rig.keys("Ctrl+Up")
    assert station.codes() == [waiting.wet, waiting.new, waiting.old]
    assert station.view.table.selected_key() == waiting.wet, "the row stays chosen"
    rig.keys("Ctrl+Down")
    rig.type(" ", enter=False)
    assert station.view.presenter.order.codes == (waiting.new,)
    rig.keys("Return")
    assert station.view.presenter.order.codes == (waiting.new, waiting.wet)
    station.view.earlier.click()
    station.view.later.click()
    station.view.join.click()
    assert station.view.presenter.order.codes == (waiting.new,)
    station.view.drag.moved.emit(waiting.old, 0)
    assert station.codes() == [waiting.old, waiting.new, waiting.wet]
    station.view.to_floor.click()
    rig.settle()
    assert rig.window.shell.open_key() == "extraction"


def test_without_a_pallet_chosen_the_buttons_say_so(station: Station) -> None:
    station.view.table.select("")
    station.view.join.click()
    assert "Choose a pallet first, or scan it: it joins the next run." in [
        message.lead for message in station.view.form.slot._messages
    ]


def test_a_pallet_is_dried(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    station.choose("dry")
    rig.scan(waiting.wet)
    rig.type("")
    rig.type("17,8")
    rig.type("")
    rig.type("Hot room")
    rig.type("40")
    assert rig.toast().lead == f"{waiting.wet} was dried."
    assert "of water went out" in rig.toast().text
    row = station.view.presenter.row(waiting.wet)
    assert row is not None
    assert (row.moisture, row.state) == (1_780, "ready")
    assert waiting.said()["hours"] == 40


def test_no_drying_without_a_reading_after_it(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    station.choose("dry")
    rig.scan(waiting.wet)
    station.view.form.record.click()
    rig.settle()
    assert station.says().startswith("Not recorded. Read the moisture after drying, or weigh it")
    assert rig.focused() == "After, %"


def test_supers_are_set_aside_for_bees_held_ones_with_a_reason(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    rig.told(PutOnHold(waiting.new_pull, "smoke"))
    station.choose("aside")
    rig.scan(waiting.new)
    rig.type("2")
    rig.type("")
    rig.type("brood")
    rig.keys("Right")
    rig.type("")
    assert rig.focused() == "Whose bees"
    rig.type("Mill Lane")
    assert rig.focused() == "Why bees get held honey, by name"
    rig.type("own bees")
    rig.type("")
    assert rig.toast().lead == f"2 supers of {waiting.new} set aside."
    said = waiting.said()
    assert (said["why"], said["to"], said["yard"]) == ("brood", "bees", waiting.mill)
    assert said["despite_hold"] == "own bees"


def test_cards_traces_and_other_codes(station: Station) -> None:
    rig, waiting = station.rig, station.waiting
    rig.scan(waiting.mill)
    assert rig.window.shell.is_aside_shown()
    rig.keys("Escape")
    rig.scan(waiting.old)
    rig.keys("Ctrl+I")
    assert rig.window.card_has_focus()
    rig.keys("Escape")
    rig.type("Loft", enter=False)
    rig.keys("Ctrl+Backspace")
    assert station.view.presenter.asking.now().values == {}
    rig.keys("Ctrl+T")
    assert rig.window.shell.open_key() == "trace"


def test_the_air_of_the_fortnight_is_drawn_in_the_place_of_the_list(station: Station) -> None:
    rig, view = station.rig, station.view
    rig.house.record(RoomLog("Hot room", 338, 4_400))
    rig.told(RoomLog("Hot room", 341, 4_600))
    view.turning.click()
    assert rig.focused() == "Humidity in Hot room"
    rig.keys("End")
    assert rig.focused().endswith(": 46.0 %")
    (level,) = view.air.humidity.chart.chart().levels
    assert "honey of 19.3 %" in level.words
    assert view.join.isHidden(), "what orders the list has nothing to order"
    view.turning.click()
    assert view.bodies.currentWidget() is view.table
    assert not view.join.isHidden()


def test_in_a_low_window_the_totals_of_what_waits_are_in_view(station: Station) -> None:
    view = station.view
    station.rig.window.resize(640, 400)
    view.spread.show_part(1)
    station.rig.settle()
    for foot in (view.table.foot, view.join):
        assert foot.visibleRegion().boundingRect() == foot.rect()


def test_the_log_of_the_air_is_printed_by_its_key(station: Station) -> None:
    assert station.view.handle("print")
    station.rig.settle()
    assert (station.rig.folder / "papers" / "Hot-room log.pdf").is_file()
