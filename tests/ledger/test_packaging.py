"""Packaging: found by its lots, used up by the piece."""

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from tests.support.books import code_in, holding
from tests.support.houses import BuiltHouse


def test_pieces_are_counted_down_and_never_below_none() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.load("Creek", 200_000, "Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("supplier", {"name": "Glassworks"}))
    glass = house.do(Supply("Glassworks", "packaging", "jars", count=150)).codes[0]
    for left in (50, 0):
        code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
        house.do(Bottle(code, 100, packaging=(glass, glass)))
        assert holding(house, glass).get("store", (0, 0)) == (0, left)
