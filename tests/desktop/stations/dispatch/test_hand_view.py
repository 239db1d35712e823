"""The lot in hand: what its fields say of it, and when it is another."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_what_is_typed_over_a_lot_in_hand_is_another_lot(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.scan(goods.old)
    assert station.fields.goes.text() == f"{goods.old} Clover 500 g"
    station.form.form.take_focus(station.fields.goes)
    rig.type("D", enter=False)
    assert (station.form.note.hand, station.fields.jars.text()) == ("", "")


def test_what_is_wanted_can_be_said_anew(station: Station) -> None:
    rig = station.rig
    station.form.note.take_wanted("lots/D")
    rig.type("2")
    assert station.fields.jars.label.text() == "Jars"
    station.form.note.take_wanted("lots/D")
    assert (station.fields.jars.label.text(), station.fields.jars.text()) == ("How many", "2")
    rig.type("3")
    assert [one.count for one in station.note().wanted] == [3]
