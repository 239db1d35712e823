"""Packaging: found by its lots, used up by the piece."""

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.drums import Fill
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


def test_jars_with_something_added_say_what_their_label_has_to_name() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.vessel("Bottling tank")
    house.load("Creek", 200_000, "Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("supplier", {"name": "Spices"}))
    added = [
        house.do(Supply("Spices", "ingredient", name, Weight(net_g=1_000))).codes[0]
        for name in ("hazelnuts", "cinnamon")
    ]
    parts = (
        Portion("Tank", Weight(net_g=50_000)),
        *(Portion(code, Weight(net_g=500)) for code in added),
    )
    house.do(Blend("Bottling tank", parts))
    code = code_in(house.do(ChangeOver(product="Clover", feed="Bottling tank")), "J")
    said = (
        f"{code} has cinnamon, hazelnuts in it: its label names that, allergens plainly, as your "
        "local code says."
    )
    assert house.do(Bottle(code, 20)).notes == (said,)
    plain = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    assert house.do(Bottle(plain, 20)).notes == ()
    # What was scraped back brings it along.
    house.do(Fill(code, into="Tank", jars=2))
    again = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    (note,) = house.do(Bottle(again, 20)).notes
    assert note.startswith(f"{again} has cinnamon, hazelnuts in it")
