"""Numbers of cases and pallets: given once, whatever is reversed, and found by a scan."""

import pytest

from honeyledger.domain.gs1 import make_sscc
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.lookup import read_code
from honeyledger.ledger.units import unit_number
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.registers import Register
from tests.support.books import code_in, turned_down
from tests.support.houses import BuiltHouse

PREFIX = "9521234"


def number_house(house: BuiltHouse, prefix: str = PREFIX) -> None:
    """Put the company prefix on the house's record."""
    mark = house.house.ask(lambda view: view.mark("house", "record"))
    assert mark is not None
    assert isinstance(mark.value, dict)
    house.do(Register("house", {**mark.value, "gs1_prefix": prefix}))


@pytest.fixture
def house() -> BuiltHouse:
    """With 60 jars that can be packed."""
    built = BuiltHouse()
    built.yard("Creek")
    built.vessel("Tank")
    built.do(Register("product", {"name": "Clover", "net_g": 500, "gtin": "9521234543213"}))
    built.load("Creek", 100_000, "Tank")
    return built


def bottled(house: BuiltHouse) -> str:
    jars = code_in(house.do(ChangeOver(product="Clover", feed="Tank")), "J")
    house.do(Bottle(jars, 60))
    return jars


def _number(house: BuiltHouse, code: str) -> str:
    return house.house.ask(lambda view: unit_number(view, code))


def _read(house: BuiltHouse, text: str) -> str:
    return str(house.house.ask(lambda view: read_code(view, text, "code")))


def test_packs_are_numbered_one_by_one_cases_and_pallets_alike(house: BuiltHouse) -> None:
    jars = bottled(house)
    (before,) = house.do(Pack((PackLine(jars, 6),))).given
    assert _number(house, before) == ""
    number_house(house)
    cases = house.do(Pack((PackLine(jars, 6),), copies=2)).given
    assert [code[0] for code in cases] == ["C", "C"], "nothing else is told as a code"
    (pallet,) = house.do(Pack(tuple(PackLine(case) for case in cases))).given
    numbers = [_number(house, code) for code in (*cases, pallet)]
    assert numbers == [make_sscc(PREFIX, number) for number in (1, 2, 3)]


def test_no_number_is_given_twice_whatever_is_reversed_unpacked_or_typed_late(
    house: BuiltHouse,
) -> None:
    jars = bottled(house)
    number_house(house)
    first = house.do(Pack((PackLine(jars, 6),)))
    gone = _number(house, first.given[0])
    house.do(Reverse(first.entries[0].id, "counted wrong"))
    (second,) = house.do(Pack((PackLine(jars, 6),))).given
    house.do(Unpack(second, "broken"))
    (third,) = house.do(Pack((PackLine(jars, 6),))).given
    seen = [gone, _number(house, second), _number(house, third)]
    assert seen == [make_sscc(PREFIX, number) for number in (1, 2, 3)]
    number_house(house, "95212345")
    (fourth,) = house.do(Pack((PackLine(jars, 6),))).given
    assert _number(house, fourth) == make_sscc("95212345", 4)
    assert _read(house, _number(house, second)) == second, (
        "the old prefix's numbers are still read"
    )
    assert all(finding.holds for finding in house.store.audit())


def test_a_number_scanned_is_the_packs_code(house: BuiltHouse) -> None:
    jars = bottled(house)
    number_house(house)
    (case,) = house.do(Pack((PackLine(jars, 6),))).given
    number = _number(house, case)
    for text in (f"]C100{number}", f"]d200{number}\x1d02095212345432133712\x1d10{jars}", number):
        assert _read(house, text) == case
    assert _read(house, f"]d20209521234543213376\x1d10{jars}") == jars


def test_what_leads_to_no_pack_is_refused_with_what_to_do(house: BuiltHouse) -> None:
    jars = bottled(house)
    said = []
    for text in ("]C100106141411234567897", "]E09521234543213", "9521234543213"):
        with pytest.raises(Refusal) as refused:
            _read(house, text)
        said.append(refused.value.text)
    retail = (
        "9521234543213 is the retail code of Clover, the same on all its jars: scan the code of "
        "the jar or its case, or type the lot's code."
    )
    assert said == [
        "106141411234567897 is the number (SSCC) of no case or pallet of this house: scan the "
        "code of what is on it, or enter it as the supplier's own lot code.",
        retail,
        retail,
    ]
    # A supplier's pallet with a lot of ours on it leads to that lot.
    assert _read(house, f"]d200106141411234567897\x1d10{jars}") == jars
    with pytest.raises(Refusal) as refused:
        _read(house, "6141410000360"[:12])
    assert refused.value.key == "not-a-code", "no product of this house has it"


def test_a_prefix_that_is_none_is_refused(house: BuiltHouse) -> None:
    record = {"name": "House", "gs1_prefix": "95"}
    assert turned_down(house, Register("house", record)) == (
        "95 is not a GS1 company prefix: type the 4 to 12 digits of your GS1 certificate."
    )
