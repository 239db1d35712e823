"""Jars scraped back into a vessel: their lot goes in again with all its fills behind it."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill, Weight
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import BuiltHouse, refused


@pytest.fixture
def house() -> BuiltHouse:
    """A house with 100 jars of half a kilogram, all from yard A, and an empty tank beside."""
    house = BuiltHouse()
    house.do(Register("customer", {"name": "Shop"}))
    house.do(Register("product", {"name": "Jar", "net_g": 500}))
    tank = house.vessel("Tank 1")
    house.vessel("Tank 2")
    house.load(house.yard("A"), 60_000, tank)
    house.yard("B")
    lot = house.do(ChangeOver(product="Jar", feed="Tank 1")).given[0]
    house.do(Bottle(lot, 100))
    return house


def _jars(house: BuiltHouse) -> dict[str, tuple[int, int]]:
    held = house.forward("A").on_hand
    return {row.place: (row.grams, row.pieces) for row in held if row.lot[0] == "J"}


def test_scraped_jars_are_an_origin_of_the_next_fill(house: BuiltHouse) -> None:
    house.do(Fill("J26-0001-L", jars=40, into="Tank 2"))
    house.load("B", 60_000, "Tank 2")
    drum = house.drum("Tank 2", 80_000)

    assert house.shares(drum) == pytest.approx({"A": 0.25, "B": 0.75}, abs=1e-12)
    assert _jars(house)["jars"] == (30_000, 60)


def test_what_clings_to_the_glass_is_weighing_difference(house: BuiltHouse) -> None:
    house.do(Fill("J26-0001-L", Weight(net_g=19_400), jars=40, into="Tank 2"))

    assert _jars(house) == {"jars": (30_000, 60), "vessel/E26-0002-U": (19_400, 0)}


def test_jars_are_sent_from_the_shelf_not_from_the_vessel(house: BuiltHouse) -> None:
    """More of the lot stands in the tank than on the shelf, but jars are on the shelf only."""
    house.do(Fill("J26-0001-L", jars=90, into="Tank 2"))
    house.do(Dispatch("Shop", (DispatchLine("J26-0001-L", jars=10),)))

    assert [row.jars for row in house.forward("A").customers] == [10]


def test_it_must_be_said_how_many_and_where(house: BuiltHouse) -> None:
    sentence = "Say how many jars of J26-0001-L are scraped back, and into which vessel."
    assert refused(lambda: house.do(Fill("J26-0001-L", into="Tank 2"))) == sentence
    assert refused(lambda: house.do(Fill("J26-0001-L", jars=3))) == sentence


def test_no_more_jars_than_there_are(house: BuiltHouse) -> None:
    too_many = Fill("J26-0001-L", jars=101, into="Tank 2")
    sentence = "There are 100 jars of J26-0001-L here, not 101. Count again."
    assert refused(lambda: house.do(too_many)) == sentence

    house.do(Dispatch("Shop", (DispatchLine("J26-0001-L"),)))
    sentence = "J26-0001-L is no longer in the house: nothing of it is left."
    assert refused(lambda: house.do(too_many)) == sentence
