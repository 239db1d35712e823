"""What is typed of a day's weather, as facts."""

from datetime import date

import pytest

from honeyledger.desktop.models.asked import FormTyped, Reading
from honeyledger.desktop.stations.hot_room.weather_form import weather_form
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.weather import SORTS, Weather
from honeyledger.services.house import Recorded

READING = Reading("kg", date(2026, 7, 24), None)


def _typed(**values: str) -> FormTyped:
    return FormTyped(values)


def test_a_button_a_day_and_the_highest() -> None:
    spec = weather_form()
    typed = _typed(sort="rain", day="20 Jul", high="18,5", yard="Y26-0001-P", note="no flight")
    assert list(spec.facts(typed, READING)) == [
        Weather("rain", "2026-07-20", "Y26-0001-P", 185, "no flight")
    ]
    assert list(spec.facts(_typed(note="haze"), READING)) == [Weather(note="haze")]
    assert spec.done(typed, Recorded((), ()), READING) == "The weather is noted."
    with pytest.raises(Refusal):
        spec.facts(_typed(high="warm"), READING)


def test_its_buttons_are_sorts_the_ledger_knows() -> None:
    (ask,) = [ask for row in weather_form().rows for ask in row if ask.key == "sort"]
    assert {key for key, _ in ask.buttons} < set(SORTS)
