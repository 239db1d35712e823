"""Moments: read strictly, by the house's clock, the hour that comes twice included."""

from collections.abc import Callable
from contextlib import suppress
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.moments import (
    FUTURE_MS,
    Moment,
    check_day_not_future,
    check_not_future,
    check_zone,
    day_of,
    format_day,
    format_iso,
    format_moment,
    house_day,
    moment_at,
    month_of,
    parse_day,
    parse_moment,
    say_day,
)
from honeyledger.domain.refusals import Refusal

BERLIN = "Europe/Berlin"
REGINA = "America/Regina"


def ms(text: str) -> int:
    return round(datetime.fromisoformat(text).timestamp()) * 1000


NOW = ms("2026-07-24T14:10+02:00")
TODAY = date(2026, 7, 24)


def refused(read: Callable[[], object], field: str) -> str:
    with pytest.raises(Refusal) as refusal:
        read()
    assert refusal.value.field == field
    return refusal.value.text


def asked(text: str) -> str:
    return refused(lambda: parse_moment(text, BERLIN, NOW), "happened")


# Reading moments.


@pytest.mark.parametrize(
    "text",
    [
        "24 Jul 2026 14:30",
        "24 july 2026, 2:30 pm",
        "Jul 24, 2026 14:30",
        "2026-07-24 14:30",
        "2026-07-24T14:30:00",
        "2026-07-24T12:30:00.000Z",
        "2026-07-24 06:30-06:00",
        "2026-07-24 06:30\u22120600",
        "24.7.2026 14:30",
        "24.07.2026   14:30:00",
        "24/07/2026 14:30",
        "07/24/2026 2:30PM",
        "24 Jul 14:30",
        "today 14:30",
        " 14:30 ",
        "2:30 pm",
    ],
)
def test_a_moment_is_read_however_it_is_typed(text: str) -> None:
    moment = parse_moment(text, BERLIN, NOW)
    assert moment == Moment(ms("2026-07-24T14:30+02:00"), 120, BERLIN)


def test_words_for_now_and_yesterday_are_read() -> None:
    assert parse_moment("now", BERLIN, NOW) == Moment(NOW, 120, BERLIN)
    yesterday = parse_moment("Yesterday 22:05:30.250", BERLIN, NOW)
    assert yesterday.at_ms == ms("2026-07-23T22:05:30+02:00") + 250


def test_noon_and_midnight_are_told_apart() -> None:
    assert parse_moment("12:30 am", BERLIN, NOW).at_ms == ms("2026-07-24T00:30+02:00")
    assert parse_moment("12:30 pm", BERLIN, NOW).at_ms == ms("2026-07-24T12:30+02:00")


def test_today_is_the_houses_day_and_not_that_of_utc() -> None:
    late = ms("2026-07-24T23:50-06:00")
    assert parse_moment("23:40", REGINA, late).at_ms == late - 600_000


def test_an_empty_moment_is_refused() -> None:
    assert asked("  ") == (
        "Nothing is typed here: type when it happened, such as 24 Jul 2026 14:30."
    )


@pytest.mark.parametrize("text", ["25:00", "14:61", "14:30:75", "13:00 pm", "24 Jul 2026 24:00"])
def test_what_no_clock_shows_is_refused(text: str) -> None:
    assert asked(text) == (
        f"{text} is not a date and time: type it like 24 Jul 2026 14:30, or 14:30."
    )


def test_a_date_without_a_time_is_asked_about() -> None:
    assert asked("24.7.2026") == (
        "24.7.2026 has no time of day: type that too, such as 24 Jul 2026 14:30."
    )


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("soon", "soon"),
        ("31 Feb 2026 14:30", "31 Feb 2026"),
        ("24 Jul 26 14:30", "24 Jul 26"),
        ("2026-07-24 14:30+99:00", "2026-07-24 14:30+99:00"),
        ("x" * 5000, f"{'x' * 37}..."),
    ],
)
def test_a_moment_on_no_date_is_refused(text: str, shown: str) -> None:
    assert asked(text) == f"{shown} is not a date: type it like 24 Jul 2026."


