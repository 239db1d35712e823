"""Days in GS1 codes."""

from datetime import date

import pytest

from honeyledger.domain.gs1_days import gs1_day
from honeyledger.domain.refusals import Refusal

TODAY = date(2026, 7, 24)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        # Check list 21 (S): the tests of python-stdnum, gs1_128: day 00 is the month's last.
        ("260400", date(2026, 4, 30)),
        ("261200", date(2026, 12, 31)),
        ("280200", date(2028, 2, 29)),
        ("181119", date(2018, 11, 19)),
        # The century: value from memory (M).
        ("770101", date(1977, 1, 1)),
        ("760101", date(2076, 1, 1)),
    ],
)
def test_days_are_read(text: str, day: date) -> None:
    assert gs1_day(text, TODAY) == day


@pytest.mark.parametrize("text", ["261301", "260431", "2604", "26040a", "", "260000"])
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        gs1_day(text, TODAY)
    assert refused.value.text == (
        f"{text or 'nothing'} is no day as GS1 codes carry it: six digits, year, month and day, "
        "such as 260430."
    )
