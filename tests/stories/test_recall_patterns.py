"""Recalls of kinds that happened, as seasons of our own: what each taught must be in the scope.

The patterns are from public notices of recalled honey; places, people and amounts are invented.
Each scenario says by itself who has what, and counts that by hand.
"""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.bought_in import Purchase
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.recalls import OpenRecall
from honeyledger.ledger.verbs.registers import Register
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.services.recall_rows import RecallCase
from honeyledger.services.recall_starts import called_by_supplier
from honeyledger.services.recalls import recall_case
from honeyledger.services.through import through
from tests.support.houses import MINUTE_MS, BuiltHouse

DAY_MIN = 24 * 60


@pytest.fixture
def house() -> BuiltHouse:
    """Two tanks and a blending tank, three yards, jars of two sizes, two shops."""
    house = BuiltHouse()
    for name in ("Tank 1", "Tank 2", "Blending tank"):
        house.vessel(name)
    for name in ("Creek", "Hill", "Moor"):
        house.yard(name)
    for name in ("Corner shop", "Packer"):
        house.do(Register("customer", {"name": name}))
    house.do(Register("supplier", {"name": "Glassworks"}))
    house.do(Register("supplier", {"name": "Far Trader"}))
    house.do(Register("product", {"name": "Jar", "net_g": 500}))
    house.do(Register("product", {"name": "Large jar", "net_g": 1_000}))
    return house


def jars(house: BuiltHouse, product: str, feed: str, count: int, *packaging: str) -> str:
    """One bottling from start to end: the jar lot's code."""
    lot = house.do(ChangeOver(product=product, feed=feed)).given[0]
    house.do(Bottle(lot, count, packaging=packaging))
    return lot


def send(house: BuiltHouse, customer: str, code: str, count: int | None = None) -> None:
    house.do(Dispatch(customer, (DispatchLine(code, jars=count),)))


def opened(house: BuiltHouse, *lots: str, **stands_on: str) -> RecallCase:
    done = house.do(OpenRecall("something in it", lots, **stands_on))
    code = next(one for one in done.given if one[0] == "Q")
    return scope(house, code)


def scope(house: BuiltHouse, code: str) -> RecallCase:
    return house.house.ask(lambda view: recall_case(view, house.now_ms, code))


def codes(case: RecallCase) -> set[str]:
    return {lot.code for lot in case.lots}


def has(case: RecallCase) -> dict[str, tuple[int, int]]:
    """Grams and jars of everybody who has some."""
    return {one.name: (one.has_g, one.has_pieces) for one in case.consignees}


def lids(house: BuiltHouse, name: str, their_lot: str) -> str:
    facts = Supply("Glassworks", "packaging", name, count=1_000, supplier_lot=their_lot)
    return house.do(facts).codes[0]


# One lot code on two products.


def test_a_supplier_s_lot_on_two_products_names_both(house: BuiltHouse) -> None:
    """Lids and jars came with the same lot number: jars with either go, and no others."""
    large, small = lids(house, "lids 82 mm", "G-417"), lids(house, "jars 500 g", "G-417")
    other = lids(house, "jars 500 g", "G-418")
    house.load("Creek", 400_000, "Tank 1")
    with_lids = jars(house, "Large jar", "Tank 1", 100, large)
    with_jars = jars(house, "Jar", "Tank 1", 100, small)
    free = jars(house, "Jar", "Tank 1", 100, other)
    send(house, "Corner shop", with_lids, 40)
    send(house, "Packer", with_jars, 30)
    send(house, "Packer", free, 30)

    found = house.house.ask(lambda view: called_by_supplier(view, " g-417 "))
    assert set(found) == {large, small}
    case = opened(house, *found)
    assert codes(case) == {large, small, with_lids, with_jars}
    assert has(case) == {"Corner shop": (40_000, 40), "Packer": (15_000, 30)}


def test_one_honey_in_two_sizes_has_two_codes_and_one_cause(house: BuiltHouse) -> None:
    """Each jar lot has a code of its own; the case stands on the drum both were filled from."""
    house.load("Creek", 300_000, "Tank 1")
    drum = house.drum("Tank 1", 300_000)
    small, large = jars(house, "Jar", drum, 200), jars(house, "Large jar", drum, 100)
    send(house, "Corner shop", small, 50)
    send(house, "Packer", large, 60)

    assert small != large
    case = opened(house, drum)
    assert codes(case) == {drum, small, large}
    assert has(case) == {"Corner shop": (25_000, 50), "Packer": (60_000, 60)}
    assert case.accounted == 10_000


# An equipment fault over two days.


