"""Notes of the weather as a season's reader gets them."""

from datetime import date

from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.weather import Weather
from honeyledger.services.weather import WeatherNote, weather_notes
from tests.support.houses import BuiltHouse


def test_notes_of_a_season_by_their_days() -> None:
    house = BuiltHouse()
    house.yard("Ash")
    late = house.do(Weather("Rain", "2026-07-20", "ash", 185, "no flight")).entries[0].id
    early = house.do(Weather(day="2026-07-03", note="haze")).entries[0].id
    house.do(Weather("frost", "2025-05-09"))
    wrong = house.do(Weather("storm")).entries[0].id
    house.do(Reverse(wrong, "that was yesterday"))
    assert house.house.ask(lambda view: weather_notes(view, 2026)) == (
        WeatherNote(date(2026, 7, 3), "", "", None, "haze", early),
        WeatherNote(date(2026, 7, 20), "rain", "Ash", 185, "no flight", late),
    )
