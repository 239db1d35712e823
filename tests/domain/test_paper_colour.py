"""Colours of label paper, and how far black stands out on each."""

import pytest

from honeyledger.domain.paper_colour import (
    COLOURS,
    LEAST_PERCENT,
    SURE_PERCENT,
    contrast_percent,
    parse_paper_colour,
)
from honeyledger.domain.refusals import Refusal

GOOD = {"white", "cream", "yellow", "orange", "pink", "light green", "light blue"}
FAIR = {"kraft", "grey"}


@pytest.mark.parametrize(
    ("text", "colour"),
    [("", "white"), (" Light  Green ", "light green"), ("#fff4d6", "#FFF4D6"), ("KRAFT", "kraft")],
)
def test_a_colour_is_a_name_or_its_figures(text: str, colour: str) -> None:
    assert parse_paper_colour(text) == colour


@pytest.mark.parametrize("text", ["maroon", "#12345", "#12345G", "fff4d6"])
def test_what_is_no_colour_is_refused_with_those_there_are(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_paper_colour(text)
    assert refused.value.field == "colour"
    assert refused.value.text == (
        f"{text} is no colour of paper known here: choose one of white, cream, yellow, orange, "
        "pink, red, light green, green, light blue, blue, kraft, grey, or give it as #RRGGBB."
    )


def test_light_papers_pass_dark_ones_fail_and_some_are_told_of() -> None:
    sure = {name for name in COLOURS if contrast_percent(name) >= SURE_PERCENT}
    fails = {name for name in COLOURS if contrast_percent(name) < LEAST_PERCENT}
    assert (sure, set(COLOURS) - sure - fails) == (GOOD, FAIR)
    assert fails == {"red", "green", "blue"}


def test_the_worse_of_red_light_and_of_the_eye_counts() -> None:
    """Red paper is white to a laser and dark to a phone; a light blue one the other way round."""
    assert contrast_percent("#FF0000") == 16  # 21 % of the light an eye sees, less the ink
    assert contrast_percent("#00FFFF") == 0  # nothing of red light
    assert (contrast_percent("white"), contrast_percent("#000000")) == (95, 0)
    assert contrast_percent("#808080") == 17  # 21.6 % of the light, whatever its colour