def test_a_moment_on_one_of_two_dates_is_asked_about() -> None:
    assert asked("03/04/2026 14:30") == (
        "03/04/2026 can mean 3 Apr 2026 or 4 Mar 2026: type it like 3 Apr 2026."
    )


# The hour that comes twice, and the one that never comes. Source: the IANA time zone database,
# in which Berlin's clocks go back on 25 Oct 2026 at 01:00 UTC, and forward on 29 Mar 2026.


def test_the_hour_that_comes_twice_is_asked_about() -> None:
    assert asked("25 Oct 2026 02:30") == (
        "25 Oct 2026 02:30 came twice, as the clocks were put back: "
        "type its time as 02:30+02:00 or 02:30+01:00."
    )


def test_the_hour_that_comes_twice_is_kept_by_its_offset() -> None:
    first = parse_moment("25 Oct 2026 02:30+02:00", BERLIN, NOW)
    second = parse_moment("25 Oct 2026 02:30+01:00", BERLIN, NOW)
    assert second.at_ms - first.at_ms == 3_600_000
    assert (first.offset_min, second.offset_min) == (120, 60)
    assert format_moment(first) == "25 Oct 2026 02:30+02:00"
    assert format_moment(second) == "25 Oct 2026 02:30+01:00"
    assert format_iso(second) == "2026-10-25T02:30:00.000+01:00"


def test_the_hour_that_never_comes_is_refused() -> None:
    assert asked("29 Mar 2026 02:30") == (
        "29 Mar 2026 02:30 never was, as the clocks were put forward: "
        "type the time as it was, before or after."
    )


@given(
    st.integers(ms("1990-01-01T00:00Z") // 60_000, ms("2090-01-01T00:00Z") // 60_000),
    st.sampled_from(
        [BERLIN, REGINA, "UTC", "Australia/Lord_Howe", "Asia/Kolkata", "Africa/Cairo"]
    ),
)
def test_what_is_written_is_read_back_the_same(minute: int, zone: str) -> None:
    moment = moment_at(minute * 60_000, zone)
    assert parse_moment(format_moment(moment), zone, NOW) == moment
    assert parse_moment(format_iso(moment), zone, NOW) == moment


@given(st.integers(0, ms("2090-01-01T00:00Z")), st.sampled_from([BERLIN, REGINA, "Asia/Tokyo"]))
def test_the_day_is_the_local_one(at_ms: int, zone: str) -> None:
    local = datetime.fromtimestamp(at_ms // 1000, UTC).astimezone(ZoneInfo(zone))
    assert house_day(at_ms, zone) == day_of(moment_at(at_ms, zone)) == local.date()


def test_the_day_ends_at_the_houses_midnight() -> None:
    midnight = ms("2026-07-25T00:00+02:00")
    assert house_day(midnight - 1, BERLIN) == TODAY
    assert house_day(midnight, BERLIN) == TODAY + timedelta(days=1)
    assert house_day(midnight, REGINA) == TODAY


# Days.


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("24 Jul 2026", date(2026, 7, 24)),
        ("24. July 2026", date(2026, 7, 24)),
        ("24-Jul-2026", date(2026, 7, 24)),
        ("July 24 2026", date(2026, 7, 24)),
        ("3 Sept", date(2026, 9, 3)),
        ("2026-07-24", date(2026, 7, 24)),
        ("2026/7/24", date(2026, 7, 24)),
        ("24.7.2026", date(2026, 7, 24)),
        ("3. 4. 2026", date(2026, 4, 3)),
        ("24/07/2026", date(2026, 7, 24)),
        ("7-24-2026", date(2026, 7, 24)),
        ("03/03/2026", date(2026, 3, 3)),
        ("29 Feb 2024", date(2024, 2, 29)),
        ("Today", TODAY),
        ("yesterday", date(2026, 7, 23)),
    ],
)
def test_a_day_is_read_however_it_is_typed(text: str, day: date) -> None:
    assert parse_day(text, TODAY) == day


