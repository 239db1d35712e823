"""How long work waits in front of a machine, by the formulas of queueing.

Rates are an hour, times are hours. What comes at random comes as a Poisson stream. A queue that
gets more than it can do grows without end: its wait is infinite, no number. The simulation of a
house is checked against these in the limits where they hold.

Sources: Erlang 1917, "Solution of some problems in the theory of probabilities of significance in
automatic telephone exchanges" (delay formula for several servers); Pollaczek 1930 and Khinchine
1932 (one server, any time of service); both as given by Kleinrock 1975, Queueing Systems,
volume 1. From memory.
"""

from math import inf


def load_of(arrivals: float, rate: float, servers: int = 1) -> float:
    """How busy the servers are on average, 1 for always; above 1 it cannot be done."""
    return arrivals / (rate * servers)


def wait_m_m_1(arrivals: float, rate: float) -> float:
    """Mean wait before one server whose times are exponential (M/M/1)."""
    return wait_m_g_1(arrivals, rate, 1.0)


def wait_m_d_1(arrivals: float, rate: float) -> float:
    """Mean wait before one server that always takes the same time (M/D/1)."""
    return wait_m_g_1(arrivals, rate, 0.0)


def wait_m_g_1(arrivals: float, rate: float, spread: float) -> float:
    """Mean wait before one server (Pollaczek and Khinchine).

    Args:
        spread: standard deviation of the time of service over its mean.
    """
    busy = load_of(arrivals, rate)
    return busy * (1 + spread * spread) / (2 * (rate - arrivals)) if busy < 1 else inf


def erlang_c(arrivals: float, rate: float, servers: int) -> float:
    """The part of what comes that has to wait before several servers (M/M/c)."""
    if load_of(arrivals, rate, servers) >= 1:
        return 1.0
    offered = arrivals / rate
    lost = 1.0  # Erlang B by its recursion, which no factorial can overflow
    for at in range(1, servers + 1):
        lost = offered * lost / (at + offered * lost)
    return servers * lost / (servers - offered * (1 - lost))


def wait_m_m_c(arrivals: float, rate: float, servers: int) -> float:
    """Mean wait before several servers, of all that comes (M/M/c)."""
    spare = rate * servers - arrivals
    return erlang_c(arrivals, rate, servers) / spare if spare > 0 else inf
