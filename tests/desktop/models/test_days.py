"""Days are taken where they can mean only one thing."""

from datetime import date

import pytest
from PySide6.QtWidgets import QApplication

from honeyledger.desktop import language
from honeyledger.desktop.models.days import (
    clock_time,
    day_note,
    format_day,
    format_days,
    format_moment,
    format_span,
    parse_day,
    recent_days,
    say_day,
)
from honeyledger.domain.moments import moment_at
from tests.support.houses import START_MS

TODAY = date(2026, 7, 24)


@pytest.mark.parametrize(
    "text",
    ["24 Jul 2026", "24 jul", "24. July", "Jul 24", "July 24, 2026", "2026-07-24", "today", " T "],
)
def test_a_day_is_read_in_every_form_that_means_one_thing(text: str) -> None:
    assert parse_day(text, TODAY) == TODAY


def test_yesterday_is_a_day_too() -> None:
    assert parse_day("yesterday", TODAY) == date(2026, 7, 23)
    assert parse_day("y", TODAY) == date(2026, 7, 23)


@pytest.mark.parametrize("text", ["4/7", "07.04.2026", "24", "31 Jun", "2026-13-01", "24 Foo", ""])
def test_what_could_mean_two_things_or_nothing_is_no_day(text: str) -> None:
    assert parse_day(text, TODAY) is None


def test_a_day_is_shown_as_it_is_typed() -> None:
    assert format_day(TODAY) == "24 Jul 2026"
    assert parse_day(format_day(TODAY), date(2030, 1, 1)) == TODAY


def test_the_last_days_are_called_as_people_call_them() -> None:
    days = recent_days(TODAY, 3)
    assert [day_note(day, TODAY) for day in days] == ["today", "yesterday", "Wed"]


@pytest.mark.parametrize(
    ("first", "last", "says"),
    [
        ("2026-07-08", "2026-07-08", "8 Jul 2026"),
        ("2026-07-08", "2026-07-09", "8 to 9 Jul 2026"),
        ("2026-07-08", "2026-09-23", "8 Jul to 23 Sep 2026"),
        ("2025-12-30", "2026-01-02", "30 Dec 2025 to 2 Jan 2026"),
    ],
)
def test_a_span_says_month_and_year_once(first: str, last: str, says: str) -> None:
    assert format_span(date.fromisoformat(first), date.fromisoformat(last)) == says


def test_a_few_days_are_named_and_more_are_a_span() -> None:
    days = [date(2026, 7, day) for day in (28, 30, 31)]
    assert format_days([]) == ""
    assert format_days(days[:1]) == "28 Jul 2026"
    assert format_days(days[:2]) == "28, 30 Jul 2026"
    assert format_days(days) == "28 to 31 Jul 2026"
    assert format_days([date(2026, 6, 30), days[0]]) == "30 Jun to 28 Jul 2026"


def test_days_in_spanish_are_shown_and_read_back(light: QApplication) -> None:
    language.wear(light, "es")
    try:
        assert format_day(date(2026, 8, 3)) == "3 ago 2026"
        assert [day_note(day, TODAY) for day in recent_days(TODAY, 3)] == ["hoy", "ayer", "mié"]
        assert format_span(date(2026, 1, 8), date(2026, 4, 9)) == "8 ene a 9 abr 2026"
        assert format_moment(moment_at(START_MS, "America/Regina")) == "24 jul 2026 02:40"
        assert say_day("2026-12-01") == "1 dic 2026"
        for text in ("3 ago", "3 de agosto de 2026", format_day(date(2026, 8, 3))):
            assert parse_day(text, TODAY) == date(2026, 8, 3)
        assert parse_day("ayer", TODAY) == date(2026, 7, 23)
    finally:
        language.wear(light, language.ENGLISH)


def test_the_time_of_day_is_the_houses() -> None:
    assert clock_time(moment_at(START_MS, "America/Regina")) == "02:40"
