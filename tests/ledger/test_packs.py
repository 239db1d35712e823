"""What is in cases and on pallets, read from either side."""

from honeyledger.ledger.packs import Content, contents_of, jars_in, left_with, outer_of, packed_of
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def test_content_is_found_from_the_case_the_pallet_and_the_lot() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    house.load("Creek", 100_000, "Tank")
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(jars, 60))
    done = house.do(Pack((PackLine(jars, 12),), copies=2))
    first, second = [code for code in done.given if code[0] == "C"]
    pallet = code_in(house.do(Pack((PackLine(first), PackLine(second)))), "L")
    ask = house.house.ask
    assert ask(lambda view: contents_of(view, first)) == [Content(jars, 12)]
    assert ask(lambda view: jars_in(view, pallet)) == [Content(jars, 24)]
    assert ask(lambda view: packed_of(view, jars)) == 24
    assert ask(lambda view: outer_of(view, first)) == pallet
    house.do(Dispatch("Shop", (DispatchLine(pallet),)))
    assert ask(lambda view: jars_in(view, pallet)) == []
    assert ask(lambda view: contents_of(view, first)) == []
    assert ask(lambda view: packed_of(view, jars)) == 0
    assert ask(lambda view: left_with(view, pallet)) == [Content(jars, 24)]
    assert ask(lambda view: left_with(view, first)) == []