@pytest.mark.parametrize(
    ("text", "day_first", "month_first"),
    [
        ("03/04/2026", "3 Apr 2026", "4 Mar 2026"),
        ("12-11-2025", "12 Nov 2025", "11 Dec 2025"),
    ],
)
def test_a_day_that_can_be_two_is_asked_about(text: str, day_first: str, month_first: str) -> None:
    assert refused(lambda: parse_day(text, TODAY), "day") == (
        f"{text} can mean {day_first} or {month_first}: type it like {day_first}."
    )


@pytest.mark.parametrize(
    "text",
    ["30/30/2026", "29 Feb 2026", "24 Jul 26", "24 Ju 2026", "July", "1 Jan 1969", "1 Jan 0026"],
)
def test_what_is_no_day_is_refused(text: str) -> None:
    assert refused(lambda: parse_day(text, TODAY, field="pulled"), "pulled") == (
        f"{text} is not a date: type it like 24 Jul 2026."
    )


def test_an_empty_day_is_refused() -> None:
    assert refused(lambda: parse_day("", TODAY), "day") == (
        "Nothing is typed here: type a date, such as 24 Jul 2026."
    )


@pytest.mark.parametrize("text", ["24 de julio de 2026", "24 jul", "julio 24", "hoy"])
def test_days_are_read_in_spanish_too(text: str) -> None:
    assert parse_day(text, date(2026, 7, 24)) == date(2026, 7, 24)


def test_no_month_is_another_month_in_another_language() -> None:
    spanish = (
        "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre"
    )
    months = [month_of(name[:3]) for name in spanish.split()]
    assert months == list(range(1, 13))
    assert [month_of(word) for word in ("setiembre", "Sept", "Foo")] == [9, 9, 0]
    assert parse_day("ayer", date(2026, 1, 1)) == date(2025, 12, 31)


@given(st.dates(date(1970, 1, 1), date(2199, 12, 31)))
def test_days_written_are_read_back(day: date) -> None:
    assert parse_day(format_day(day), TODAY) == day
    assert parse_day(day.isoformat(), TODAY) == day
    assert parse_day(f"{day.day}.{day.month}.{day.year}", TODAY) == day


# The future.


def test_ten_minutes_ahead_is_a_clock_that_is_fast() -> None:
    check_not_future(moment_at(NOW + FUTURE_MS, BERLIN), NOW)
    ahead = moment_at(NOW + FUTURE_MS + 1, BERLIN)
    assert refused(lambda: check_not_future(ahead, NOW, field="loaded"), "loaded") == (
        "24 Jul 2026 14:20 is in the future, for it is now 24 Jul 2026 14:10: "
        "type when it happened."
    )


def test_a_day_that_has_not_begun_is_refused() -> None:
    check_day_not_future(TODAY, NOW, BERLIN)
    tomorrow = TODAY + timedelta(days=1)
    check_day_not_future(tomorrow, ms("2026-07-24T23:50+02:00"), BERLIN)
    assert refused(lambda: check_day_not_future(tomorrow, NOW, BERLIN), "day") == (
        "25 Jul 2026 is in the future, for today is 24 Jul 2026: type the day it happened."
    )


# Zones.


def test_zones_are_known_by_name() -> None:
    assert check_zone(" Europe/Berlin ") == BERLIN


@pytest.mark.parametrize("name", ["Europe/Nowhere", "Europe", "../../etc/passwd", "/etc/passwd"])
def test_what_is_no_zone_is_refused(name: str) -> None:
    assert refused(lambda: check_zone(name), "zone") == (
        f"{name} is not a time zone: type its name, such as Europe/Berlin or America/Regina."
    )


def test_an_empty_zone_is_refused() -> None:
    assert refused(lambda: check_zone(" "), "zone").startswith("Nothing is not a time zone")


@given(st.text() | st.from_regex(r"[0-9]{1,4}[-./ ][0-9]{1,2}[-./ ][0-9]{1,4}[T ][0-9:]{0,9}"))
def test_no_text_is_too_odd_to_be_refused(text: str) -> None:
    for read in (lambda: parse_moment(text, BERLIN, NOW), lambda: parse_day(text, TODAY)):
        with suppress(Refusal):
            assert read()


def test_a_day_kept_as_iso_is_said_as_a_person_reads_it() -> None:
    assert say_day("2026-11-28") == "28 Nov 2026"
    assert say_day("") == ""
