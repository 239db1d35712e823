"""Checks: what was found right, what was found off and since when."""

import pytest

from honeyledger.ledger.verbs.checks import Check, last_good
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import turned_down
from tests.support.houses import MINUTE_MS, START_MS, BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    """A drum scale and a tank."""
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.do(Register("equipment", {"name": "Drum scale"}))
    return house


def test_equipment_found_off_says_since_when(house: BuiltHouse) -> None:
    first = house.do(Check("Drum scale", "20 kg", "off", "20.4 kg"))
    assert first.notes == (
        "Drum scale is off on 20 kg, and was never checked before: all done with it is in doubt.",
    )
    house.do(Check("Drum scale", "20 kg", value="20.0 kg"))
    assert house.do(Check("drum scale", "20 KG", "off")).notes == (
        "Drum scale is off on 20 KG. It was last found right on 24 Jul 2026: what was done with "
        "it since is in doubt.",
    )
    house.do(Check("Tank 1", "clean"))


def test_since_when_may_be_said_by_who_knows_it(house: BuiltHouse) -> None:
    since_ms = START_MS + 10 * MINUTE_MS
    done = house.do(Check("Drum scale", "zero", "off", since_ms=since_ms), at_min=60)
    assert done.notes == (
        "Drum scale is off on zero, by what was said since 24 Jul 2026 08:50: what was done with "
        "it since is in doubt.",
    )
    later = START_MS + 90 * MINUTE_MS
    assert turned_down(house, Check("Drum scale", "zero", "off", since_ms=later), at_min=60) == (
        "It was found off on 24 Jul 2026 09:40, so it cannot have been off only since 24 Jul 2026 "
        "10:10. Correct the time."
    )


def test_a_check_of_the_house_s_list_may_be_of_no_equipment(house: BuiltHouse) -> None:
    done = house.do(Check("", "Pests", listed="pests", note="two traps"))
    assert done.notes == ()

    def good(listed: str, before_min: int) -> bool:
        ms = START_MS + before_min * MINUTE_MS
        return house.house.ask(
            lambda view: last_good(view, "check/pests", "Mice", listed, ms) is not None
        )

    assert good("pests", 600)
    assert not good("glass", 600)
    assert not good("pests", -600)
    assert house.do(Check("", "Pests", "off", listed="pests")).notes == (
        "Pests is off on Pests. It was last found right on 24 Jul 2026: what was done with it "
        "since is in doubt.",
    )


def test_what_it_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, Check("Drum scale", "")) == (
        "Say what was checked, such as zero, 20 kg, or mesh."
    )
    assert turned_down(house, Check("Drum scale", "zero", "good")) == (
        "good is no result of a check: say ok or off."
    )
    assert turned_down(house, Check("", "zero")).startswith("Name the ")
