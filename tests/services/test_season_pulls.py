"""What each yard gave with each lot."""

from datetime import date

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.services.season_pulls import Pull, pulls_of, yard_records
from tests.support.houses import BuiltHouse


def test_pulls_with_day_crew_and_net() -> None:
    house = BuiltHouse()
    ash, _ = house.yard("Ash", forage="clover"), house.yard("Birch")
    lines = (Line("Ash", 10, pulled="2026-07-23", crew="Jo"), Line("Birch", 5))
    codes = [lot.code for lot in house.do(Receive(lines)).entries[0].lots]
    wrong = house.do(Receive((Line("Ash", 3),))).entries[0].id
    house.do(Reverse(wrong, "wrong truck"))
    records = house.house.ask(yard_records)
    assert [record["name"] for record in records.values()] == ["Ash", "Birch"]
    found = house.house.ask(lambda view: pulls_of(view, list(records)))
    assert found[0] == Pull(f"yard/{ash}", 2026, date(2026, 7, 23), 10, 148_000, "Jo", codes[0])
    assert [(pull.day, pull.grams, pull.code) for pull in found[1:]] == [
        (date(2026, 7, 24), 74_000, codes[1])
    ]
    assert house.house.ask(lambda view: pulls_of(view, [])) == []
