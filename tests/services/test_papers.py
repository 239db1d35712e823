"""Net contents in words, and what a tag counts."""

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.services.papers import (
    INFANT_CAUTION,
    JarLabel,
    PalletTag,
    PulledLine,
    metric_content,
    us_content,
)

# NIST Handbook 44, Appendix C.
OUNCE_G = Fraction("28.349523125")


@pytest.mark.parametrize(
    ("net_g", "wanted"),
    [
        (28, "28 g"),
        (999, "999 g"),
        (1000, "1 kg"),
        (1500, "1.5 kg"),
        (2268, "2.268 kg"),
        (27_200, "27.2 kg"),
    ],
)
def test_metric_content(net_g: int, wanted: str) -> None:
    assert metric_content(net_g) == wanted


@pytest.mark.parametrize(
    ("net_g", "wanted"),
    [
        # Whole ounces and pounds: NIST Handbook 44, Appendix C, rounded to grams.
        (227, "8 oz"),
        (340, "12 oz"),
        (454, "16 oz (1 lb)"),
        (680, "24 oz (1 lb 8 oz)"),
        (907, "32 oz (2 lb)"),
        (2268, "5 lb"),
        # Contents declared in round grams: tenths of an ounce, rounded down.
        (250, "8.8 oz"),
        (375, "13.2 oz"),
        (500, "17.6 oz (1 lb 1.6 oz)"),
        (1000, "35.2 oz (2 lb 3.2 oz)"),
        (3000, "6 lb 9.8 oz"),
    ],
)
def test_us_content(net_g: int, wanted: str) -> None:
    assert us_content(net_g) == wanted


@given(st.integers(min_value=1, max_value=50_000))
def test_us_content_never_promises_more_than_rounds_to_the_grams(net_g: int) -> None:
    first = us_content(net_g).split(" (")[0]
    words = first.split()
    parts = dict(zip(words[1::2], words[::2], strict=True))
    ounces = Fraction(parts.get("lb", "0")) * 16 + Fraction(parts.get("oz", "0"))
    assert ounces * OUNCE_G < net_g + Fraction(1, 2)
    assert ounces * OUNCE_G > net_g - OUNCE_G / 10


def test_a_pallet_tag_counts_its_supers() -> None:
    day = date(2026, 7, 14)
    pulls = (PulledLine("Y26-0014-F", "North", day, 64), PulledLine("Y26-0021-H", "Hill", day, 53))
    assert PalletTag("G26-0042-M", "House", day, pulls).supers == 117


def test_a_jar_label_carries_the_caution_unless_it_is_worded_otherwise() -> None:
    jar = JarLabel("J26-0147-00382-F", "J26-0147-M", "Honey", 500, "House", "Eastbrook")
    assert jar.caution == INFANT_CAUTION == "Not for infants under one year of age."
