"""Two traces that can be checked by hand, with exact fractions; the reach margin is 0.

The first is worked out in the project's own design (three drums through a heel); the second is
a longer one with two runs, a bought-in drum, a blend and two bottlings.
"""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Skim
from honeyledger.ledger.verbs.registers import Register
from tests.support.houses import BuiltHouse


def test_three_drums_through_a_heel() -> None:
    house = BuiltHouse()
    yards = {name: house.yard(name) for name in "ABCE"}
    tank = house.vessel("Tank 1")
    house.load(yards["A"], 40_000, tank)
    house.load(yards["B"], 160_000, tank)
    first = house.drum(tank, 150_000)
    house.load(yards["C"], 100_000, tank)
    second = house.drum(tank, 150_000)
    house.load(yards["E"], 80_000, tank)
    third = house.drum(tank, 80_000)

    assert house.shares(first) == pytest.approx({"A": 0.2, "B": 0.8}, abs=1e-12)
    assert house.shares(second) == pytest.approx({"A": 1 / 15, "B": 4 / 15, "C": 2 / 3}, abs=1e-12)
    assert house.shares(third) == pytest.approx({"A": 0, "B": 0, "C": 0, "E": 1}, abs=1e-12)
    heel = {row.name: row.only_through_heel for row in house.back(third).ancestors}
    assert heel == {"A": True, "B": True, "C": True, "E": False}
    assert [row.how for row in house.back(second).ancestors] == [("grams",), ("heel",), ("heel",)]


def test_the_golden_season() -> None:
    """Yards to jars and back, every share exact to 1e-12, every reach exact."""
    house = BuiltHouse()
    y01, y02, y03 = (house.yard(name) for name in ("Y01", "Y02", "Y03"))
    house.do(Register("supplier", {"name": "S9"}))
    for name in ("C044", "C051"):
        house.do(Register("customer", {"name": name}))
    house.do(Register("product", {"name": "Jar", "net_g": 500}))
    sump, tank5 = house.vessel("Sump"), house.vessel("Tank 5")

    house.load(y01, 400_000, sump)
    house.load(y02, 600_000, sump)
    d101, d102, d103 = (house.drum(sump, 290_000) for _ in range(3))
    house.do(Skim(sump, 118_000))  # cappings and losses of the run: heel 12 kg is left
    house.load(y03, 288_000, sump)
    d104 = house.drum(sump, 290_000)
    bought = house.buy("S9", 145_000)
    for drum in (d102, d104, bought):
        house.pour(drum, tank5)

    lots = []
    for jars in (1000, 400):
        lot = house.do(ChangeOver(product="Jar", feed=tank5)).given[0]
        house.do(Bottle(lot, jars))
        lots.append(lot)
    b117, b118 = lots
    house.do(Dispatch("C044", (DispatchLine(b117, jars=900),)))
    house.do(Dispatch("C051", (DispatchLine(b118),)))

    exactly = {"abs": 1e-12}
    assert house.shares(d103) == pytest.approx({"Y01": 2 / 5, "Y02": 3 / 5}, **exactly)
    assert house.shares(d104) == pytest.approx(
        {"Y01": 2 / 125, "Y02": 3 / 125, "Y03": 24 / 25}, **exactly
    )
    blend = {"S9": 1 / 5, "Y01": 104 / 625, "Y02": 156 / 625, "Y03": 48 / 125}
    assert house.shares(b117) == pytest.approx(blend, **exactly)
    assert house.shares(b118) == pytest.approx(blend, **exactly)
    assert sum(row.grams for row in house.back(b117).ancestors) == 500_000

    forward = house.forward(y01)
    assert [row.name for row in forward.customers] == ["C044", "C051"]
    assert [(row.jars, row.grams) for row in forward.customers] == [(900, 450_000), (400, 200_000)]
    on_hand = {(row.lot, row.grams) for row in forward.on_hand}
    assert (b117, 50_000) in on_hand
    assert (d101, 290_000) in on_hand
    assert (d103, 290_000) in on_hand
    assert {grams for lot, grams in on_hand if lot[0] == "T"} == {10_000, 25_000}
    assert forward.on_hand_g == 50_000 + 2 * 290_000 + 10_000 + 25_000
    y03_only = house.back(d104)
    assert {row.name for row in y03_only.ancestors} == {"Y01", "Y02", "Y03"}
