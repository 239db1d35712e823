"""Which pulls a barrel of cappings is made of, and what clings to it, however late it is typed."""

import pytest

from honeyledger.ledger.verbs.dock import Join
from honeyledger.ledger.verbs.floor import Cappings, Load
from tests.support.books import late, origins
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    house = BuiltHouse()
    for yard in ("Creek", "Hill", "Moor"):
        house.yard(yard)
    house.vessel("Line")
    return house


def _barrel(house: BuiltHouse, at_min: int) -> str:
    done = house.do(Cappings("Line", 10_000), at_min=at_min)
    return next(code for code in done.codes if code[0] == "W")


def test_a_barrel_typed_late_is_of_the_pulls_between_its_neighbours(house: BuiltHouse) -> None:
    """Barrels of minute 15, 35 and 55; the second is typed last."""
    house.load("Creek", 100_000, "Line", at_min=10)
    first = _barrel(house, 15)
    hill = house.load("Hill", 100_000, "Line", at_min=30)
    moor = house.load("Moor", 100_000, "Line", at_min=50)
    last = _barrel(house, 55)
    between = _barrel(house, 35)
    assert {parent: grams for parent, grams in origins(house, between).items() if grams} == {
        hill: 10_000
    }
    assert moor in late(house, between)
    assert {parent for parent, grams in origins(house, last).items() if grams} == {hill, moor}
    assert hill not in origins(house, first)


def test_a_barrel_typed_before_all_others_takes_the_loads_of_its_time(house: BuiltHouse) -> None:
    creek = house.load("Creek", 100_000, "Line", at_min=10)
    house.load("Hill", 100_000, "Line", at_min=30)
    _barrel(house, 35)
    early = _barrel(house, 20)
    assert {parent for parent, grams in origins(house, early).items() if grams} == {creek}


def test_what_stands_in_the_line_clings_to_the_barrel(house: BuiltHouse) -> None:
    """Creek's fill ran through the uncapper before Hill: it is in the second barrel's reach."""
    house.load("Creek", 100_000, "Line")
    house.drum("Line", 90_000)
    _barrel(house, 60)
    hill = house.load("Hill", 100_000, "Line", at_min=70)
    barrel = _barrel(house, 80)
    assert {parent for parent, grams in origins(house, barrel).items() if grams} == {hill}
    assert house.shares(barrel) == {"Hill": 1.0, "Creek": 0.0}


def test_what_was_washed_out_before_the_last_barrel_clings_to_none_after_it(
    house: BuiltHouse,
) -> None:
    house.load("Creek", 100_000, "Line", at_min=0)
    house.drum("Line", 90_000, at_min=1)
    _barrel(house, 10)
    house.wash("Line", at_min=20)
    between = _barrel(house, 25)  # Creek's cappings of before the wash may be in this one
    house.load("Hill", 100_000, "Line", at_min=30)
    assert house.shares(between) == {"Creek": 1.0}
    assert house.shares(_barrel(house, 40)) == {"Hill": 1.0}


def test_supers_joined_to_a_pallet_after_it_was_scanned_are_in_its_barrel(
    house: BuiltHouse,
) -> None:
    """The pallet was scanned in at 30; that Moor stood on it since 20 is typed at 60."""
    _, tag = house.pull("Hill", 100_000, at_min=1)
    moor, other = house.pull("Moor", 50_000, at_min=2)
    house.do(Load(tag, "Line", count=5), at_min=30)
    barrel = _barrel(house, 40)
    drum = house.drum("Line", 30_000, at_min=45)
    house.do(Join(other, tag), at_min=20)
    assert origins(house, barrel)[moor] == 0
    assert house.shares(drum) == {"Hill": 1.0, "Moor": 0.0}
