"""What a blend should come to."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.blend import Expected, Part, expected, mean_moisture, off_by, results_of


def test_moisture_and_solids_go_by_weight() -> None:
    # Computed by hand: 300 kg at 17.2 % and 200 kg at 19.4 % are 18.08 %.
    found = expected([Part(300_000, 1_720, 120), Part(200_000, 1_940, 640)])
    assert found == Expected(500_000, 1_808, 90_400, 409_600, 120, 640)


def test_where_a_part_was_not_read_nothing_is_made_up() -> None:
    found = expected([Part(300_000, 1_720, 120), Part(200_000)])
    assert found == Expected(500_000, None, None, None, None, None)
    assert expected([Part(300_000, 1_720, 120), Part(0)]).moisture == 1_720
    assert expected([]) == Expected(0, None, None, None, None, None)
    assert mean_moisture([]) is None


def test_what_can_be_held_against_a_grade_is_water_and_solids() -> None:
    found = results_of(expected([Part(300_000, 1_720, 120), Part(200_000, 1_940, 640)]))
    assert {name: str(result) for name, result in found.items()} == {
        "moisture": "18.08",
        "solids": "81.92",
    }
    assert results_of(expected([Part(1)])) == {}


@pytest.mark.parametrize(
    ("measured", "off"), [(1_808, 0), (1_828, 0), (1_829, 21), (1_788, 0), (1_750, -58)]
)
def test_measured_after_it_is_off_only_beyond_what_readings_differ_by(
    measured: int, off: int
) -> None:
    assert off_by(measured, 1_808) == off


PARTS = st.lists(
    st.builds(Part, st.integers(1, 10**6), st.integers(1_300, 2_500), st.integers(0, 1_400)),
    min_size=1,
    max_size=8,
)


@given(PARTS)
def test_blending_never_leaves_the_range_of_its_parts(parts: list[Part]) -> None:
    found = expected(parts)
    moistures = [part.moisture or 0 for part in parts]
    assert found.moisture is not None
    assert min(moistures) <= found.moisture <= max(moistures)
    assert found.water_g is not None
    assert found.solids_g is not None
    assert found.water_g + found.solids_g == found.grams == sum(part.grams for part in parts)
    assert found.lightest == min(part.colour or 0 for part in parts)
    assert found.darkest == max(part.colour or 0 for part in parts)


@given(PARTS)
def test_the_order_does_not_matter(parts: list[Part]) -> None:
    assert expected(parts) == expected(parts[::-1])
