"""Ingredients and packaging stand apart from the honey, whose shares still add up to all of it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.trace_rows import AddedLot
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.added import added_in
from tests.support.houses import BuiltHouse


def test_honey_with_two_ingredients() -> None:
    """Of 100 kg 3 are added: the 97 kg of honey are of two yards, 2 to 1."""
    house = BuiltHouse()
    for name in ("Creek", "Hill"):
        house.yard(name)
    for name in ("Tank", "Cream tank"):
        house.vessel(name)
    house.do(Register("supplier", {"name": "Spice Trade"}))
    lots = [
        house.do(Supply("Spice Trade", "ingredient", name, Weight(net_g=9_000))).codes[0]
        for name in ("Cinnamon", "Ginger")
    ]
    house.load("Creek", 200_000, "Tank")
    house.load("Hill", 100_000, "Tank")
    parts = (
        Portion("Tank", Weight(net_g=97_000)),
        Portion(lots[0], Weight(net_g=1_000)),
        Portion(lots[1], Weight(net_g=2_000)),
    )
    house.do(Blend("Cream tank", parts))
    trace = house.back(house.drum("Cream tank", 50_000))
    assert [(row.name, row.grams) for row in trace.ancestors] == [
        ("Creek", 32_333),
        ("Hill", 16_167),
    ]
    assert sum(row.share for row in trace.ancestors) == pytest.approx(1, abs=1e-12)
    assert [row.share for row in trace.ancestors] == pytest.approx([2 / 3, 1 / 3])
    assert trace.added == (
        AddedLot(lots[1], "ingredient", "Ginger", "Spice Trade", "", pytest.approx(0.02), 1_000),
        AddedLot(lots[0], "ingredient", "Cinnamon", "Spice Trade", "", pytest.approx(0.01), 500),
    )
    assert (trace.made_g, trace.honey_g, trace.reach_complete) == (50_000, 48_500, True)


def test_honey_with_nothing_added() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.load("Creek", 200_000, "Tank")
    trace = house.back(house.drum("Tank", 50_000))
    assert (trace.added, trace.honey_g) == ((), 50_000)
    heads = house.house.ask(lambda view: view.lot_heads([trace.lot]))
    assert house.house.ask(lambda view: added_in(view, heads, {trace.lot: 1.0}, 5)) == ()
