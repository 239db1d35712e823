"""Days on which a recall could miss somebody: each says who truly has some, and they are told.

What truly happened stands in the scenario; what was scanned comes late, wrong or not at all. After
each the scope and the amounts are reckoned once more by networkx and pandas from the tables.
"""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine, TakeBack
from honeyledger.ledger.verbs.dock import Split
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.packing import Pack, PackLine
from honeyledger.ledger.verbs.recalls import OpenRecall
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.recall_rows import RecallCase
from honeyledger.services.recalls import recall_case
from tests.support.doubt import doubtful_house, minutes_from_now
from tests.support.houses import BuiltHouse
from tests.support.recall_oracle import by_pandas, by_the_program


@pytest.fixture
def house() -> BuiltHouse:
    """Scans come up to an hour late here; three customers."""
    house = doubtful_house()
    for name in ("Baker", "Packer"):
        house.do(Register("customer", {"name": name}))
    return house


def drill(house: BuiltHouse, code: str) -> RecallCase:
    """The case of a code, checked against the independent computation."""
    done = house.do(OpenRecall("drill", (code,), sort="drill"))
    number = next(one for one in done.given if one[0] == "Q")
    case = house.house.ask(lambda view: recall_case(view, house.now_ms, number))
    assert by_the_program(case) == by_pandas(house.store, code)
    assert sum(one.has_g for one in case.consignees) == case.shipped_g
    return case


def has(case: RecallCase) -> set[str]:
    return {one.name for one in case.consignees}


def send(house: BuiltHouse, customer: str, code: str, jars: int | None = None) -> None:
    house.do(Dispatch(customer, (DispatchLine(code, jars=jars),)))


def jar_lot(house: BuiltHouse, feed: str, count: int) -> str:
    lot = house.do(ChangeOver(product="Jar", feed=feed)).given[0]
    house.do(Bottle(lot, count))
    return lot


def test_a_heel_that_was_never_washed_in_a_whole_season(house: BuiltHouse) -> None:
    """Twelve fills on one another: the last drum still has some of the first yard in it."""
    first = house.load("A", 60_000, "Tank")
    house.drum("Tank", 50_000)
    for at in range(12):
        house.wait(24 * 60)
        house.load("BCD"[at % 3], 50_000, "Tank")
        last = house.drum("Tank", 50_000)
    send(house, "Shop", last)

    assert 0 < house.shares(last)["A"] < 1e-6
    assert has(drill(house, first)) == {"Shop"}


def test_a_vessel_that_was_emptied_and_not_washed(house: BuiltHouse) -> None:
    """Nothing stood there by the books, and some clung to the walls."""
    first = house.load("A", 60_000, "Tank")
    house.drum("Tank", 60_000)
    house.wait(24 * 60)
    house.load("B", 60_000, "Tank")
    last = house.drum("Tank", 60_000)
    send(house, "Shop", last)

    assert house.shares(last) == {"A": 0, "B": 1}
    assert has(drill(house, first)) == {"Shop"}


def test_jars_scraped_back_and_filled_again(house: BuiltHouse) -> None:
    """Jars of A go back into a tank of B: who got jars of that has some of A."""
    first = house.load("A", 60_000, "Tank")
    jars = jar_lot(house, "Tank", 100)
    send(house, "Shop", jars, 10)
    house.do(Fill(jars, jars=40, into="Bottling tank"))
    house.wait(24 * 60)
    house.load("B", 60_000, "Bottling tank")
    again = jar_lot(house, "Bottling tank", 100)
    send(house, "Baker", again, 10)

    assert has(drill(house, first)) == {"Shop", "Baker"}


def test_a_return_that_was_sold_again(house: BuiltHouse) -> None:
    """Both are told: the shop had some open for a week, the baker has it now."""
    first = house.load("A", 60_000, "Tank")
    jars = jar_lot(house, "Tank", 100)
    send(house, "Shop", jars, 60)
    house.do(TakeBack("Shop", jars, "too many", jars=40))
    send(house, "Baker", jars, 30)
    house.do(TakeBack("Shop", jars, "the rest", jars=20))

    case = drill(house, first)
    assert {(one.name, one.has_pieces, one.back_g) for one in case.consignees} == {
        ("Shop", 0, 30_000),
        ("Baker", 30, 0),
    }


