"""Tables between their rows."""

from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.rows_between import between

ROWS = ((10, 100), (20, 200), (50, 140))


def test_a_row_is_met_between_two_the_line_is_straight_and_outside_nothing_is_said() -> None:
    assert [between(at, ROWS) for at in (10, 20, 50)] == [100, 200, 140]
    assert [between(at, ROWS) for at in (15, 35)] == [150, 170]
    assert [between(at, ROWS) for at in (9, 51)] == [None, None]


@given(st.integers(10, 50))
def test_what_is_found_lies_between_its_two_rows(value: int) -> None:
    found = between(value, ROWS)
    assert found is not None
    low, high = ((100, 200), (140, 200))[value > 20]
    assert low <= found <= high
