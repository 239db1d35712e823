"""The order of the next run."""

import pytest

from honeyledger.desktop.stations.hot_room.order import Order, ordered
from tests.desktop.stations.hot_room.pages import HELD, OLD, PAGE, WET

ABC = Order(("A", "B", "C"))


def test_pallets_join_once_and_leave() -> None:
    assert Order().joined("A").joined("B").joined("A") == Order(("A", "B"))
    assert ABC.without("B") == Order(("A", "C"))
    assert [ABC.number(code) for code in ("A", "C", "X")] == [1, 3, 0]


@pytest.mark.parametrize(
    ("code", "by", "codes"),
    [("C", -1, "ACB"), ("A", -1, "ABC"), ("C", 1, "ABC"), ("A", 1, "BAC"), ("X", 1, "ABC")],
)
def test_a_pallet_goes_in_earlier_or_later(code: str, by: int, codes: str) -> None:
    assert ABC.shifted(code, by) == Order(tuple(codes))


def test_a_pallet_is_put_at_a_place_and_behind_the_last_at_the_end() -> None:
    assert ABC.placed("C", 0) == Order(("C", "A", "B"))
    assert ABC.placed("X", 1) == Order(("A", "X", "B", "C"))
    assert ABC.placed("A", 9) == Order(("B", "C", "A"))


def test_the_next_run_comes_first_and_what_is_gone_falls_out() -> None:
    order = Order((HELD.code, "G26-0999-X", OLD.code)).of(PAGE)
    assert order == Order((HELD.code, OLD.code))
    assert ordered(PAGE, order) == [HELD, OLD, WET]
    assert ordered(PAGE, Order()) == [OLD, WET, HELD]
    assert order.rows(PAGE) == [HELD, OLD]
