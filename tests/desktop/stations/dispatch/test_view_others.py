"""Returns, what is thrown away and samples, worked by keys and scanner alone."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.dispatch import DispatchLine
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_a_return_by_scan_quantity_reason_and_where_it_goes(station: Station) -> None:
    rig, goods = station.rig, station.goods
    goods.sent("Packer", DispatchLine(goods.old, jars=40))
    station.choose("back")
    rig.scan(goods.jar(goods.old, 7))
    assert rig.focused() == "Jars, blank for all"
    assert station.fields.party.text() == "Packer"
    assert station.view.side.shown == "had"
    assert station.view.side.tables["had"].model.rowCount() == 1
    rig.type("12")
    rig.type("")  # from Packer
    rig.keys("Right", "Right")
    assert rig.focused() == "Reason: wrong"
    rig.type("")
    assert rig.focused() == "Goes to: stock"
    rig.type("")
    assert rig.toast().lead == f"12 jars, 6.0 kg of {goods.old} came back."
    assert goods.said() == {
        "customer": "Packer",
        "code": goods.old,
        "jars": 12,
        "reason": "wrong",
    }


def test_another_reason_is_typed(station: Station) -> None:
    rig, goods = station.rig, station.goods
    goods.sent("gate", DispatchLine(goods.old, jars=2))
    station.choose("back")
    rig.type(goods.old)
    rig.type("")
    assert station.fields.party.text() == "Farm gate"
    rig.type("")
    rig.keys("Right", "Right", "Right")
    assert rig.focused() == "Reason: other"
    rig.type("")
    assert rig.focused() == "In a word or two"
    rig.type("rusty lids")
    rig.keys("Right")
    rig.type("")
    assert rig.toast().lead == f"2 jars, 1.0 kg of {goods.old} came back and were thrown away."


def test_throwing_away_says_what_follows_and_the_last_enter_stops_before_it(
    station: Station,
) -> None:
    rig, goods = station.rig, station.goods
    station.choose("away")
    rig.scan(goods.aster)
    rig.type("10")
    assert station.follows()[0] == (
        f"10 jars, 2.5 kg of {goods.aster} leave the books as thrown away."
    )
    rig.keys("Right")
    assert rig.focused() == "Reason: spoilt"
    before = goods.entries()
    rig.type("")
    assert (rig.focused(), goods.entries()) == ("Throw away", before)
    rig.type("")
    assert rig.toast().lead == f"10 jars, 2.5 kg of {goods.aster} are thrown away."
    assert station.form.kind == "away"


def test_a_sample_by_scan_and_weight(station: Station) -> None:
    rig, goods = station.rig, station.goods
    station.choose("sample")
    rig.scan(goods.drum)
    rig.scan(goods.other_drum)
    rig.type("500")
    rig.type("shelf 3")
    assert goods.said() == {
        "lots": [goods.drum, goods.other_drum],
        "net_g": 500,
        "kept_at": "shelf 3",
    }


def test_a_case_comes_back_and_another_is_thrown_away_whole(station: Station) -> None:
    rig, goods = station.rig, station.goods
    sent, here = goods.packed(goods.old, 12, copies=2)
    goods.sent("Packer", DispatchLine(sent))
    station.choose("back")
    rig.scan(sent)
    assert rig.focused() == "From, 12 jars"
    assert station.fields.party.text() == "Packer"
    assert not station.fields.count.isVisible()
    rig.type("")
    rig.type("")
    rig.type("")
    assert goods.said() == {"customer": "Packer", "code": sent, "reason": "broken"}
    station.choose("away")
    rig.scan(here)
    assert rig.focused() == "Reason: broken"
    rig.type("")
    rig.type("")
    assert goods.said() == {"code": here, "reason": "broken"}
