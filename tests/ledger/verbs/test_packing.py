"""Cases and shipping pallets: packing mixes nothing, and what is packed goes by its own code."""

import pytest

from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import Discard, Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, holding, postings, turned_down
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.do(Register("product", {"name": "Clover", "net_g": 500}))
    house.do(Register("customer", {"name": "Shop"}))
    return house


def _jars(house: BuiltHouse, count: int = 100) -> str:
    house.load("Creek", 200_000, "Tank")
    code = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(code, count))
    return code


def _cases(house: BuiltHouse, *lines: tuple[str, int], copies: int = 1) -> list[str]:
    done = house.do(Pack(tuple(PackLine(*line) for line in lines), copies))
    assert postings(house, done) == set()
    return [code for code in done.given if code[0] == "C"]


def test_a_case_goes_to_a_customer_by_its_code_and_comes_back(house: BuiltHouse) -> None:
    jars = _jars(house)
    first, second = _cases(house, (jars, 12), copies=2)
    house.do(Dispatch("Shop", (DispatchLine(first), DispatchLine(jars, jars=6))))
    assert holding(house, jars) == {"jars": (41_000, 82), "Shop": (9_000, 18)}
    assert turned_down(house, Dispatch("Shop", (DispatchLine(first),))) == (
        f"{first} is empty: it was unpacked, sent or never packed. Scan another one."
    )
    house.do(TakeBack("Shop", first, "dented"))
    assert holding(house, jars)["jars"] == (47_000, 94)
    house.do(Discard(second, "dropped"))
    assert holding(house, jars)["jars"] == (41_000, 82)
    assert [row.name for row in house.forward("Creek").customers] == ["Shop"]


def test_a_case_of_two_lots_on_a_pallet_goes_with_it(house: BuiltHouse) -> None:
    one, other = _jars(house), _jars(house)
    (mixed,) = _cases(house, (one, 6), (other, 6))
    (plain,) = _cases(house, (other, 12))
    pallet = code_in(house.do(Pack((PackLine(mixed), PackLine(plain)))), "L")
    assert turned_down(house, Dispatch("Shop", (DispatchLine(plain),))) == (
        f"{plain} stands on {pallet}. Unpack {pallet} first, or scan the whole pallet."
    )
    house.do(Dispatch("Shop", (DispatchLine(pallet),)))
    assert holding(house, one)["Shop"] == (3_000, 6)
    assert holding(house, other)["Shop"] == (9_000, 18)


def test_a_held_jar_lot_holds_its_case(house: BuiltHouse) -> None:
    jars = _jars(house)
    (case,) = _cases(house, (jars, 12))
    house.do(PutOnHold(jars, "glass"))
    assert turned_down(house, Dispatch("Shop", (DispatchLine(case),))).startswith(
        f"{jars} is on hold through {jars}: glass."
    )


def test_unpacked_jars_are_loose_again_and_a_pack_can_be_reversed(house: BuiltHouse) -> None:
    jars = _jars(house, 20)
    (case,) = _cases(house, (jars, 12))
    too_many = Pack((PackLine(jars, 9),))
    assert turned_down(house, too_many) == (
        f"9 of {jars} cannot be packed: 8 stand loose here. Count them, or unpack a case."
    )
    house.do(Unpack(case, "one was broken"))
    packed = house.do(too_many)
    house.do(Reverse(packed.entries[0].id, "counted wrong"))
    _cases(house, (jars, 20))


def test_what_they_refuse(house: BuiltHouse) -> None:
    jars = _jars(house)
    case, spare = _cases(house, (jars, 12), copies=2)
    pallet = code_in(house.do(Pack((PackLine(case),))), "L")
    said = [
        turned_down(house, Pack(())),
        turned_down(house, Pack((PackLine(jars),))),
        turned_down(house, Pack((PackLine(jars, 1),), copies=501)),
        turned_down(house, Pack((PackLine(jars, 1), PackLine(spare)))),
        turned_down(house, Pack((PackLine(pallet),))),
        turned_down(house, Pack((PackLine(jars, 1), PackLine(jars, 1)))),
        turned_down(house, Pack((PackLine(case),))),
        turned_down(house, Unpack(case, "x")),
        turned_down(house, Unpack(jars, "x")),
        turned_down(house, Dispatch("Shop", (DispatchLine(spare, jars=3),))),
    ]
    assert said == [
        "Scan what goes in: a jar lot with a count, or cases.",
        f"Say how many of {jars} go into each case.",
        "501 cases cannot be packed at once: type 1 to 500.",
        "Jars go into a case and cases onto a pallet: pack the jars first.",
        "Jars go into a case and cases onto a pallet: pack the jars first.",
        f"{jars} stands twice on this list. Leave it there once, with its whole amount.",
        f"{case} stands on {pallet}. Unpack {pallet} first, or scan the whole pallet.",
        f"{case} stands on {pallet}. Unpack {pallet} first, or scan the whole pallet.",
        f"{jars} is a jar lot, but a case or shipping pallet is needed here. Scan that code "
        "instead.",
        f"{spare} goes as it was packed. Unpack it first, to send a part of it.",
    ]
