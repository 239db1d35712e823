"""Results as a laboratory reports them."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.refusals import Refusal
from honeyledger.domain.results import Kind, Result, figure, parse_result, within


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("12.40", "12.40"),
        ("12,4", "12.4"),
        ("< 5", "<5"),
        (">30", ">30"),
        ("n.d.", "not detected"),
        ("ND", "not detected"),
        ("Not  detected", "not detected"),
        ("no detectado <0,5", "not detected (<0.5)"),
        ("nd (<0,5)", "not detected (<0.5)"),
        ("not detected < 0.5", "not detected (<0.5)"),
    ],
)
def test_a_result_is_kept_as_it_was_reported(typed: str, kept: str) -> None:
    assert str(parse_result(typed)) == kept
    assert parse_result(kept) == parse_result(typed)


@pytest.mark.parametrize("text", ["", "-3", "about 5", "<", "nd (<a)", "1.2.3", "nd (<1.2.3)"])
def test_what_is_no_result_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_result(text, field="hmf")
    assert refused.value.field == "hmf"
    assert refused.value.text == (
        f"{text or 'Nothing'} is no result: type a figure such as 12.4, <5, >30, or not detected."
    )


@pytest.mark.parametrize(
    ("text", "lowest", "highest", "is_within"),
    [
        ("40", None, 40, True),
        ("40.1", None, 40, False),
        ("<40", None, 40, True),
        ("<50", None, 40, None),
        (">40", None, 40, False),
        (">39", None, 40, None),
        ("8", 8, None, True),
        ("7.9", 8, None, False),
        ("<8", 8, None, False),
        ("<9", 8, None, None),
        (">8", 8, None, True),
        (">7", 8, None, None),
        ("nd", None, 40, None),
        ("nd (<5)", None, 40, True),
        ("nd (<50)", None, 40, None),
        ("nd (<8)", 8, None, False),
        ("nd", 8, None, None),
        ("5", 3, 8, True),
        ("<8", 3, 8, None),
        ("5", None, None, True),
    ],
)
def test_it_is_judged_only_where_it_says_enough(
    text: str, lowest: int | None, highest: int | None, is_within: bool | None
) -> None:
    bounds = [None if one is None else Decimal(one) for one in (lowest, highest)]
    assert within(parse_result(text), *bounds) is is_within


def test_a_reading_of_the_ledger_is_a_result() -> None:
    assert figure(1_780, 2) == Result(Kind.FIGURE, Decimal("17.80"))


NUMBERS = st.decimals(0, 1000, places=2)


@given(NUMBERS, NUMBERS, st.sampled_from("<>"))
def test_what_is_said_of_a_bound_holds_of_every_value_behind_it(
    value: Decimal, limit: Decimal, sign: str
) -> None:
    reported = parse_result(f"{sign}{value}")
    near = value - Decimal("0.001") if sign == "<" else value + Decimal("0.001")
    judged = within(reported, None, limit)
    if judged is not None and near >= 0:
        assert (near <= limit) is judged
