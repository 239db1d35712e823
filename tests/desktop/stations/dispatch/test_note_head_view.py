"""Whom a note is for: as registered, somebody new on the way, the carriers as they were said."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_the_customer_is_said_as_registered(station: Station) -> None:
    station.rig.type("corner shop")
    assert station.note().customer == "Corner Shop"


def test_somebody_new_is_a_customer_after_one_more_enter(station: Station) -> None:
    rig = station.rig
    rig.type("New Deli")
    assert rig.focused() == "No customer of that name yet: add it"
    rig.type("")
    assert rig.focused() == "Their order"
    assert station.says() == "New Deli is a customer now."
    assert station.goods.said() == {"what": "customer", "record": {"name": "New Deli"}}
    assert not station.fields.stranger.isVisible()
    assert station.view.presenter.customer() == "new-deli"


def test_a_name_that_was_mistyped_is_typed_again(station: Station) -> None:
    rig = station.rig
    before = station.goods.entries()
    rig.type("Corner Shap")
    rig.keys("Right")
    rig.type("")
    assert (rig.focused(), station.goods.entries()) == ("Customer", before)
    rig.type("Corner Shop")
    assert (rig.focused(), station.note().customer) == ("Their order", "Corner Shop")


def test_a_name_nobody_has_is_asked_about_at_the_end_at_the_latest(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.type("New Deli", enter=False)
    rig.keys("Tab")
    rig.scan(goods.drum)
    rig.type("")
    rig.type("")
    assert "There is no customer called New Deli." in station.says()
    assert rig.focused() == "No customer of that name yet: add it"
    station.form.form.take_focus(station.fields.customer)
    rig.type("Packer", enter=False)
    assert not station.fields.stranger.isVisible()


def test_carriers_are_offered_as_they_were_said(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.told(Dispatch("Packer", (DispatchLine(goods.drum),), carrier="Hill Haulage"))
    assert [one.text for one in station.fields.carrier.choices()] == ["Hill Haulage"]
    rig.type("Packer")
    rig.type("")
    rig.type("Hill")
    assert station.note().carrier == "Hill", "a new one may begin like an old one"
