"""Honey is drawn in the colours the design computed, and stays in order for every eye."""

from itertools import pairwise

import pytest

from honeyledger.desktop import tokens
from honeyledger.desktop.colouring import (
    channels,
    contrast,
    ink_on_honey,
    luminance,
    mean_pfund,
    mixed,
    pfund_colour,
    pfund_symbol,
)

CHECKS = {
    8: "#FAF0C6",
    17: "#F4DA87",
    34: "#E0AC38",
    44: "#CE9329",
    50: "#C48826",
    85: "#8E4F17",
    114: "#5D2912",
}


@pytest.mark.parametrize(("mm", "colour"), CHECKS.items())
def test_a_reading_between_anchors_is_mixed_in_oklab(mm: int, colour: str) -> None:
    found = channels(pfund_colour(mm))
    assert all(abs(one - other) <= 1 for one, other in zip(found, channels(colour), strict=True))


def test_an_anchor_is_drawn_in_its_own_colour_and_beyond_the_ends_nothing_changes() -> None:
    for anchor in tokens.PFUND:
        assert pfund_colour(anchor.at_mm) == anchor.colour
    assert pfund_colour(0) == pfund_colour(4)
    assert pfund_colour(140) == pfund_colour(127)


def test_darker_honey_is_always_drawn_darker() -> None:
    steps = [luminance(pfund_colour(4 + 0.5 * step)) for step in range(247)]
    assert all(after <= before for before, after in pairwise(steps))
    whole = [luminance(pfund_colour(mm)) for mm in range(4, 128)]
    assert all(after < before for before, after in pairwise(whole))


def test_text_on_honey_can_always_be_read() -> None:
    worst = min(contrast(ink_on_honey(mm), pfund_colour(mm)) for mm in range(141))
    assert worst >= 4.5
    assert ink_on_honey(68) == "#000000"
    assert ink_on_honey(68.1) == "#FFFFFF"


def test_a_limit_belongs_to_the_paler_class() -> None:
    # USDA AMS, United States standards for grades of extracted honey (1985): "8 or less" is
    # water white, "over 8" extra white, and so on.
    found = [pfund_symbol(mm) for mm in (8, 8.1, 17, 34, 50, 85, 114, 114.1, 200)]
    assert found == ["WW", "XW", "XW", "W", "XLA", "LA", "A", "DA", "DA"]


def test_contrast_is_that_of_the_standard_at_its_ends() -> None:
    # WCAG 2.2, definition of contrast ratio: 21 for black on white, 1 for like on like.
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#123456", "#123456") == pytest.approx(1.0)


def test_mixing_begins_and_ends_with_what_is_mixed() -> None:
    assert mixed("#0B5753", "#62C9BC", 0.0) == "#0B5753"
    assert mixed("#0B5753", "#62C9BC", 1.0) == "#62C9BC"


def test_a_mean_colour_goes_by_mass() -> None:
    assert mean_pfund([(300, 30.0), (100, 50.0)]) == pytest.approx(35.0)
    assert mean_pfund([]) is None
    assert mean_pfund([(0, 30.0)]) is None
