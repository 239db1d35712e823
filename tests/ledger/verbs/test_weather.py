"""The weather of a day: a dated note that posts nothing."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.verbs.weather import Weather
from tests.support.houses import BuiltHouse

KNOWN = "sun, heat, cloud, rain, storm, wind, cold, frost, drought, smoke"


@pytest.fixture(scope="module")
def house() -> BuiltHouse:
    made = BuiltHouse()
    made.yard("Ash")
    return made


def test_a_note_is_a_mark_and_posts_nothing(house: BuiltHouse) -> None:
    entry = house.do(Weather("Heat", "2026-07-14", "Ash", 341, "nectar stopped")).entries[0]
    assert (entry.postings, entry.lots) == ((), ())
    ((subject, name, value),) = rows_of(entry, "marks")
    assert (subject, name) == (f"weather/{entry.id}", "weather")
    assert value == {
        "day": "2026-07-14",
        "sort": "heat",
        "yard": "Y26-0001-P",
        "note": "nectar stopped",
        "high": 341,
    }


def test_today_is_meant_where_no_day_is_said(house: BuiltHouse) -> None:
    ((_, _, value),) = rows_of(house.do(Weather("rain")).entries[0], "marks")
    assert isinstance(value, dict)
    assert (value["day"], value["sort"]) == ("2026-07-24", "rain")


@pytest.mark.parametrize(
    ("facts", "sentence"),
    [
        (Weather(), f"Say what the weather was: {KNOWN}, or write a note."),
        (
            Weather("sleet"),
            f"sleet is no weather here: say {KNOWN}, and the rest in a note.",
        ),
        (
            Weather("heat", high=712),
            "71.2 °C is no weather bees stand in. Type the day's highest again.",
        ),
        (
            Weather("rain", "2026-07-25"),
            "25 Jul 2026 is still to come. Type the day on which it was done.",
        ),
    ],
)
def test_what_is_refused(house: BuiltHouse, facts: Weather, sentence: str) -> None:
    before = house.house.ask(lambda view: view.head())
    with pytest.raises(Refusal) as refused:
        house.do(facts)
    assert str(refused.value) == sentence
    assert house.house.ask(lambda view: view.head()) == before
