"""Cappings go by the barrel, whenever one is full: their origins are the pulls uncapped since."""

import pytest

from honeyledger.ledger.verbs.corrections import Amend
from honeyledger.ledger.verbs.floor import Cappings, Load
from tests.support.books import (
    grams_at,
    holding,
    late,
    origins,
    postings,
    standing,
    turned_down,
)
from tests.support.houses import BuiltHouse


def _house(margin_min: int = 0) -> BuiltHouse:
    """Two yards and a line."""
    house = BuiltHouse(margin_min)
    house.yard("Creek")
    house.yard("Hill")
    house.vessel("Line")
    return house


def _barrel(house: BuiltHouse, grams: int, at_min: int | None = None) -> str:
    done = house.do(Cappings("Line", grams), at_min=at_min)
    return next(code for code in done.codes if code[0] == "W")


def test_a_barrel_is_of_the_pulls_since_the_last_one_pro_rata() -> None:
    house = _house()
    creek = house.load("Creek", 100_000, "Line")
    hill = house.load("Hill", 300_000, "Line")
    first = _barrel(house, 40_000)
    again = house.load("Creek", 50_000, "Line")
    second = _barrel(house, 20_000)
    assert origins(house, first) == {creek: 10_000, hill: 30_000}
    # What clung in the line clings to the second barrel, too: it was not washed between them.
    assert origins(house, second) == {again: 20_000, "T26-0001-0": 0}
    assert house.shares(first) == {"Creek": 0.25, "Hill": 0.75}


def test_its_grams_leave_the_lines_fill() -> None:
    house = _house()
    creek = house.load("Creek", 100_000, "Line")
    hill = house.load("Hill", 300_000, "Line")
    done = house.do(Cappings("Line", 40_000))
    wax, fill = done.codes
    assert origins(house, fill) == {creek: 100_000, hill: 300_000}
    assert standing(house, "Line") == {fill: 360_000}
    assert postings(house, done) == {
        (creek, "Line", -100_000),
        (hill, "Line", -300_000),
        (fill, "Line", 360_000),
        (wax, f"barrel/{wax}", 40_000),
    }


def test_what_is_missing_in_the_line_is_weighing_difference_never_unknown() -> None:
    """A barrel is weighed the day after: its honey has long been booked into drums."""
    house = _house()
    creek = house.load("Creek", 100_000, "Line")
    house.drum("Line", 90_000)
    done = house.do(Cappings("Line", 40_000))
    (wax,) = done.codes
    assert origins(house, wax) == {creek: 40_000}
    assert grams_at(house, "difference") == -30_000
    assert [row.place for row in done.entries[0].postings].count("difference") == 1
    assert list(standing(house, "Line").values()) == [0]


def test_with_no_load_since_it_is_of_the_last_barrels_pulls() -> None:
    house = _house(margin_min=60)
    hill = house.load("Hill", 300_000, "Line", at_min=0)
    zero = _barrel(house, 30_000, at_min=10)
    creek = house.load("Creek", 100_000, "Line", at_min=20)
    first = _barrel(house, 30_000, at_min=90)
    second = _barrel(house, 10_000, at_min=95)
    assert origins(house, zero) == {hill: 30_000, creek: 0}
    # Hill was loaded within the margin before the last barrel: nobody knows which one it is in.
    assert origins(house, first) == {creek: 30_000, hill: 0, "T26-0001-0": 0}
    assert set(origins(house, second)) >= {creek, hill}
    assert origins(house, second)[creek] == 10_000
    assert late(house, second) == {hill}


def test_a_load_typed_late_joins_the_barrels_weighed_since() -> None:
    house = _house()
    creek = house.load("Creek", 100_000, "Line", at_min=10)
    early = _barrel(house, 10_000, at_min=20)
    house.load("Creek", 100_000, "Line", at_min=35)
    since = _barrel(house, 10_000, at_min=40)
    hill, tag = house.pull("Hill", 300_000)
    house.do(Load(tag, "Line"), at_min=30)
    assert origins(house, early) == {creek: 10_000}
    assert origins(house, since)[hill] == 0
    assert late(house, since) == {hill}
    # The next barrel is of what was loaded since the last one: the late load was before it.
    last = _barrel(house, 10_000, at_min=50)
    assert set(origins(house, last)) >= set(origins(house, since))


