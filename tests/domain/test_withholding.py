"""Days by a label's interval."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.refusals import Refusal
from honeyledger.domain.withholding import (
    Interval,
    Unit,
    clear_day,
    first_day,
    last_day_in,
    parse_interval,
)


@pytest.mark.parametrize(
    ("out", "label", "first"),
    [
        # Computed on the calendar.
        ("2026-04-10", "14 days", "2026-04-24"),
        ("2026-03-01", "6 weeks", "2026-04-12"),
        ("2026-03-01", "4 weeks", "2026-03-29"),
        ("2026-03-01", "4 semanas", "2026-03-29"),
        ("2026-03-01", "10 días", "2026-03-11"),
        ("2026-01-31", "1 mes", "2026-02-28"),
        ("2026-12-31", "2 months", "2027-02-28"),
        ("2028-01-31", "1 month", "2028-02-29"),
        ("2026-04-10", "0 days", "2026-04-10"),
    ],
)
def test_supers_may_go_on_an_interval_after_it_came_out(out: str, label: str, first: str) -> None:
    interval = parse_interval(label)
    assert first_day(date.fromisoformat(out), interval).isoformat() == first


def test_it_is_read_as_a_label_has_it() -> None:
    assert parse_interval("14d") == parse_interval(" 14  Days ") == Interval(14, Unit.DAYS)
    assert parse_interval("6 w") == Interval(6, Unit.WEEKS)
    assert parse_interval("1 month") == Interval(1, Unit.MONTHS)


@pytest.mark.parametrize("text", ["", "14", "two weeks", "-3 days", "1.5 weeks", "9999 weeks"])
def test_what_is_no_interval_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_interval(text, field="label")
    assert refused.value.field == "label"
    assert refused.value.text == (
        f"{text or 'Nothing'} is no interval of a label: type it as the label has it, such as "
        "14 days, 6 weeks or 2 months."
    )


DAYS = st.dates(date(2020, 1, 1), date(2090, 1, 1))
INTERVALS = st.builds(Interval, st.integers(0, 60), st.sampled_from(Unit))


@given(DAYS, INTERVALS)
def test_the_last_day_to_come_out_is_the_last(supers_on: date, interval: Interval) -> None:
    last = last_day_in(supers_on, interval)
    assert first_day(last, interval) <= supers_on
    assert first_day(last + timedelta(days=1), interval) > supers_on


@given(DAYS, INTERVALS, st.integers(0, 400))
def test_out_later_is_never_clear_earlier(out: date, interval: Interval, later: int) -> None:
    assert first_day(out, interval) <= first_day(out + timedelta(days=later), interval)


def test_a_clear_day_is_told_or_counted_from_the_day_it_came_out() -> None:
    out = date(2026, 8, 1)
    assert clear_day(out, "2026-09-01", "") == "2026-09-01"
    assert clear_day(None, "", "") == ""
    assert clear_day(out, "", "6 weeks") == "2026-09-12"
    with pytest.raises(Refusal) as both:
        clear_day(out, "2026-09-01", "6 weeks")
    assert both.value.text == (
        "Give the day it is clear, or its label's interval: one of the two."
    )
    assert clear_day(None, "", "6 weeks") == "", "nobody knows the day while it is in"
    with pytest.raises(Refusal, match="six weeks is no interval of a label"):
        clear_day(None, "", "six weeks")