def test_a_pallet_that_was_split(house: BuiltHouse) -> None:
    """One half goes into this tank, the other a day later into another one."""
    first, tag = house.pull("A", 100_000)
    half = next(one for one in house.do(Split(tag, 5)).given if one[0] == "G")
    house.do(Load(tag, "Tank"))
    one = house.drum("Tank", 40_000)
    house.wait(24 * 60)
    house.do(Load(half, "Bottling tank"))
    other = house.drum("Bottling tank", 40_000)
    send(house, "Shop", one)
    send(house, "Baker", other)

    assert has(drill(house, first)) == {"Shop", "Baker"}


def test_cases_of_one_lot_on_two_shipping_pallets(house: BuiltHouse) -> None:
    """A lot packed and parted: each customer with one of its cases is told, with their jars."""
    first = house.load("A", 60_000, "Tank")
    jars = jar_lot(house, "Tank", 48)
    packed = house.do(Pack((PackLine(jars, 12),), copies=3)).given
    cases = [code for code in packed if code[0] == "C"]
    send(house, "Shop", cases[0])
    send(house, "Baker", cases[1])

    case = drill(house, first)
    assert {(one.name, one.has_pieces) for one in case.consignees} == {("Shop", 12), ("Baker", 12)}
    assert case.here_g == 60_000 - 12_000


def test_a_load_that_was_typed_in_the_evening(house: BuiltHouse) -> None:
    """The drum was filled and sent before anybody typed that A had gone in first."""
    first, tag = house.pull("A", 50_000)
    house.load("B", 50_000, "Tank")
    noon = minutes_from_now(house, 0)
    house.wait(120)
    drum = house.drum("Tank", 60_000)
    send(house, "Shop", drum)
    house.wait(600)
    house.do(Load(tag, "Tank"), at_min=noon)

    assert has(drill(house, first)) == {"Shop"}


def test_a_yard_that_was_misread_and_put_right(house: BuiltHouse) -> None:
    """A was typed and B was meant: both are in reach, and both lead to the shop."""
    pull = house.load("A", 60_000, "Tank")
    drum = house.drum("Tank", 60_000)
    send(house, "Shop", drum)
    house.do(Amend(pull, "misread", yard="B"))

    for yard in ("A", "B"):
        number = house.do(OpenRecall("drill", yard=yard, sort="drill")).given[0]
        case = house.house.ask(lambda view, code=number: recall_case(view, house.now_ms, code))  # type: ignore[misc]
        assert has(case) == {"Shop"}


def test_a_load_that_was_amended_to_another_tank(house: BuiltHouse) -> None:
    """It was scanned into the one and poured into the other: drums of both are called back."""
    pull, tag = house.pull("A", 60_000)
    load = house.do(Load(tag, "Tank")).entries[0].id
    wrong = house.drum("Tank", 50_000)
    house.load("B", 60_000, "Bottling tank")
    right = house.drum("Bottling tank", 50_000)
    send(house, "Shop", wrong)
    send(house, "Baker", right)
    house.do(Amend(reason="wrong tank", load=load, vessel="Bottling tank"))

    assert has(drill(house, pull)) == {"Shop", "Baker"}


def test_a_dispatch_that_was_reversed_and_went_to_another(house: BuiltHouse) -> None:
    """It never went to the shop; it went to the baker, who alone has it."""
    first = house.load("A", 60_000, "Tank")
    drum = house.drum("Tank", 60_000)
    wrong = house.do(Dispatch("Shop", (DispatchLine(drum),))).entries[0].id
    house.do(Reverse(wrong, "other truck"))
    send(house, "Baker", drum)

    case = drill(house, first)
    assert {one.name for one in case.consignees if one.has_g} == {"Baker"}
    assert case.shipped_g == 60_000


def test_a_serial_within_the_margin_of_a_change_over(house: BuiltHouse) -> None:
    """A jar of the margin may be of either fill: a case on either has the whole lot."""
    one, other = house.load("A", 60_000, "Tank"), house.load("B", 60_000, "Bottling tank")
    lot = house.do(ChangeOver(product="Jar", feed="Tank")).given[0]
    house.do(ChangeOver(lot, feed="Bottling tank", jars=60))
    house.do(Bottle(lot, 120))
    send(house, "Shop", lot, 120)

    for pull in (one, other):
        case = drill(house, pull)
        assert {(row.name, row.has_pieces) for row in case.consignees} == {("Shop", 120)}


def test_a_drum_of_more_honey_than_the_books_have(house: BuiltHouse) -> None:
    """Somebody forgot a load: what stood there by the books is in reach of the unknown honey."""
    first = house.load("A", 20_000, "Tank")
    drum = house.do(Fill("Tank", Weight(net_g=60_000))).codes[-1]

    assert drum in {lot.code for lot in drill(house, first).lots}