def test_a_barrel_typed_late_is_of_the_loads_before_it() -> None:
    house = _house()
    creek = house.load("Creek", 100_000, "Line", at_min=10)
    hill = house.load("Hill", 100_000, "Line", at_min=30)
    barrel = _barrel(house, 10_000, at_min=20)
    # What came in since is in reach, as with every draw typed late, but has no grams.
    assert origins(house, barrel) == {creek: 10_000, hill: 0}
    assert late(house, barrel) == {hill}


def test_a_first_barrel_typed_before_any_load_takes_the_loads_there_are() -> None:
    house = _house()
    hill = house.load("Hill", 100_000, "Line", at_min=30)
    assert origins(house, _barrel(house, 10_000, at_min=20)) == {hill: 10_000}


def test_honey_poured_into_the_line_was_not_uncapped() -> None:
    house = _house()
    house.vessel("Tank 1")
    house.load("Creek", 100_000, "Tank 1")
    drum = house.drum("Tank 1", 90_000)
    hill = house.load("Hill", 50_000, "Line")
    house.pour(drum, "Line")
    assert origins(house, _barrel(house, 10_000)) == {hill: 10_000}


def test_pulls_that_are_only_in_reach_share_a_barrel_equally() -> None:
    """The books had both pallets in the wrong line: amended, they are here at 0 g."""
    house = _house()
    house.vessel("Line 2")
    for yard in ("Creek", "Hill"):
        _, tag = house.pull(yard, 100_000)
        load = house.do(Load(tag, "Line 2")).entries[0].id
        house.do(Amend(load=load, vessel="Line", reason="wrong line scanned"))
    barrel = _barrel(house, 10_001)
    assert sorted(origins(house, barrel).values()) == [5_000, 5_001]


def test_barrels_go_on_across_runs_and_washes() -> None:
    house = _house()
    creek = house.load("Creek", 100_000, "Line")
    house.wash("Line")
    hill = house.load("Hill", 100_000, "Line")
    assert origins(house, _barrel(house, 10_000)) == {creek: 5_000, hill: 5_000}


def test_what_drains_goes_back_in_as_a_lot() -> None:
    house = _house()
    house.vessel("Drainer")
    house.load("Creek", 100_000, "Line")
    wax = _barrel(house, 40_000)
    house.pour(wax, "Drainer", 25_000)
    house.pour("Drainer", "Line", 25_000)
    assert holding(house, wax) == {f"barrel/{wax}": (15_000, 0)}
    drum = house.drum("Line", 85_000)
    assert wax in {row.code for row in house.back(drum).lots}


def test_what_cappings_refuse() -> None:
    house = _house()
    assert turned_down(house, Cappings("Line", 10_000)) == (
        "Nothing has been loaded into Line yet, so these cappings come from nowhere. Load the "
        "pallet first."
    )
    house.load("Creek", 100_000, "Line")
    for grams, shown in ((0, "0.0"), (-500, "−0.5")):
        assert turned_down(house, Cappings("Line", grams)) == (
            f"Weigh the cappings first: {shown} kg is nothing to book."
        )
    assert turned_down(house, Cappings("Lime", 10_000)) == (
        "There is no vessel called Lime. Choose one, such as Line, or register it first."
    )


@pytest.mark.parametrize("grams", [1, 7])
def test_a_barrel_lighter_than_it_has_pulls(grams: int) -> None:
    house = _house()
    for _ in range(3):
        house.load("Creek", 100_000, "Line")
    barrel = _barrel(house, grams)
    assert len(origins(house, barrel)) == 3
    assert sum(origins(house, barrel).values()) == grams
