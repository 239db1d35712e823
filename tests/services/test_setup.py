"""What a new house begins with."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.setup import (
    BOXES,
    FIRST_ENTRIES,
    mass_unit,
    new_house,
    wants_setting_up,
)
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


def test_a_new_house_goes_on_being_set_up_until_it_works() -> None:
    house = BuiltHouse()
    assert house.house.ask(wants_setting_up)
    house.yard("Mill Lane")
    assert house.house.ask(wants_setting_up)
    house.vessel("Tank 1")
    assert not house.house.ask(wants_setting_up)


def test_a_house_that_has_worked_is_not_set_up_anew() -> None:
    house = BuiltHouse()
    for number in range(FIRST_ENTRIES):
        house.do(Register("box", {"name": f"box {number}", "honey_g": 1_000}))
    assert not house.house.ask(wants_setting_up)


def test_a_house_may_say_more_from_the_start() -> None:
    facts = new_house("Hill House", "UTC", more={"margin_ms": 0})
    assert facts[0].record["margin_ms"] == 0
