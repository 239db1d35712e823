"""The smaller forms: what they show, what a lot makes of them, where a refusal goes."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.dispatch.other_typed import OtherTyped
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.verbs.dispatch import DispatchLine
from tests.desktop.dispatch_rig import Station
from tests.desktop.rig import SOON, Rig

SAID = Sentence("said", "Said so.")


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def _shown(station: Station) -> set[str]:
    names = ("lot", "count", "mass", "party", "back_reason", "away_reason", "words", "where")
    return {name for name in (*names, "kept") if getattr(station.fields, name).isVisible()}


def test_each_form_has_its_own_fields(station: Station) -> None:
    shown = {}
    for kind in ("back", "away", "sample"):
        station.choose(kind)
        shown[kind] = _shown(station)
    assert shown == {
        "back": {"lot", "count", "party", "back_reason", "where"},
        "away": {"lot", "count", "away_reason"},
        "sample": {"lot", "mass", "kept"},
    }
    station.choose("send")
    assert _shown(station) == set()


def test_a_drum_goes_by_weight_and_other_reasons_by_words(station: Station) -> None:
    rig, goods = station.rig, station.goods
    station.choose("away")
    rig.scan(goods.drum)
    assert _shown(station) == {"lot", "mass", "away_reason"}
    assert rig.focused() == "Net, blank for all, kg"
    rig.type("12,5")
    rig.keys("Right", "Right", "Right")
    rig.type("")
    assert "words" in _shown(station)
    assert rig.focused() == "In a word or two"
    rig.type("ants got in")
    rig.type("")
    assert goods.said() == {"code": goods.drum, "net_g": 12_500, "reason": "ants got in"}


def test_what_is_typed_for_one_stays_while_another_is_shown(station: Station) -> None:
    rig, goods = station.rig, station.goods
    station.choose("away")
    rig.type(goods.aster)
    rig.type("5", enter=False)
    station.choose("sample")
    rig.type(goods.drum)
    station.choose("away")
    assert (station.fields.lot.text(), station.fields.count.text()) == (goods.aster, "5")
    rig.keys("Ctrl+Backspace")
    assert station.view.others.now() == OtherTyped()
    station.choose("sample")
    assert station.fields.lot.text() == goods.drum


def test_only_those_who_had_it_are_offered(station: Station) -> None:
    rig, goods = station.rig, station.goods
    goods.sent("gate", DispatchLine(goods.old, jars=2))
    goods.sent("Packer", DispatchLine(goods.old, jars=40))
    station.choose("back")
    assert len(station.fields.party.choices()) == 4, "all customers, and the gate"
    rig.scan(goods.old)
    offered = [(one.text, one.note) for one in station.fields.party.choices()]
    assert offered == [("Packer", "40 jars"), ("Farm gate", "2 jars")]
    assert [one.key for one in station.fields.lot.choices()] == [goods.old]


@pytest.mark.parametrize(
    ("field", "name"),
    [("code", "Came back"), ("jars", "Jars"), ("customer", "From"), ("reason", "Reason")],
)
def test_a_refusal_goes_to_its_field(station: Station, field: str, name: str) -> None:
    station.choose("back")
    assert station.form.other.show_refusal(Refusal(SAID, field=field))
    assert station.rig.focused().startswith(name)
    assert not station.form.other.show_refusal(Refusal(SAID, field="operator"))


def test_a_reason_in_words_that_is_missing_is_asked_for_there(station: Station) -> None:
    rig, goods = station.rig, station.goods
    station.choose("away")
    rig.scan(goods.aster)
    rig.type("")
    rig.keys("Right", "Right", "Right")
    rig.type("")
    rig.type("")
    rig.type("")
    assert station.says() == "Not recorded. Give the reason in a word or two."
    assert rig.focused() == "In a word or two"
