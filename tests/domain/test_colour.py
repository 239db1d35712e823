"""Colour classes against the published table."""

import pytest

from honeyledger.domain.colour import CLASSES, class_of


@pytest.mark.parametrize(
    ("tenths", "code", "name"),
    [
        # Source: United States Standards for Grades of Extracted Honey (effective 23 May 1985),
        # table I, as quoted at https://www.sizes.com/units/pfund_scale.htm.
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
