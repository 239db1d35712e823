"""A barrel's pulls by grams, and what clings to it at 0 g."""

from honeyledger.ledger.verbs.floor import Cappings
from tests.support.books import late, origins
from tests.support.houses import BuiltHouse


def _house() -> BuiltHouse:
    house = BuiltHouse(60)
    for yard in "ABC":
        house.yard(yard)
    house.vessel("Line")
    house.vessel("Tank")
    house.wait(24 * 60)
    return house


def _barrel(house: BuiltHouse) -> str:
    return house.do(Cappings("Line", 10_000)).codes[0]


def test_what_holds_no_other_pulls_adds_nothing() -> None:
    """The line's fill is of this barrel's pulls alone, so they say it all."""
    house = _house()
    first, second = house.load("A", 100_000, "Line"), house.load("B", 100_000, "Line")
    house.drum("Line", 50_000)
    assert set(origins(house, _barrel(house))) == {first, second}


def test_the_lines_fill_clings_at_0_g() -> None:
    house = _house()
    house.load("A", 100_000, "Line")
    house.wait(120)
    _barrel(house)
    house.wait(120)
    pull = house.load("B", 100_000, "Line")
    assert origins(house, _barrel(house)) == {pull: 10_000, "T26-0001-0": 0}


def test_what_was_washed_out_since_the_last_barrel_clings_too() -> None:
    house = _house()
    house.load("A", 100_000, "Line")
    house.wait(120)
    _barrel(house)
    house.wait(120)
    house.wash("Line")
    house.wait(120)
    house.load("B", 100_000, "Line")
    barrel = _barrel(house)
    assert {row.name for row in house.back(barrel).ancestors} == {"A", "B"}
    assert late(house, barrel) == {"T26-0001-0"}


def test_a_barrel_washed_apart_from_the_one_before_is_free_of_it() -> None:
    house = _house()
    house.load("A", 100_000, "Line")
    house.wait(120)
    house.wash("Line")
    house.wait(120)
    _barrel(house)
    house.wait(120)
    pull = house.load("B", 100_000, "Line")
    assert set(origins(house, _barrel(house))) == {pull}


def test_honey_poured_in_was_not_uncapped() -> None:
    house = _house()
    house.load("C", 100_000, "Tank")
    pull = house.load("A", 100_000, "Line")
    house.pour(house.drum("Tank", 50_000), "Line")
    assert set(origins(house, _barrel(house))) == {pull}
