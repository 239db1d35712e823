"""What a new house begins with."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup import BOXES, mass_unit, new_house, setup_page
from tests.support.houses import BuiltHouse


def test_a_new_house_can_receive_supers() -> None:
    house = BuiltHouse()
    record, *boxes = new_house("Hill House", "Europe/Berlin", prefix="HB", unit="lb")
    assert house.house.ask(mass_unit) == "kg"
    house.do(record)
    assert house.house.ask(mass_unit) == "lb"
    for box in boxes[1:]:
        house.do(box)
    assert house.house.ask(lambda view: find_record(view, "box", "deep"))[1]["honey_g"] == 25_500
    code = house.yard("Mill Lane")
    assert code.startswith("HB-Y26-")
    assert dict(record.record) == {
        "name": "Hill House",
        "zone": "Europe/Berlin",
        "unit": "lb",
        "prefix": "HB",
    }
    assert [box.record["name"] for box in boxes] == [box["name"] for box in BOXES]


def test_a_zone_that_is_none_is_refused() -> None:
    with pytest.raises(Refusal, match="Mars is not a time zone"):
        new_house("Hill House", "Mars")


def test_a_house_weighs_in_kilograms_unless_it_says_pounds() -> None:
    house = BuiltHouse()
    assert house.house.ask(mass_unit) == "kg"
    house.do(Register("house", {"name": "Test House", "unit": "lb"}))
    assert house.house.ask(mass_unit) == "lb"


def test_all_that_is_registered_is_listed_by_name() -> None:
    house = BuiltHouse()
    house.yard("Willow Bank")
    yard = house.yard("Mill Lane", colonies=30)
    page = house.house.ask(setup_page)
    assert page.house["name"] == "Test House"
    assert [row.name for row in page.registers["yard"]] == ["Mill Lane", "Willow Bank"]
    assert (page.registers["yard"][0].key, page.registers["yard"][0].record["colonies"]) == (
        yard,
        30,
    )
    assert page.registers["customer"] == ()
