"""The yards: what each gave, this season and before, and what is due of it."""

import pytest

from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.corrections import Amend, Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.opening import OpeningStock, Part
from honeyledger.ledger.verbs.yards import Disease, Treat
from honeyledger.services.yards_page import YardsPage, yards_page
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    return BuiltHouse()


def page_of(house: BuiltHouse) -> YardsPage:
    return house.house.ask(lambda view: yards_page(view, house.now_ms))


def test_yards_with_something_due_come_first_then_those_not_pulled(house: BuiltHouse) -> None:
    names = ("Ash", "Birch", "Cedar", "Dogwood")
    ash, birch, cedar, _ = (house.yard(name, colonies=10) for name in names)
    house.pull(ash, 100_000)
    house.do(Treat(birch, "Formic pads", first_day="2026-07-20", clear_day="2026-08-20"))
    house.do(Disease(cedar, "European foulbrood", since="2026-07-10"))
    page = page_of(house)
    assert [(row.name, row.state, row.due) for row in page.rows] == [
        ("Cedar", "flagged", "flagged for European foulbrood since 10 Jul 2026"),
        ("Birch", "not clear", "treated with Formic pads, not clear until 20 Aug 2026"),
        ("Dogwood", "not yet pulled", ""),
        ("Ash", "pulled", ""),
    ]
    assert page.row("ASH") is page.row(ash)
    assert page.row("") is None


def test_a_treatment_that_is_in_is_told_until_it_is_out_and_clear(house: BuiltHouse) -> None:
    ash = house.yard("Ash")
    begun = house.do(Treat(ash, "Strips", first_day="2026-07-01")).entries[0].id
    assert page_of(house).rows[0].due == "treated with Strips, not out yet"
    done = {"first_day": "2026-07-01", "last_day": "2026-07-20", "clear_day": "2026-07-22"}
    house.do(Treat(ash, "Strips", completes=begun, **done))
    assert page_of(house).rows[0].state == "not yet pulled"


def test_a_yield_a_colony_leaves_out_what_was_taken_back(house: BuiltHouse) -> None:
    ash, birch = house.yard("Ash", colonies=10), house.yard("Birch", colonies=30)
    empty = house.yard("Cedar")
    pull, _ = house.pull(ash, 200_000, count=8)
    house.pull(birch, 300_000, count=12)
    wrong = house.do(Receive((Line(birch, 3),)))
    house.do(Reverse(wrong.entries[0].id, "wrong truck"))
    page = page_of(house)
    row = page.row(ash)
    assert row is not None
    assert (row.now.pulls, row.now.supers, row.now.grams) == (1, 8, 200_000)
    assert row.a_colony(row.now) == 20_000
    assert page.a_colony == 12_500
    assert (row.last_pulled, row.colonies) == ("2026-07-24", 10)
    house.do(Amend(pull, "wrong sheet", yard="Cedar"))
    page = page_of(house)
    moved = page.row(empty)
    assert moved is not None
    assert moved.now.grams == 200_000
    assert moved.a_colony(moved.now) is None, "nobody said how many colonies"
    assert page.row(ash).now.grams == 0  # type: ignore[union-attr]


def test_honey_that_was_there_before_the_ledger_is_none_of_a_season(house: BuiltHouse) -> None:
    house.yard("Ash", colonies=10)
    house.do(OpeningStock(Weight(net_g=290_000), 2025, (Part("Ash"),)))
    (row,) = page_of(house).rows
    assert [one.season for one in row.seasons] == [2026]
    assert (row.state, row.now.grams) == ("not yet pulled", 0)


def test_seasons_past_stand_behind_this_one(house: BuiltHouse) -> None:
    ash = house.yard("Ash", colonies=10)
    house.pull(ash, 150_000)
    house.wait(365 * 24 * 60)
    assert [one.season for one in page_of(house).rows[0].seasons] == [2027, 2026]
    assert page_of(house).rows[0].state == "not yet pulled"
    assert page_of(house).a_colony is None
    house.pull(ash, 250_000)
    assert [one.grams for one in page_of(house).rows[0].seasons] == [250_000, 150_000]
