"""What is in cases and on pallets, read from either side."""

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.packs import Content, contents_of, jars_in, left_with, outer_of, packed_of
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, holding, turned_down
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


def test_a_jars_own_code_is_that_one_jar() -> None:
    """A broken jar is scanned, and not all that were bottled with it are thrown away."""
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    house.load("Creek", 100_000, "Tank")
    lot = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(lot, 60))
    code = parse_code(lot)
    assert isinstance(code, Code)
    jars = [str(make_jar_code(code, serial)) for serial in (7, 8)]
    house.do(Discard(jars[0], "broke"))
    assert holding(house, lot) == {"discarded": (500, 1), "jars": (29_500, 59)}
    house.do(Dispatch("Shop", tuple(DispatchLine(jar) for jar in jars)))
    assert holding(house, lot)["Shop"] == (1_000, 2)
    house.do(TakeBack("Shop", jars[1], "lid not tight"))
    assert holding(house, lot)["Shop"] == (500, 1)
    house.do(Dispatch("Shop", (DispatchLine(jars[1], jars=12),)))  # so many of its lot
    assert holding(house, lot)["Shop"] == (6_500, 13)
    twice = Dispatch("Shop", (DispatchLine(jars[0]), DispatchLine(jars[0])))
    assert turned_down(house, twice) == (
        f"{jars[0]} stands twice on this list. Leave it there once, with its whole amount."
    )
