"""The clock of waiting supers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.beetles import Clock, clock


# USDA Agricultural Research Service, abstract 112437 (seen): larval damage is likely where honey
# is held for more than 5 days. 1 to 3 days: practice, from a secondary source.
@pytest.mark.parametrize(
    ("hours", "left", "state"),
    [
        *((0, 120, "in time"), (72, 48, "in time"), (73, 47, "hurry"), (120, 0, "hurry")),
        *((121, 0, "late"), (500, 0, "late")),
    ],
)
def test_days_are_counted(hours: int, left: int, state: str) -> None:
    assert clock(hours) == Clock(hours, left, state)


def test_dry_air_holds_them_back_only_if_it_was_dry_all_the_time() -> None:
    # The same abstract: eggs fail to hatch below 50 % relative humidity.
    assert clock(200, [4_999, 4_000]).state == "held back by dry air"
    assert clock(200, [5_000]).state == "late"
    assert clock(200, [4_000, 6_500, 4_000]).state == "late"
    assert clock(200, []).state == "late"


@given(st.integers(0, 500), st.integers(0, 100))
def test_nothing_gets_better_by_waiting(hours: int, more: int) -> None:
    order = ("in time", "hurry", "late")
    assert order.index(clock(hours).state) <= order.index(clock(hours + more).state)
    assert clock(hours + more).left <= clock(hours).left
