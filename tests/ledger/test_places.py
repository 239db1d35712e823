"""Places are named by class and key; inside ones can never hold less than nothing."""

import pytest

from honeyledger.ledger import places


def test_a_place_has_its_class_and_key() -> None:
    name = places.place(places.VESSEL, "E26-0003-X")
    assert name == "vessel/E26-0003-X"
    assert (places.class_of(name), places.key_of(name)) == ("vessel", "E26-0003-X")
    assert places.place(places.DIFFERENCE) == "difference"
    assert (places.class_of("difference"), places.key_of("difference")) == ("difference", "")


@pytest.mark.parametrize(
    ("name", "inside", "source"),
    [
        ("pallet/G26-0001-3", True, False),
        ("vessel/E26-0003-X", True, False),
        ("jars", True, False),
        ("filling/J26-0001-Y", True, False),
        ("yard/Y26-0014-K", False, True),
        ("supplier/s9", False, True),
        ("unknown", False, True),
        ("customer/packer", False, False),
        ("gate/2026-07-24", False, False),
        ("difference", False, False),
    ],
)
def test_inside_and_outside(name: str, inside: bool, source: bool) -> None:
    assert places.is_inside(name) == inside
    assert places.is_source(name) == source


def test_every_class_is_on_one_side() -> None:
    assert not places.INSIDE & places.OUTSIDE
    assert places.SOURCES < places.OUTSIDE
