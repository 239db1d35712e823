"""Bulk trade in the terminal: samples judged, the buyer's scale, title, empties, the gate."""

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def house(terminal: Terminal) -> Terminal:
    """341 kg in Tank 1, a container."""
    terminal.do("load", terminal.pallet(), "Extractor")
    terminal.do("register", "drum", "add", "Blue 1", "--tare", "17")
    return terminal


def test_a_sample_is_drawn_for_a_customer_and_judged(house: Terminal) -> None:
    drum = house.drum()
    words = ("draw-sample", drum, "--net", "0.25", "--customer", "Corner Shop")
    sample = house.given("X", *words, "--purpose", "before shipment")
    said = house.refused("approve", sample, "--refused")
    assert said == "Give the reason in a word or two."
    house.do("approve", sample, "--refused", "--reason", "too dark", "--reference", "L-8")
    lines = house.do("lot", sample).splitlines()
    assert any("refused by Corner Shop (L-8) (too dark)." in line for line in lines)
    assert "Note: Corner Shop refused sample" in house.do("dispatch", "Corner Shop", drum)


def test_the_buyers_scale(house: Terminal) -> None:
    note = house.given("N", "dispatch", "Corner Shop", house.drum())
    said = house.do(
        "buyers-weight", note, "--gross", "166.8", "--tare", "17", "--reference", "T 1"
    )
    assert (
        f"Note: The buyer's scale says 149.8 kg for {note}: 200 g less than the 150.0 kg of the "
        "books, 0.13 %."
    ) in said.splitlines()
    assert house.refused("buyers-weight", note).startswith("Type the net weight")


def test_title_of_stored_drums(house: Terminal) -> None:
    first, second = house.drum(), house.drum()
    words = ("transfer-title", "Corner Shop", first, second)
    assert house.refused(*words).startswith("Name the document by which title goes over")
    house.do(*words, "--document", "INV 12")
    facts = house.json("lot", second)["facts"]
    assert facts["owner"] == "Corner Shop, since 24 Jul 2026 (INV 12)"
    house.do("transfer-title", "house", first, "--document", "credit 3")
    assert house.json("lot", first)["facts"]["owner"].startswith("Test House, since")


def test_empties_owed_and_back(house: Terminal) -> None:
    assert house.do("owed") == "No container of the house is with a customer.\n"
    drum = house.drum("--container", "Blue 1")
    note = house.given("N", "dispatch", "Corner Shop", drum)
    (row,) = house.json("owed", "Corner Shop")["owed"]
    assert (row["name"], row["customer"], row["lot"], row["note"]) == (
        "Blue 1",
        "Corner Shop",
        drum,
        note,
    )
    assert "Blue 1" in house.do("owed")
    house.do("empties", "Corner Shop", "Blue 1")
    assert house.json("owed")["owed"] == []


def test_the_farm_gate_by_day(house: Terminal) -> None:
    assert house.do("gate-sales") == "Nothing went at the farm gate.\n"
    lot = house.given("J", "change-over", "--product", "Summer 500", "--feed", house.drum())
    house.do("bottle", lot, "200")
    house.do("dispatch", "gate", f"{lot}=12")
    house.do("dispatch", "gate", f"{lot}=8")
    rows = house.json("gate-sales")["sales"]
    assert rows == [
        {"day": "2026-07-24", "code": lot, "name": "Summer 500", "jars": 20, "grams": 10_000}
    ]
    shown = house.do("gate-sales", "--from", "24 Jul", "--to", "24 Jul").splitlines()
    assert shown[1].split() == ["24", "Jul", "2026", lot, "Summer", "500", "20", "10.0", "kg"]
    assert shown[2].split() == ["in", "all", "20", "10.0", "kg"]
    assert house.json("gate-sales", "--from", "25 Jul")["sales"] == []
