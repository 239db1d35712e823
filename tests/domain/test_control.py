"""Control limits and alarms against the handbook's own example, and against chance."""

import numpy as np
import pytest

from honeyledger.domain.control import Alarm, Limits, alarms, limits_of, usual_limits

# NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: flow rates of ten batches.
FLOW = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)
KNOWN = Limits(0.0, 1.0, 20)


def test_the_handbooks_example_of_single_values() -> None:
    found = limits_of(FLOW)
    assert found.centre == pytest.approx(50.81)
    assert found.deviation * 1.128 == pytest.approx(1.8778, abs=5e-5)
    assert found.high == pytest.approx(55.8041, abs=5e-5)
    assert found.low == pytest.approx(45.8159, abs=5e-5)
    assert alarms(FLOW, found) == [None] * 10
    assert found.holds(55.8)
    assert not found.holds(55.81)


def test_in_control_an_alarm_comes_once_in_some_92_values() -> None:
    # Same handbook, 6.3.2: with all four rules one false alarm in 91.75 values on average
    # (value from memory; Champ and Woodall 1987).
    values = list(np.random.default_rng(7).standard_normal(25_000))
    lengths: list[int] = []
    while len(lengths) < 150:
        begins = sum(lengths)
        found = next(
            at
            for length in (60, 240, 1_500)
            for at, alarm in enumerate(alarms(values[begins : begins + length], KNOWN), 1)
            if alarm
        )
        lengths.append(found)
    error = np.std(lengths) / len(lengths) ** 0.5
    assert abs(np.mean(lengths) - 91.75) < 4 * error


@pytest.mark.parametrize(
    ("values", "last"),
    [
        ((0.0, 3.1), Alarm("beyond", 1)),
        ((0.0, -3.1), Alarm("beyond", -1)),
        ((2.1, 0.0, 2.1), Alarm("two of three", 1)),
        ((-2.1, -2.1), Alarm("two of three", -1)),
        ((1.1, 1.1, -0.5, 1.1, 1.1), Alarm("four of five", 1)),
        ((0.1,) * 8, Alarm("eight", 1)),
        ((-0.1,) * 8, Alarm("eight", -1)),
        ((0.1,) * 7, None),
        ((2.1, 0.0, 0.0, 2.1), None),
        ((2.1, 2.1, 0.5), None),
    ],
)
def test_each_rule(values: tuple[float, ...], last: Alarm | None) -> None:
    assert alarms(values, KNOWN)[-1] == last


def test_limits_are_of_the_first_values_without_those_far_out() -> None:
    quiet = [0.0, 1.0, 0.0, 1.0, 0.0, 1.0, 0.0, 1.0, 0.0]
    assert usual_limits(quiet[:7]) is None
    assert usual_limits([5.0] * 12) is None
    found = usual_limits([*quiet, 40.0, *quiet])
    assert found is not None
    assert found.made_of == 18
    assert found.high < 5
    many = usual_limits([*quiet, *quiet, 0.0, 1.0, *([9.0] * 30)])
    assert many is not None
    assert many.made_of == 20
