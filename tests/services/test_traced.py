"""One jar against its lot: serials bound the fills, and nothing else is left out of any jar."""

import pytest

from honeyledger.domain.codes import Code, make_jar_code, parse_code
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.stated import Part
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.ledger.verbs.amending import Amend
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Narrow
from honeyledger.ledger.verbs.opening import OpeningStock
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.tracing import trace_forward
from tests.support.houses import BuiltHouse, refused


def _bottled(house: BuiltHouse) -> Code:
    """100 jars of Creek's honey from Tank 1; Hill's stands in Tank 2."""
    for name, tank in (("Creek", "Tank 1"), ("Hill", "Tank 2")):
        house.yard(name)
        house.load(name, 300_000, house.vessel(tank))
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    code = house.do(ChangeOver(product="Clover", feed="Tank 1")).given[0]
    house.do(Bottle(code, 100))
    lot = parse_code(code)
    assert isinstance(lot, Code)
    return lot


def _names(house: BuiltHouse, code: str) -> dict[str, Ancestor]:
    return {row.name: row for row in house.back(code).ancestors}


def test_what_is_added_to_a_jar_lot_later_is_in_every_jar() -> None:
    house = BuiltHouse()
    lot = _bottled(house)
    house.do(Amend(str(lot), "the other tank was open", source="Tank 2"))
    jar = str(make_jar_code(lot, 50))
    assert set(_names(house, jar)) == set(_names(house, str(lot))) == {"Creek", "Hill"}
    hill = _names(house, jar)["Hill"]
    assert (hill.share, hill.how) == (0.0, ("amended",))
    assert _names(house, jar)["Creek"].how == ("grams",)


def test_what_is_narrowed_is_in_no_jar() -> None:
    house = BuiltHouse()
    lot = _bottled(house)
    amended = house.do(Amend(str(lot), "the other tank was open", source="Tank 2")).entries[0]
    for origin in amended.origins:
        house.do(Narrow(str(lot), "valve was sealed", entry=amended.id, line=origin.line))
    assert set(_names(house, str(make_jar_code(lot, 50)))) == {"Creek"}


def test_the_jar_margin_is_its_own_and_not_the_reach_margin() -> None:
    house = BuiltHouse(margin_min=0)
    for name, tank in (("Creek", "Tank 1"), ("Hill", "Tank 2")):
        house.yard(name)
        house.load(name, 300_000, house.vessel(tank))
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    code = house.do(ChangeOver(product="Clover", feed="Tank 1")).given[0]
    house.do(ChangeOver(code, feed="Tank 2", jars=100))
    house.do(Bottle(code, 200, rejects=3))
    lot = parse_code(code)
    assert isinstance(lot, Code)
    inside = _names(house, str(make_jar_code(lot, 127)))
    assert {name: row.share for name, row in inside.items()} == {"Creek": 0.5, "Hill": 0.5}
    assert inside["Creek"].how == ("margin",)
    beyond = _names(house, str(make_jar_code(lot, 128)))
    # Outside the margin Creek only clings in the filler.
    assert {name: row.share for name, row in beyond.items()} == {"Creek": 0.0, "Hill": 1.0}
    assert (beyond["Creek"].how, beyond["Hill"].how) == (("heel",), ("grams",))


def test_a_place_amended_away_says_no_grams() -> None:
    house = BuiltHouse()
    for name in ("Creek", "Hill"):
        house.yard(name)
    pull = house.load("Creek", 300_000, house.vessel("Tank 1"))
    drum = house.drum("Tank 1", 100_000)
    house.do(Amend(pull, "misread", yard="Hill"))
    rows = _names(house, drum)
    assert (rows["Creek"].how, rows["Creek"].grams) == (("amended",), 0)
    assert rows["Hill"].how == ("grams", "amended")


def test_a_yard_and_a_supplier_of_one_name_are_told_apart() -> None:
    house = BuiltHouse()
    yard = house.yard("Ridge")
    house.load(yard, 300_000, house.vessel("Tank 1"))
    house.do(Register("supplier", {"name": "Ridge"}))
    bought = house.buy("ridge", 290_000)
    assert [row.lot for row in house.forward("ridge").on_hand] == [bought]
    assert bought not in [row.lot for row in house.forward(yard).on_hand]
    assert refused(lambda: house.forward("Ridge")) == (
        f"A yard and a supplier are both called Ridge: give {yard} for the yard, ridge for the "
        "supplier."
    )


def test_two_yards_of_one_number_are_asked_about_and_not_unknown() -> None:
    house = BuiltHouse()
    codes = [house.yard(name, number="7") for name in ("Ridge", "Creek")]
    assert refused(lambda: house.forward("7")) == (
        f"More than one yard is called 7: give the code instead, {codes[0]} or {codes[1]}."
    )


@pytest.mark.parametrize(("first", "found"), [("2026-07-01", True), ("2026-09-01", False)])
def test_a_purchases_day_is_the_day_it_came(first: str, found: bool) -> None:
    house = BuiltHouse()
    house.do(Register("supplier", {"name": "Ridge"}))
    house.buy("ridge", 290_000)
    trace = house.house.ask(lambda view: trace_forward(view, "ridge", first))
    assert bool(trace.on_hand) is found


def test_honey_from_before_the_ledger_is_of_any_day_of_its_season() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    weight = Weight(net_g=290_000)
    drum = house.do(OpeningStock(weight, 2025, (Part("Creek"),))).codes[-1]

    def reached(first: str, last: str) -> list[str]:
        trace = house.house.ask(lambda view: trace_forward(view, "Creek", first, last))
        return [row.lot for row in trace.on_hand]

    assert reached("2025-07-01", "2025-07-09") == [drum]
    assert reached("2026-07-01", "") == []
