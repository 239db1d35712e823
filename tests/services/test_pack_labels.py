"""What a case's or pallet's label says, and what its symbol holds."""

from datetime import date

import pytest
from biip import parse

from honeyledger.domain.codes import next_code, parse_code
from honeyledger.domain.gs1 import bracketed, element_string, parse_gtin
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.packing import Pack, PackLine, Unpack
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.best_before import best_before
from honeyledger.services.labelling import label_rows
from honeyledger.services.pack_labels import PackLabel, best_before_day, pack_elements
from tests.ledger.test_units import number_house
from tests.support.books import code_in
from tests.support.houses import BuiltHouse, refused

GTIN = "9521234543213"


@pytest.fixture
def house() -> BuiltHouse:
    built = BuiltHouse()
    number_house(built)
    built.yard("Creek")
    built.vessel("Tank")
    built.do(Register("customer", {"name": "Shop"}))
    built.load("Creek", 100_000, "Tank")
    return built


def _bottled(house: BuiltHouse, name: str = "Clover", **record: str | int) -> str:
    house.do(Register("product", {"name": name, "net_g": 500, **record}))
    jars = code_in(house.do(ChangeOver(product=name, feed="Tank")), "J")
    house.do(Bottle(jars, 60))
    return jars


def _label(house: BuiltHouse, code: str) -> PackLabel:
    (row,) = house.house.ask(lambda view: list(label_rows(view, code)))
    assert isinstance(row, PackLabel)
    return row


def test_a_cases_symbol_holds_its_number_and_content_as_others_parse_it(house: BuiltHouse) -> None:
    jars = _bottled(house, gtin=GTIN, keeps_months=24)
    (case,) = house.do(Pack((PackLine(jars, 12),))).given
    label = _label(house, case)
    assert (label.code, label.is_case, label.cases, label.net_g) == (case, True, 0, 6_000)
    (packed,) = label.contents
    assert (packed.product, packed.lot, packed.pieces, packed.net_g) == ("Clover", jars, 12, 500)
    assert packed.best_before == date(2028, 12, 31)
    message = parse("]d2" + element_string(label.elements)).gs1_message
    assert message is not None
    assert message.as_hri() == bracketed(label.elements)
    sscc = message.element_strings.get(ai="00")
    assert sscc is not None
    assert sscc.sscc is not None
    assert sscc.sscc.value == label.sscc
    assert {one.ai.ai: one.value for one in message.element_strings} == {
        "00": label.sscc,
        "02": parse_gtin(GTIN),
        "15": "281231",
        "37": "12",
        "10": jars,
    }
    # Read back by the program itself, it is the case.
    assert str(parse_code(label.code)) == case


def test_a_pallet_of_one_lot_says_so_and_one_of_several_has_its_number_alone(
    house: BuiltHouse,
) -> None:
    one = _bottled(house, gtin=GTIN)
    other = _bottled(house, "Heather")
    cases = house.do(Pack((PackLine(one, 12),), copies=2)).given
    (pallet,) = house.do(Pack(tuple(PackLine(case) for case in cases))).given
    label = _label(house, pallet)
    assert (label.is_case, label.cases, label.net_g) == (False, 2, 12_000)
    assert label.elements == {"00": label.sscc, "02": f"0{GTIN}", "37": "24", "10": one}
    (mixed,) = house.do(Pack((PackLine(one, 6), PackLine(other, 6)))).given
    label = _label(house, mixed)
    assert [row.product for row in label.contents] == ["Clover", "Heather"]
    assert label.elements == {"00": label.sscc}


def test_one_that_left_is_labelled_as_it_left_and_an_empty_one_not_at_all(
    house: BuiltHouse,
) -> None:
    jars = _bottled(house)
    gone, spare = house.do(Pack((PackLine(jars, 12),), copies=2)).given
    before = _label(house, gone)
    house.do(Dispatch("Shop", (DispatchLine(gone),)))
    assert _label(house, gone) == before
    house.do(Unpack(spare, "broken"))
    assert refused(lambda: _label(house, spare)) == (
        f"{spare} is empty now, so there is nothing to print on its label. Name a case or pallet "
        "that is packed."
    )
    never = str(next_code("C", 26, 98))
    assert refused(lambda: _label(house, never)).startswith(f"{never} is not a code of this house")


def test_without_a_company_prefix_there_is_no_number_and_no_symbol(house: BuiltHouse) -> None:
    number_house(house, "")
    (case,) = house.do(Pack((PackLine(_bottled(house, gtin=GTIN), 12),))).given
    label = _label(house, case)
    assert (label.sscc, label.elements) == ("", {})
    assert pack_elements("", GTIN, list(label.contents)) == {}


@pytest.mark.parametrize("months", [1, 3, 4, 12, 18, 19, 36])
@pytest.mark.parametrize("bottled", [date(2026, 11, 30), date(2027, 12, 31), date(2026, 2, 1)])
def test_the_day_in_the_symbol_ends_the_line_on_the_jar(bottled: date, months: int) -> None:
    day = best_before_day(bottled, months)
    line = best_before(bottled, months)
    shown = {
        f"Best before {day.day} {day:%b} {day.year}",
        f"Best before end {day:%b} {day.year}",
        f"Best before end {day.year}",
    }
    assert line in shown
    if f"{day:%b}" not in line:
        assert (day.month, day.day) == (12, 31)


def test_a_line_in_the_house_s_own_words_gives_no_date(house: BuiltHouse) -> None:
    jars = _bottled(house, keeps_months=24, best_before="Best before: see lid")
    (case,) = house.do(Pack((PackLine(jars, 12),))).given
    assert _label(house, case).contents[0].best_before is None
