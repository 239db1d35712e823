"""Queueing formulas against each other, exact cases, and a sum over the states of the queue."""

from math import factorial, inf

import pytest

from honeyledger.domain.queueing import (
    erlang_c,
    load_of,
    wait_m_d_1,
    wait_m_g_1,
    wait_m_m_1,
    wait_m_m_c,
)


def _erlang_c_by_its_sum(offered: float, servers: int) -> float:
    """The formula as Erlang printed it (1917), by its factorials."""
    top = offered**servers / factorial(servers) * servers / (servers - offered)
    return top / (sum(offered**k / factorial(k) for k in range(servers)) + top)


@pytest.mark.parametrize(("offered", "servers"), [(0.5, 1), (1.0, 2), (2.4, 3), (9.0, 12)])
def test_erlang_c_is_the_sum_over_the_states(offered: float, servers: int) -> None:
    assert erlang_c(offered, 1.0, servers) == pytest.approx(_erlang_c_by_its_sum(offered, servers))


def test_two_servers_at_half_load_make_one_in_three_wait() -> None:
    # Exactly 1/3: by hand, 1 * 2 / (2 - 1) / 2 over (1 + 1 + 1).
    assert erlang_c(1.0, 1.0, 2) == pytest.approx(1 / 3)
    assert wait_m_m_c(1.0, 1.0, 2) == pytest.approx(1 / 3)


def test_one_server_of_several_is_one_server() -> None:
    assert erlang_c(3.0, 4.0, 1) == pytest.approx(0.75)
    assert wait_m_m_c(3.0, 4.0, 1) == pytest.approx(wait_m_m_1(3.0, 4.0)) == pytest.approx(0.75)


def test_a_steady_server_halves_the_wait() -> None:
    assert wait_m_d_1(3.0, 4.0) == pytest.approx(wait_m_m_1(3.0, 4.0) / 2)
    assert wait_m_g_1(3.0, 4.0, 0.5) == pytest.approx(wait_m_d_1(3.0, 4.0) * 1.25)


def test_more_than_can_be_done_waits_for_ever() -> None:
    assert wait_m_m_1(4.0, 4.0) == wait_m_d_1(5.0, 4.0) == wait_m_m_c(9.0, 4.0, 2) == inf
    assert erlang_c(9.0, 4.0, 2) == 1.0
    assert load_of(9.0, 4.0, 2) == pytest.approx(1.125)
