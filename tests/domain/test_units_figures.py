"""Figures without a unit."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_figure


@pytest.mark.parametrize(
    ("text", "millionths"),
    [("1.4900", 1_490_000), ("1,49", 1_490_000), (" 1.490005 ", 1_490_005), ("2", 2_000_000)],
)
def test_a_figure_is_read_into_whole_parts(text: str, millionths: int) -> None:
    read = parse_figure(text, "an index", "1.49", decimals=6, bounds=(1, 2), field="index")
    assert read == millionths


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "Nothing is typed here: type an index, such as 1.49."),
        ("x", "x is not an index: type it in digits, such as 1.49."),
        ("-1.4", "-1.4 is below zero: type an index without a sign."),
        ("0.99", "0.99 cannot be an index: type a figure from 1 to 2."),
        ("2.000001", "2.000001 cannot be an index: type a figure from 1 to 2."),
    ],
)
def test_what_is_no_figure_is_refused(text: str, said: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_figure(text, "an index", "1.49", decimals=6, bounds=(1, 2), field="index")
    assert (refused.value.text, refused.value.field) == (said, "index")
