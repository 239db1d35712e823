"""The fields of a note: what is in hand, what Enter does, where a refusal puts the keyboard."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.domain.refusals import Refusal, Sentence
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig

SAID = Sentence("said", "Said so.")
CLOVER = "product/clover-500-g"


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_a_part_of_a_product_s_name_is_enough_where_it_is_the_only_one(station: Station) -> None:
    rig = station.rig
    station.form.form.take_focus(station.fields.goes)
    station.fields.goes.set_text("aster")
    rig.type("")
    assert station.form.note.wanted == "product/aster-250-g"
    rig.type("0")
    assert station.says() == (
        "Not recorded. Nothing of Aster 250 g is no order: type how many are wanted, at least 1."
    )
    assert rig.focused() == "Jars wanted"
    rig.type("12")
    assert station.note().wanted[0].count == 12
    station.fields.goes.set_text("g")
    rig.type("")
    assert station.form.note.wanted == "", "two products have it"


@pytest.mark.parametrize(
    ("field", "name"), [("customer", "Customer"), ("code", "Goes"), ("jars", "Jars")]
)
def test_a_refusal_marks_its_field(station: Station, field: str, name: str) -> None:
    station.fields.goes.set_text("?")
    assert station.form.note.show_refusal(Refusal(SAID, field=field))
    assert station.rig.focused().startswith(name)
    station.rig.keys("Ctrl+N")
    assert not station.fields.customer.box.refused, "another note begins clean"


def test_a_refusal_of_no_field_moves_nothing(station: Station) -> None:
    before = station.rig.focused()
    assert not station.form.note.show_refusal(Refusal(SAID, field="operator"))
    assert not station.form.note.show_refusal(Refusal(SAID, field="net_g")), "it is not shown"
    assert station.rig.focused() == before


def test_what_is_still_to_pick_is_no_longer_asked_once_it_is_picked(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.type("Packer")
    station.form.note.take_wanted(CLOVER)
    rig.type("150")
    rig.scan(goods.old)
    rig.type("")
    station.form.record.click()
    rig.settle()
    assert station.fields.rest.isVisible()
    assert station.view.presenter.keeps_rest is None
    rig.keys("Right")
    rig.type("")
    assert station.view.presenter.keeps_rest is False
    assert rig.focused().startswith("Sign and send")
    rig.scan(goods.new)
    assert station.fields.jars.text() == "50"
    assert not station.fields.rest.isVisible()


def test_a_number_that_is_wanting_is_asked_of_its_own_lot(station: Station) -> None:
    rig, goods = station.rig, station.goods
    rig.type("Packer")
    rig.scan(goods.old)
    rig.scan(goods.drum)
    assert station.form.note.hand == ""
    station.form.record.click()
    rig.settle()
    assert station.form.note.hand == goods.old
    assert rig.focused() == "Jars, of 100"
    assert station.fields.jars.box.refused
    rig.type("101")
    station.form.record.click()
    rig.settle()
    assert station.says().startswith("Not recorded. There are 100 jars of")
    assert (station.form.note.hand, rig.focused()) == (goods.old, "Jars, of 100")
    rig.type("100")
    rig.type("")
    rig.type("")
    assert len(station.notes()) == 1


def test_what_is_said_of_a_load_is_asked_once_drums_go_or_any_of_it_is_said(
    station: Station,
) -> None:
    fields = station.fields
    more = (fields.freight_container, fields.consignor, fields.owner)
    assert not any(field.isVisible() for field in more)
    station.rig.scan(station.goods.new)
    assert not any(field.isVisible() for field in more), "jars go in a van"
    station.rig.scan(station.goods.drum)
    assert all(field.isVisible() for field in more)
    station.rig.keys("Ctrl+Backspace")
    assert not any(field.isVisible() for field in more)
    station.form.form.take_focus(fields.contract)
    station.rig.type("C 9", enter=False)
    assert all(field.isVisible() for field in more)