def test_a_sieve_that_was_torn_for_two_days(house: BuiltHouse) -> None:
    """All that was in the tank between two times, wherever it went since; before and after not."""
    house.do(Register("equipment", {"name": "Sieve", "sort": "sieve", "at": "Tank 1"}))
    made = []
    for yard in ("Creek", "Hill", "Moor"):
        house.load(yard, 120_000, "Tank 1")
        made.append(house.drum("Tank 1", 100_000))
        house.wash("Tank 1")
        house.wait(DAY_MIN)
        if yard == "Creek":
            torn_ms = house.now_ms
    first, second, third = made
    house.wait(DAY_MIN)
    later = house.load("Creek", 120_000, "Tank 1")
    after = house.drum("Tank 1", 100_000)
    small = jars(house, "Jar", third, 100)
    send(house, "Packer", second)
    send(house, "Corner shop", small, 20)

    used = house.house.ask(lambda view: through(view, "Sieve", torn_ms, torn_ms + 2 * 86_400_000))
    case = opened(house, *used.lots)
    assert {second, third, small} <= codes(case)
    assert not {first, after, later} & codes(case)
    assert has(case) == {"Packer": (100_000, 0), "Corner shop": (10_000, 20)}


def test_a_fault_reaches_by_the_margin_what_was_scanned_late() -> None:
    """Scans of this house come up to an hour late: what left just before the fault is meant."""
    house = BuiltHouse(60)
    house.vessel("Tank 1")
    made = []
    for yard in ("Creek", "Hill"):
        house.yard(yard)
        house.wait(300)
        house.load(yard, 50_000, "Tank 1")
        house.wait(300)
        made.append(house.drum("Tank 1", 50_000))
        house.wash("Tank 1")
    long_before, just_before = made
    house.wait(30)
    now_ms = house.now_ms

    used = house.house.ask(lambda view: through(view, "Tank 1", now_ms, now_ms + MINUTE_MS))
    case = opened(house, *used.lots)
    assert just_before in codes(case)
    assert long_before not in codes(case)


# A bought-in lot through blends.


def test_a_bought_in_lot_goes_with_every_blend_of_a_blend(house: BuiltHouse) -> None:
    """A blend is blended again, and that a third time: its share shrinks, its reach does not."""
    facts = Purchase("Far Trader", Weight(net_g=60_000), "FT 9", "AR", certificate="C 31")
    bought = house.do(facts).codes[0]
    own = []
    for yard in ("Creek", "Hill", "Moor"):
        house.load(yard, 140_000, "Tank 1")
        own.append(house.drum("Tank 1", 140_000))
        house.wash("Tank 1")
    house.pour(bought, "Blending tank")
    house.pour(own[0], "Blending tank")
    once = house.drum("Blending tank", 200_000)
    house.wash("Blending tank")
    blends = [once]
    for drum in own[1:]:
        house.pour(blends[-1], "Blending tank", 20_000)
        house.pour(drum, "Blending tank")
        blends.append(house.drum("Blending tank", 160_000))
        house.wash("Blending tank")
    small = jars(house, "Jar", blends[-1], 300)
    send(house, "Corner shop", small, 12)
    send(house, "Packer", blends[0], None)

    # 60 of 200 kg, an eighth of that, and an eighth again.
    assert house.shares(small)["Far Trader"] == pytest.approx(0.3 / 64, abs=1e-12)
    found = house.house.ask(lambda view: called_by_supplier(view, "FT 9"))
    assert found == (bought,)
    case = opened(house, *found)
    assert {bought, *blends, small} <= codes(case)
    assert not set(own) & codes(case)
    assert has(case) == {"Packer": (180_000, 0), "Corner shop": (6_000, 12)}


# Scope that must not need widening later.


def test_the_first_scope_is_the_last_one(house: BuiltHouse) -> None:
    """Heels, returns and scraped jars are in it at once: what is learned later is in it already.

    Opened a second time when everything has gone on, it has what the first one had and what was
    made since, and nothing that could have been found before.
    """
    pull = house.load("Creek", 100_000, "Tank 1")
    house.drum("Tank 1", 90_000)
    house.load("Hill", 100_000, "Tank 1")  # over the heel of Creek, never washed
    over_heel = house.drum("Tank 1", 100_000)
    small = jars(house, "Jar", over_heel, 100)
    send(house, "Corner shop", small, 60)
    house.do(Fill(small, jars=20, into="Tank 2"))
    house.load("Moor", 90_000, "Tank 2")
    scraped_on = house.drum("Tank 2", 100_000)
    send(house, "Packer", scraped_on)

    first = opened(house, pull)
    assert {pull, over_heel, small, scraped_on} <= codes(first)
    assert set(has(first)) == {"Corner shop", "Packer"}
    standing = opened(house, yard="Creek")
    assert codes(standing) == codes(first)
    assert has(standing) == has(first)
    again = scope(house, first.code)
    assert codes(again) == codes(first)
