"""The smaller forms of the drum room: what each says, and which codes a scan gives it."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, LineTyped, Reading, with_scan
from honeyledger.desktop.stations.drums.stock_asks import TAKEN, stock_forms
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.verbs.bought_in import SendBack
from honeyledger.ledger.verbs.opening import FoundDrum, OpeningStock
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.stocktake import Stocktake
from honeyledger.ledger.verbs.warming import Warm
from tests.desktop.stations.drums.pages import PAGE

FORMS = {spec.key: spec for spec in stock_forms()}
READING = Reading("kg", date(2026, 7, 24), PAGE)


def _facts(kind: str, *lines: LineTyped, **values: str) -> list[object]:
    return list(FORMS[kind].facts(FormTyped(values, lines), READING))


def test_each_form_takes_scans_and_says_whose() -> None:
    assert set(TAKEN) == set(FORMS)
    for spec in FORMS.values():
        typed = with_scan(spec, spec.begins(), "D26-0001-C")
        assert spec.is_begun(typed)


def test_a_walk_names_what_was_scanned_and_a_new_room_comes_first() -> None:
    (walk,) = _facts("walk", room="Drum room", row="B3", scanned="A, B, A", unlabelled="290;")
    found = (FoundDrum(Weight(net_g=290_000)),)
    assert walk == Stocktake("Drum room", "B3", ("A", "B"), found)
    room, walk = _facts("walk", room="Shed", stranger="add", scanned="A")
    assert room == Register("room", {"name": "Shed"})
    assert walk == Stocktake("Shed", "", ("A",))


def test_drums_nobody_wrote_down() -> None:
    (found,) = _facts("found", net="290", written="7", filled_on="12 Jul 2026", room="Drum room")
    assert found == FoundDrum(Weight(net_g=290_000), "", "7", "2026-07-12", "Drum room")
    lines = LineTyped("Y26-0001-P", {"share": "60"}), LineTyped("Y26-0002-M")
    (before,) = _facts("opening", *lines, season="2025", gross="310", tare="18", colour="44")
    parts = Part("Y26-0001-P", 600), Part("Y26-0002-M")
    assert before == OpeningStock(Weight(None, 310_000, 18_000), 2025, parts, colour=440)


def test_heat_and_what_goes_back() -> None:
    assert _facts("warm", what="D26-0001-C", temperature="45,5", hours="2", minutes="5") == [
        Warm("D26-0001-C", 455, 125)
    ]
    assert _facts("back", lots="P26-0001-T; P26-0002-R", reason="wet") == [
        SendBack(("P26-0001-T", "P26-0002-R"), "wet")
    ]


@pytest.mark.parametrize(
    ("kind", "values", "field"),
    [
        ("walk", {"unlabelled": "many"}, "found"),
        ("warm", {"temperature": "hot"}, "temperature"),
        ("warm", {"temperature": "45", "hours": "x"}, "hours"),
        ("opening", {"season": "last"}, "season"),
        ("found", {"net": "full"}, "net_g"),
    ],
)
def test_what_cannot_be_read_is_about_its_field(
    kind: str, values: dict[str, str], field: str
) -> None:
    with pytest.raises(Refusal) as refused:
        _facts(kind, **values)
    assert refused.value.field == field
