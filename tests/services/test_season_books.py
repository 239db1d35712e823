"""A season's entries: of its own year, without what was reversed."""

from datetime import date

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.services.season_books import (
    SeasonBooks,
    monday_of,
    number_of,
    pieces_of,
    said_of,
    season_books,
)
from tests.support.houses import BuiltHouse


def _books(house: BuiltHouse, season: int) -> SeasonBooks:
    return house.house.ask(lambda view: season_books(view, season, house.now_ms))


def test_a_season_is_a_year_and_what_was_reversed_is_left_out() -> None:
    house = BuiltHouse()
    ash = house.yard("Ash")
    house.pull(ash, 150_000, count=7)
    wrong = house.do(Receive((Line(ash, 3),))).entries[0].id
    house.do(Reverse(wrong, "wrong truck"))
    house.wait(365 * 24 * 60)
    house.pull(ash, 90_000, count=4)
    first, second = _books(house, 2026), _books(house, 2027)
    counts = [
        [
            number_of(lot.attributes, "count")
            for _, entry in books.of("receive")
            for lot in entry.lots
        ]
        for books in (first, second)
    ]
    assert counts == [[7], [4]]
    assert (first.is_now, second.is_now) == (False, True)
    assert second.today == date(2027, 7, 24)
    assert {day.year for day, _ in first.entries} == {2026}


def test_what_is_read_from_an_entry() -> None:
    house = BuiltHouse()
    ash = house.yard("Ash")
    house.vessel("Tank")
    house.load(ash, 150_000, "Tank")
    ((_, load),) = _books(house, 2026).of("load")
    assert pieces_of(load) == 10
    assert said_of(load)["vessel"] == "Tank"
    assert number_of(said_of(load), "vessel") == 0


def test_a_week_begins_on_monday() -> None:
    assert monday_of(date(2026, 7, 24)) == date(2026, 7, 20)
    assert monday_of(date(2026, 7, 20)) == date(2026, 7, 20)
