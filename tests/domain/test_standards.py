"""What rules say to a lot's results."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.domain.refusals import Refusal
from honeyledger.domain.results import Kind, Result, figure, parse_result
from honeyledger.domain.standards import (
    Given,
    Mark,
    Outcome,
    Rule,
    Standard,
    Verdict,
    Why,
    grade_of,
    judged,
    named,
    with_own,
)


def rule(
    name: str,
    lowest: str | None = None,
    highest: str | None = None,
    mark: Mark = Mark.SEEN,
    of: tuple[str, ...] = (),
    given_: Given | None = None,
) -> Rule:
    """A rule of an invented market."""
    low, high = (None if one is None else Decimal(one) for one in (lowest, highest))
    return Rule(
        name, "g", low, high, mark, "a made-up text", "2026", any_of=frozenset(of), given=given_
    )


def standard(*rules: Rule, name: str = "mine", order: int = 0) -> Standard:
    return Standard(name, "Nowhere", "Rules of nowhere", rules, "grades", order)


WATER = rule("water", highest="20")
HEATHER = rule("water", highest="23", of=("heather",))
MEMORY = rule("hmf", highest="40", mark=Mark.FROM_MEMORY)


def verdict(one: Standard, kinds: list[str] | None = None, **results: str) -> Verdict:
    return judged(one, {name: parse_result(text) for name, text in results.items()}, kinds)


def test_each_property_has_one_row_with_its_rule_its_limit_and_the_result() -> None:
    found = verdict(standard(WATER, HEATHER, MEMORY), ["heather"], water="22", hmf="<1")
    assert [(row.rule.limit, str(row.result), row.outcome) for row in found.rows] == [
        ("at most 23 g", "22", Outcome.PASS),
        ("at most 40 g", "<1", Outcome.UNVERIFIED),
    ]
    assert (found.outcome, found.unverified) == (Outcome.PASS, 1)


def test_limits_in_words() -> None:
    assert rule("a").limit == "no limit"
    assert rule("a", "1").limit == "at least 1 g"
    assert rule("a", "1", "2").limit == "1 to 2 g"
    few = rule("a", "3", given_=Given("hmf", highest=Decimal(15)))
    assert few.limit == "at least 3 g with hmf at most 15"


def test_what_was_not_measured_or_says_too_little_is_not_known() -> None:
    found = verdict(standard(WATER), ["blossom"]).rows[0]
    assert (found.outcome, found.why) == (Outcome.UNKNOWN, Why.NOT_MEASURED)
    found = verdict(standard(WATER), ["blossom"], water="<30").rows[0]
    assert (found.outcome, found.why) == (Outcome.UNKNOWN, Why.NOT_ENOUGH)
    found = verdict(standard(WATER, HEATHER), None, water="22").rows[0]
    assert (found.outcome, found.why, found.rule) == (Outcome.UNKNOWN, Why.KIND, WATER)
    found = verdict(standard(WATER, HEATHER), None).rows[0]
    assert found.why is Why.NOT_MEASURED


def test_a_condition_that_was_not_measured_leaves_it_open_only_where_it_matters() -> None:
    few = rule("enzymes", "3", given_=Given("hmf", highest=Decimal(15)))
    one = standard(rule("enzymes", "8"), few)
    assert verdict(one, ["blossom"], enzymes="5").rows[0].why is Why.OTHER
    for enzymes, hmf, outcome in (
        *(("5", "15", "pass"), ("5", "16", "fail"), ("8", "16", "pass"), ("2", "15", "fail")),
        ("5", "<20", "unknown"),
    ):
        found = verdict(one, ["blossom"], enzymes=enzymes, hmf=hmf)
        assert found.rows[0].outcome.value == outcome
    assert verdict(one, ["blossom"], enzymes="9").outcome is Outcome.PASS
    assert verdict(one, ["blossom"], enzymes="2").outcome is Outcome.FAIL


def test_the_whole_fails_with_one_and_is_unverified_only_where_nothing_could_decide() -> None:
    both = standard(WATER, rule("acid", highest="50"))
    assert verdict(both, [], water="21").outcome is Outcome.FAIL
    assert verdict(both, [], water="19").outcome is Outcome.UNKNOWN
    assert verdict(both, [], water="19", acid="50").outcome is Outcome.PASS
    assert verdict(standard(MEMORY), [], hmf="99").outcome is Outcome.UNVERIFIED


def test_an_unverified_rule_for_a_kind_keeps_a_result_of_no_kind_from_failing() -> None:
    wide = rule("water", highest="30", mark=Mark.SECOND_HAND, of=("jungle",))
    assert verdict(standard(WATER, wide), None, water="25").outcome is Outcome.UNKNOWN
    assert verdict(standard(WATER, wide), None, water="19").outcome is Outcome.PASS
    assert verdict(standard(WATER, wide), ["jungle"], water="19").outcome is Outcome.UNVERIFIED


def test_a_kind_that_no_rule_speaks_of_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        verdict(standard(WATER, HEATHER), ["Clover"])
    assert refused.value.text == (
        "No rule of Rules of nowhere speaks of clover: choose of blossom, heather."
    )


def test_a_grade_is_given_only_if_every_better_one_fails() -> None:
    one, two, open_ = (
        standard(rule("water", highest="17"), name="one", order=1),
        standard(rule("water", highest="19"), name="two", order=2),
        standard(rule("water", highest="18"), rule("acid", highest="9"), name="open", order=1),
    )

    def grade(water: str, *grades: Standard) -> str:
        found = grade_of([verdict(each, [], water=water) for each in grades])
        return found.name if found else ""

    assert [grade(water, two, one) for water in ("17", "18", "20")] == ["one", "two", ""]
    assert grade("18", open_, two) == ""
    assert grade("18.5", open_, two) == "two"
    seen_and_not = standard(WATER, MEMORY, name="half", order=1)
    assert grade("18", seen_and_not, two) == ""


def test_a_house_s_rule_replaces_the_one_it_is_about() -> None:
    mine = rule("water", highest="18", mark=Mark.OWN)
    (merged,) = with_own([standard(WATER, HEATHER)], [standard(mine)])
    assert set(merged.rules) == {HEATHER, mine}
    other = standard(mine, name="other")
    assert [one.name for one in with_own([merged], [other])] == ["mine", "other"]


def test_a_standard_is_found_by_its_name() -> None:
    assert named([standard(WATER)], " Mine ").rules == (WATER,)
    with pytest.raises(Refusal) as refused:
        named([standard(WATER)], "yours")
    assert refused.value.text == "There are no rules called yours: choose one of mine."


VALUES = st.integers(0, 4_000).map(lambda value: figure(value, 2))
MARKS = st.sampled_from(Mark)


@given(VALUES, MARKS, MARKS, st.sampled_from([None, [], ["heather"]]))
def test_a_rule_that_nobody_has_seen_never_decides(
    value: Result, general: Mark, particular: Mark, kinds: list[str] | None
) -> None:
    one = standard(
        rule("water", highest="20", mark=general),
        rule("water", highest="23", mark=particular, of=("heather",)),
    )
    (row,) = judged(one, {"water": value}, kinds).rows
    if row.outcome in (Outcome.PASS, Outcome.FAIL):
        assert row.rule.mark.decides
    if not general.decides and not particular.decides:
        assert row.outcome is Outcome.UNVERIFIED


@given(VALUES, st.integers(1, 500))
def test_wetter_never_passes_where_drier_failed(value: Result, more: int) -> None:
    assert value.figure is not None
    wetter = Result(Kind.FIGURE, value.figure + Decimal(more) / 100)
    order = [Outcome.PASS, Outcome.UNKNOWN, Outcome.FAIL]
    for kinds in (None, [], ["heather"]):
        drier, after = (
            judged(standard(WATER, HEATHER), {"water": one}, kinds).outcome
            for one in (value, wetter)
        )
        assert order.index(drier) <= order.index(after)
