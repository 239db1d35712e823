"""The round a driver would take without a solver."""

import pytest

from honeyledger.services.routing import nearest_first, round_km

LINE = [[abs(one - other) for other in (0.0, 5.0, 1.0, 3.0)] for one in (0.0, 5.0, 1.0, 3.0)]


def test_always_to_the_nearest_and_back() -> None:
    found = nearest_first(LINE)
    assert found.order == (0, 2, 3, 1)
    assert found.km == pytest.approx(10)
    assert not found.proved
    assert round_km(LINE, (0, 1, 2, 3)) == pytest.approx(14)


def test_no_stop_and_one() -> None:
    assert (nearest_first([]).order, nearest_first([]).km) == ((), 0)
    assert (nearest_first([[0.0]]).order, nearest_first([[0.0]]).km) == ((0,), 0)
