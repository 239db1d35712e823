"""Conductivity at 20 °C."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.conductivity import at_20
from honeyledger.domain.refusals import Refusal


def test_a_warm_reading_is_lowered_and_a_cold_one_raised() -> None:
    # 3.2 % a degree: value from memory, M.
    assert at_20(800, 200) == 800
    assert at_20(800, 250) == 672
    assert at_20(800, 150) == 928


@pytest.mark.parametrize(("temperature", "said"), [(149, "14.9 °C"), (251, "25.1 °C")])
def test_far_from_20_degrees_it_is_refused(temperature: int, said: str) -> None:
    with pytest.raises(Refusal) as refused:
        at_20(800, temperature)
    assert refused.value.text == (
        f"{said} is too far from 20 °C to correct a conductivity: bring the solution to between "
        "15.0 °C and 25.0 °C and read again."
    )


@given(st.integers(0, 3_000), st.integers(150, 249))
def test_the_warmer_it_was_the_lower_it_is_brought(reading: int, temperature: int) -> None:
    assert at_20(reading, temperature + 1) <= at_20(reading, temperature)
