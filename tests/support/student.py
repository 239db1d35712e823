"""Student's distribution by plain integration: an oracle for tables of it, and slow."""

from math import exp, lgamma, pi, sqrt

_STEPS = 1_000


def upper(probability: float, freedom: int) -> float:
    """The value that is exceeded with a probability."""
    low, high = 0.0, 3_000.0
    for _ in range(45):
        middle = (low + high) / 2
        if _tail(middle, freedom) > probability:
            low = middle
        else:
            high = middle
    return low


def _tail(value: float, freedom: int) -> float:
    """The area beyond a value, which is brought onto 0 to 1."""
    parts = ((step + 0.5) / _STEPS for step in range(_STEPS))
    return sum(_density(value + u / (1 - u), freedom) / (1 - u) ** 2 for u in parts) / _STEPS


def _density(value: float, freedom: int) -> float:
    scale = exp(lgamma((freedom + 1) / 2) - lgamma(freedom / 2)) / sqrt(freedom * pi)
    return float(scale * (1 + value * value / freedom) ** (-(freedom + 1) / 2))
