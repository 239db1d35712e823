"""Yards as a plan of pulls sees them."""

from datetime import date

from honeyledger.domain.distances import Spot
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.yards import Disease, SupersOn, Treat
from honeyledger.services.pulling_yards import NEVER, YardToPull, days_from, yards_to_pull
from honeyledger.services.season_pulls import pulls_of, yard_records
from honeyledger.services.season_yields import yields
from honeyledger.services.store import View
from tests.support.houses import BuiltHouse

TODAY = date(2026, 7, 24)


def _yards(house: BuiltHouse) -> dict[str, YardToPull]:
    def asked(view: View) -> tuple[YardToPull, ...]:
        pulls = pulls_of(view, list(yard_records(view)))
        return yards_to_pull(view, yields(view, 2026, pulls), pulls, TODAY)

    return {yard.name: yard for yard in house.house.ask(asked)}


def test_supers_by_the_books_else_by_colonies() -> None:
    house = BuiltHouse()
    house.yard("Ash", colonies=10, place="NW 22", latitude=494_000_000, longitude=-988_000_000)
    house.yard("Birch", colonies=8)
    house.yard("Cedar")
    house.do(SupersOn("Ash", 30, "2026-06-01"))
    assert _yards(house)["Birch"].supers == 16
    house.do(Receive((Line("Ash", 20),)))
    found = _yards(house)
    ash, birch = found["Ash"], found["Birch"]
    assert (ash.supers, ash.guessed, ash.grams) == (10, False, 148_000)
    assert (ash.place, ash.spot) == ("NW 22", Spot(494_000_000, -988_000_000))
    # Two a colony came of Ash, which is the only yard that was pulled.
    assert (birch.supers, birch.guessed, birch.spot) == (16, True, None)
    assert "Cedar" not in found


def test_wet_and_fresh_supers_are_a_risk() -> None:
    house = BuiltHouse()
    for name, day in (("Ash", "2026-06-01"), ("Birch", "2026-07-20"), ("Cedar", "2026-06-01")):
        house.yard(name, colonies=10)
        house.do(SupersOn(name, 30, day))
    pull, _ = house.pull("Ash", 90_000, count=6)
    house.do(Measure(pull, moisture=1_910))
    dry, _ = house.pull("Cedar", 90_000, count=6)
    house.do(Measure(dry, moisture=1_720))
    found = _yards(house)
    assert {name: (one.risk, one.moisture) for name, one in found.items()} == {
        "Ash": (2, 1_910),
        "Birch": (1, None),
        "Cedar": (0, 1_720),
    }
    assert found["Birch"].on_since == date(2026, 7, 20)


def test_what_keeps_a_yard() -> None:
    house = BuiltHouse()
    for name in ("Ash", "Birch", "Cedar", "Dogwood"):
        house.yard(name, colonies=10)
    house.do(Treat("Ash", "Strips", first_day="2026-07-01", clear_day="2026-07-30"))
    house.do(Treat("Birch", "Pads", first_day="2026-07-01"))
    house.do(Disease("Cedar", "foulbrood"))
    house.do(Treat("Dogwood", "Strips", first_day="2026-06-01", clear_day="2026-06-20"))
    assert {name: (one.ready, one.why) for name, one in _yards(house).items()} == {
        "Ash": (date(2026, 7, 30), "Strips: not clear until 30 Jul 2026"),
        "Birch": (NEVER, "Pads is not out yet"),
        "Cedar": (NEVER, "flagged for foulbrood: by itself, and as your local code says"),
        "Dogwood": (TODAY, ""),
    }


def test_days_one_after_the_other() -> None:
    assert days_from(date(2026, 7, 31), 2) == [date(2026, 7, 31), date(2026, 8, 1)]
