"""Colour classes against the published table."""

import pytest

from honeyledger.domain.colour import (
    CLASSES,
    class_of,
    class_of_density,
    density_of,
    pfund_of_absorbance,
)
from honeyledger.domain.refusals import Refusal


@pytest.mark.parametrize(
    ("tenths", "code", "name"),
    [
        # Source: United States Standards for Grades of Extracted Honey (effective 23 May 1985),
        # table I (S2), as quoted at https://www.sizes.com/units/pfund_scale.htm.
        (0, "WW", "Water White"),
        (80, "WW", "Water White"),
        (81, "XW", "Extra White"),
        (170, "XW", "Extra White"),
        (171, "W", "White"),
        (340, "W", "White"),
        (341, "XLA", "Extra Light Amber"),
        (500, "XLA", "Extra Light Amber"),
        (501, "LA", "Light Amber"),
        (850, "LA", "Light Amber"),
        (851, "A", "Amber"),
        (1140, "A", "Amber"),
        (1141, "DA", "Dark Amber"),
        (2000, "DA", "Dark Amber"),
    ],
)
def test_bounds_are_inclusive(tenths: int, code: str, name: str) -> None:
    found = class_of(tenths)
    assert (found.code, found.name) == (code, name)


def test_every_reading_has_one_class_from_light_to_dark() -> None:
    order = [CLASSES.index(class_of(tenths)) for tenths in range(2000)]
    assert order == sorted(order)
    assert set(order) == set(range(7))


# The same table's column of optical densities (S2: two copies agree).
@pytest.mark.parametrize(
    ("density", "code"),
    [
        *((0, "WW"), (945, "WW"), (946, "XW"), (1_890, "XW"), (3_780, "W"), (5_950, "XLA")),
        *((13_890, "LA"), (30_080, "A"), (30_081, "DA")),
    ],
)
def test_classes_go_by_optical_density_too(density: int, code: str) -> None:
    assert class_of_density(density).code == code


def test_optical_density_is_the_logarithm_of_what_does_not_come_through() -> None:
    # log10(100 / %T), the same page; 10 % is 1, and 80.44 % is the bound of Water White.
    assert [density_of(one) for one in (10_000, 1_000, 100)] == [0, 10_000, 20_000]
    assert density_of(8_044) == 945


@pytest.mark.parametrize("transmittance", [0, -1, 10_001])
def test_a_transmittance_that_cannot_be_is_refused(transmittance: int) -> None:
    with pytest.raises(Refusal) as refused:
        density_of(transmittance)
    assert refused.value.text == (
        "A transmittance is above 0 and at most 100 %: set the instrument to 100 with its clear "
        "standard and read again."
    )


def test_millimetres_from_an_absorbance_are_an_estimate() -> None:
    # White 1984, mm = -38.70 + 371.39 * A: value from memory, M.
    assert pfund_of_absorbance(200) == 356
    assert pfund_of_absorbance(1_000) == 3_327
    assert pfund_of_absorbance(100) is None
