"""Axes: round steps, and days."""

from datetime import date

import pytest

from honeyledger.desktop.models.chart_scale import day_scale, figure, value_scale
from honeyledger.desktop.models.days import short_day

DAY = date(2026, 7, 6).toordinal()  # a Monday


@pytest.mark.parametrize(
    ("low", "high", "most", "zero", "words"),
    [
        (0, 72.9, 5, True, ["0", "20", "40", "60", "80"]),
        (3, 143, 3, True, ["0", "50", "100", "150"]),
        (16.2, 19.6, 5, False, ["16", "17", "18", "19", "20"]),
        (17.31, 17.42, 4, False, ["17.30", "17.35", "17.40", "17.45"]),
        (-12.4, 28.6, 5, True, ["−20", "−10", "0", "10", "20", "30"]),
        (
            0,
            9_915,
            5,
            True,
            ["0", "2\u202f000", "4\u202f000", "6\u202f000", "8\u202f000", "10\u202f000"],
        ),
        (0, 0, 4, True, ["0.0", "0.5", "1.0"]),
        (18.0, 18.0, 3, False, ["10", "20", "30", "40"]),
    ],
)
def test_steps_are_round_and_take_in_both_ends(
    low: float, high: float, most: int, zero: bool, words: list[str]
) -> None:
    scale = value_scale(low, high, most, zero=zero)
    assert [tick.words for tick in scale.ticks] == words
    assert scale.low <= low
    assert scale.high >= high
    assert (scale.share(scale.low), scale.share(scale.high)) == (0.0, 1.0)


def test_nothing_has_no_sign() -> None:
    assert (figure(-0.001, 1), figure(-1, 0), figure(1_234.5, 1)) == ("0.0", "−1", "1\u202f234.5")


@pytest.mark.parametrize(
    ("days", "most", "words"),
    [
        (3, 8, ["6 Jul", "7 Jul", "8 Jul", "9 Jul"]),
        (10, 8, ["6 Jul", "8 Jul", "10 Jul", "12 Jul", "14 Jul", "16 Jul"]),
        (20, 4, ["6 Jul", "13 Jul", "20 Jul"]),
        (200, 4, ["1 Aug", "1 Sep", "1 Oct", "1 Nov", "1 Dec", "1 Jan"]),
    ],
)
def test_days_begin_weeks_and_months(days: int, most: int, words: list[str]) -> None:
    scale = day_scale(DAY, DAY + days, most)
    assert [tick.words for tick in scale.ticks] == words
    assert scale.low < DAY
    assert scale.high > DAY + days


def test_a_fortnight_begins_on_the_same_monday_wherever_one_looks_from() -> None:
    early, late = day_scale(DAY, DAY + 60, 5), day_scale(DAY + 5, DAY + 65, 5)
    assert {tick.words for tick in early.ticks} & {tick.words for tick in late.ticks}
    assert all(date.fromordinal(int(tick.value)).weekday() == 0 for tick in early.ticks)


def test_a_day_without_its_year() -> None:
    assert short_day(date(2026, 7, 24)) == "24 Jul"
