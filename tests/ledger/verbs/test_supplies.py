"""Ingredients come in by weight, packaging by the piece, each with the supplier's own lot."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Discard
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.stock import lot_balance
from tests.support.books import attributes, holding, standing, turned_down
from tests.support.houses import BuiltHouse

GLASS = "Glass Works"


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.do(Register("supplier", {"name": "Glass Works"}))
    return house


def _sound(house: BuiltHouse) -> None:
    assert [one for one in house.store.audit() if not one.holds] == []


def test_packaging_is_a_lot_of_pieces_and_of_no_grams(house: BuiltHouse) -> None:
    done = house.do(
        Supply("Glass Works", "packaging", "Jars 500 g", count=5_760, supplier_lot="7")
    )
    (jars,) = done.codes
    assert done.entries[0].lots[0].made_g == 0
    assert holding(house, jars) == {GLASS: (0, -5_760), "store": (0, 5_760)}
    assert attributes(house, jars) == {
        "sort": "packaging",
        "name": "Jars 500 g",
        "supplier": "glass-works",
        "supplier_lot": "7",
    }
    balance = house.house.ask(lambda view: lot_balance(view, jars))
    assert (balance.gap_g, balance.made_g) == (0, 0)
    trace = house.back(jars)
    assert (trace.ancestors, trace.honey_g) == ((), 0)
    assert [row.code for row in trace.added] == [jars]
    _sound(house)


def test_an_ingredient_is_weighed_and_cautioned(house: BuiltHouse) -> None:
    done = house.do(
        Supply("Glass Works", "ingredient", "Cinnamon", Weight(gross_g=5_200, tare_g=200))
    )
    assert holding(house, done.codes[0]) == {GLASS: (-5_000, 0), "store": (5_000, 0)}
    assert done.notes == (
        "What is added to honey is named on the label, allergens plainly, and may make it a "
        "product of another name: follow your local code.",
    )
    trace = house.back(done.codes[0])
    assert (trace.ancestors, trace.honey_g, trace.added[0].grams) == ((), 0, 5_000)
    _sound(house)


def test_what_is_past_its_date_is_told(house: BuiltHouse) -> None:
    facts = Supply("Glass Works", "packaging", "Lids", count=10, best_before="2026-06-30")
    assert house.do(facts).notes == ("Lids was good until 30 Jun 2026: use it no more, or ask.",)


def test_a_supplier_traces_forward_to_its_lots(house: BuiltHouse) -> None:
    jars = house.do(Supply("Glass Works", "packaging", "Jars", count=100)).codes[0]
    wrong = house.do(Supply("Glass Works", "packaging", "Lids", count=100))
    house.do(Reverse(wrong.entries[0].id, "another supplier"))
    found = house.forward("Glass Works")
    assert [row.code for row in found.lots] == [jars]
    assert [(row.place, row.pieces) for row in found.on_hand] == [("store", 100)]


def test_supplies_are_thrown_away_and_reversed(house: BuiltHouse) -> None:
    spice = house.do(Supply("Glass Works", "ingredient", "Cinnamon", Weight(net_g=5_000))).codes[0]
    jars = house.do(Supply("Glass Works", "packaging", "Jars", count=100)).codes[0]
    house.do(Discard(spice, "damp", net_g=1_000))
    house.do(Discard(jars, "broken", jars=12))
    assert holding(house, spice)["store"] == (4_000, 0)
    assert holding(house, jars)["store"] == (0, 88)
    assert turned_down(house, Discard(jars, "broken", jars=89)) == (
        f"There are 88 pieces of {jars} here, not 89. Count again."
    )
    house.do(Discard(jars, "broken"))
    assert jars not in standing(house, "store")
    _sound(house)


def test_what_supplying_refuses(house: BuiltHouse) -> None:
    assert turned_down(house, Supply("Glass Works", "seed", "Seed")) == (
        "seed is nothing to take in here: say ingredient or packaging."
    )
    assert turned_down(house, Supply("Glass Works", "packaging", " ", count=1)) == (
        "Say what it is, such as cinnamon, or jars 500 g with their lids."
    )
    for weight, count in ((Weight(), None), (Weight(net_g=500), 12)):
        facts = Supply("Glass Works", "ingredient", "Cinnamon", weight, count)
        assert turned_down(house, facts) == (
            "Weigh the Cinnamon: an ingredient goes by its net weight, not by the piece."
        )
    for weight, count in ((Weight(), None), (Weight(), 0), (Weight(net_g=500), 12)):
        facts = Supply("Glass Works", "packaging", "Jars", weight, count)
        assert turned_down(house, facts) == (
            "Count the Jars: packaging goes by the piece, at least one."
        )
    facts = Supply("Glass Works", "packaging", "Jars", count=5, best_before="June")
    assert turned_down(house, facts) == "June is not a day: write it like 2026-07-24."
