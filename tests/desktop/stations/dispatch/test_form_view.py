"""The left panel: what happens, the slot above, the button below."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop import tokens
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.widgets.buttons import Kind
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_the_arrows_go_through_what_happens_and_a_press_goes_into_the_fields(
    station: Station,
) -> None:
    rig = station.rig
    station.fields.what.take_focus()
    rig.keys("Right")
    assert (station.form.kind, rig.focused()) == ("back", "What happens: Back")
    rig.keys("Right")
    assert station.form.kind == "away"
    rig.type("")
    assert rig.focused() == "Thrown away: scan it"
    station.fields.what.buttons()[0].click()
    assert station.form.kind == "send"


def test_the_button_says_what_it_does(station: Station) -> None:
    rig, goods = station.rig, station.goods
    words = {}
    for kind in ("send", "back", "away", "sample"):
        station.choose(kind)
        words[kind] = (station.form.record.text(), station.form.record.kind)
    assert words == {
        "send": ("Sign and send", Kind.PRIMARY),
        "back": ("Take back", Kind.PRIMARY),
        "away": ("Throw away", Kind.GRAVE),
        "sample": ("Take the sample", Kind.PRIMARY),
    }
    station.choose("send")
    rig.scan(goods.drum)
    assert station.form.record.text() == "Sign and send 1 lot, 280.0 kg"


def test_the_slot_says_the_next_step(station: Station) -> None:
    rig, goods = station.rig, station.goods
    assert station.slot.sentence() == (
        "Scan the drums and jars that go, or type what the order wants."
    )
    rig.type("Packer")
    rig.keys("Ctrl+N")
    assert station.slot.sentence() == "1 note is open. Scan what goes, or take one up."
    steps = []
    for kind in ("back", "away", "sample"):
        station.choose(kind)
        steps.append(station.slot.sentence().split()[1:3])
    assert steps == [["what", "came"], ["what", "is"], ["each", "lot"]]
    station.choose("send")
    rig.scan(goods.drum)
    station.choose("send")
    assert station.slot.sentence() == (
        "Scan on. Enter in the empty field goes to the button that signs."
    )


def test_the_worst_is_said_first_and_a_scan_beside_it(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.new)
    rig.type("5")
    rig.scan(goods.drum)
    assert station.slot.sentence().endswith("(and 1 more)")
    assert station.says().startswith(f"{goods.old} is older")
    station.form.say(Message(Mark.REFUSED, "No."))
    assert station.says() == "No."


def test_a_hold_with_its_way_has_three_lines_in_a_narrow_panel(station: Station) -> None:
    rig = station.rig
    rig.window.resize(1280, 800)
    rig.settle()
    assert station.slot.height() == tokens.SLOT_TALL_HEIGHT
    rig.window.resize(1920, 1080)
    rig.settle()
    assert station.slot.height() == tokens.SLOT_HEIGHT


@pytest.mark.parametrize("size", [(1280, 800), (1280, 728), (1024, 700), (853, 640), (640, 400)])
def test_nothing_of_a_form_is_cut_at_its_sides(station: Station, size: tuple[int, int]) -> None:
    station.rig.window.resize(*size)
    for kind in ("send", "back", "away", "sample"):
        station.choose(kind)
        form = station.form.form
        assert form.horizontalScrollBar().maximum() == 0, kind
        sheet = form.widget()
        assert sheet is not None
        assert sheet.width() <= form.viewport().width(), kind
        for field in form.fields():
            if field.isVisible():
                assert field.height() >= tokens.TARGET_LEAST, kind
        assert not station.form.record.is_cut(), kind
