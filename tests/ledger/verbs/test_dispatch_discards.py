"""What is thrown away leaves the books as discarded, with a reason."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Discard
from honeyledger.ledger.verbs.floor import Cappings
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, holding, origins, postings, standing, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    house.vessel("Tank 1", fed_by="Line")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    return house


def test_a_drum_whole_or_in_part(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 290_000)
    done = house.do(Discard(drum, "fermented on top", net_g=10_000))
    assert postings(house, done) == {
        (drum, f"drum/{drum}", -10_000),
        (drum, "discarded", 10_000),
    }
    house.do(Discard(drum, "all of it, after all"))
    assert holding(house, drum) == {"discarded": (290_000, 0)}


def test_jars_and_barrels(house: BuiltHouse) -> None:
    house.load("Creek", 300_000, "Tank 1")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank 1")), "J")
    house.do(Bottle(lot, 100))
    house.do(Discard(lot, "dropped", jars=12))
    assert holding(house, lot) == {"discarded": (6_000, 12), "jars": (44_000, 88)}
    house.load("Creek", 50_000, "Line")
    wax = next(code for code in house.do(Cappings("Line", 5_000)).codes if code[0] == "W")
    house.do(Discard(wax, "moths"))
    assert holding(house, wax) == {"discarded": (5_000, 0)}


def test_out_of_a_vessel_it_is_of_all_that_stands_there(house: BuiltHouse) -> None:
    creek = house.load("Creek", 60_000, "Tank 1")
    hill = house.load("Hill", 40_000, "Line")  # runs over before the draw
    done = house.do(Discard(creek, "spilled", net_g=10_000))
    line_fill, fill = done.codes
    assert origins(house, fill) == {creek: 60_000, line_fill: 40_000}
    assert origins(house, line_fill) == {hill: 40_000}
    assert (fill, "discarded", 10_000) in postings(house, done)
    assert standing(house, "Tank 1") == {fill: 90_000}


def test_a_vessels_one_fill_is_thrown_away_whole(house: BuiltHouse) -> None:
    house.load("Creek", 60_000, "Tank 1")
    house.drum("Tank 1", 50_000)
    (fill,) = standing(house, "Tank 1")
    house.do(Discard(fill, "burnt"))
    assert standing(house, "Tank 1") == {fill: 0}
    assert holding(house, fill) == {"discarded": (10_000, 0)}


def test_what_throwing_away_refuses(house: BuiltHouse) -> None:
    creek = house.load("Creek", 60_000, "Tank 1")
    house.load("Hill", 40_000, "Tank 1")
    pull, _ = house.pull("Hill", 100_000)
    assert turned_down(house, Discard(creek, "")) == "Give the reason in a word or two."
    assert turned_down(house, Discard(creek, "burnt")) == (
        f"{creek} stands mixed in Tank 1. Say how many kilograms are thrown away there."
    )
    assert turned_down(house, Discard(creek, "burnt", net_g=100_100)) == (
        f"There are 100.0 kg of {creek} here, not 100.1 kg. Weigh again."
    )
    assert turned_down(house, Discard(pull, "moths", jars=11)) == (
        f"There are 10 supers of {pull} here, not 11. Count again."
    )
    house.do(Discard(pull, "moths"))
    assert turned_down(house, Discard(pull, "moths")) == (
        f"{pull} is no longer in the house: nothing of it is left."
    )
