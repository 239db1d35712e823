"""What markets want on a label: what is missing, how high type is, and a house's own wording."""

from dataclasses import replace

import pytest

from honeyledger.domain.label_content import (
    FIGURES,
    GRADE,
    GRADED,
    LOOK,
    METRIC,
    NET_CONTENT,
    ORIGIN,
    PANEL,
    SHORT_LIVED,
    STORAGE,
    TEXT,
    Asked,
    ContentLine,
    HeightRule,
    Market,
    Said,
    check_wording,
    doubtful,
    heights_of,
    lacking,
    least_height_mm,
    markets_named,
    printed_texts,
    with_own,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.standards import Mark


def _line(item: str, mark: Mark = Mark.SEEN, **more: object) -> ContentLine:
    return replace(ContentLine(item, mark, "the law", "2026"), **more)  # type: ignore[arg-type]


def _market(*lines: ContentLine) -> Market:
    return Market("eu", ("EU", "European Union"), METRIC, lines)


def test_what_is_missing_is_told_with_where_it_is_written() -> None:
    market = _market(_line(STORAGE), _line(GRADE), _line(LOOK, text="the language"))
    missing = lacking([market], Said({GRADE: "No. 1"}))
    assert [one.words for one in missing] == ["how to store it (EU: the law)"]


@pytest.mark.parametrize("mark", [Mark.SECOND_HAND, Mark.FROM_MEMORY])
def test_what_nobody_saw_is_in_doubt_and_never_missing(mark: Mark) -> None:
    market, said = _market(_line(STORAGE, mark)), Said({})
    assert lacking([market], said) == ()
    assert doubtful([market], said) == (Asked("EU", market.lines[0]),)


@pytest.mark.parametrize(
    ("line", "said", "is_due"),
    [
        (_line(STORAGE, when=GRADED), Said({}), False),
        (_line(STORAGE, when=GRADED), Said({GRADE: "No. 1"}), True),
        (_line(STORAGE, when=SHORT_LIVED), Said({}, keeps_months=24), False),
        (_line(STORAGE, when=SHORT_LIVED), Said({}, keeps_months=3), True),
        (_line(ORIGIN, shares=True), Said({ORIGIN: "Origin: two countries"}), False),
        (_line(ORIGIN, shares=True), Said({ORIGIN: "Two countries"}, shares_told=False), True),
    ],
)
def test_some_lines_are_due_only_of_some_honey(
    line: ContentLine, said: Said, is_due: bool
) -> None:
    assert bool(lacking([_market(line)], said)) is is_due


def test_markets_go_by_any_of_their_names_and_none_is_the_own_one() -> None:
    eu, own = _market(), Market("own", ("own",), METRIC, ())
    assert markets_named([eu, own], ["European union", "EU", "Japan"]) == (eu,)
    assert markets_named([eu, own], []) == (own,)


def test_heights_follow_their_steps_and_the_highest_counts() -> None:
    by_panel = HeightRule(TEXT, PANEL, ((8000, 0.9), (None, 1.2)), Mark.SEEN, "s", "a", below=True)
    by_net = HeightRule(FIGURES, NET_CONTENT, ((50, 2.0), (None, 6.0)), Mark.FROM_MEMORY, "s", "a")
    higher = replace(by_panel, steps=((None, 1.6),), below=False)
    rules = heights_of([replace(_market(), heights=(by_panel, by_net))])
    assert [least_height_mm(rules, TEXT, area, 0, verified=True) for area in (7999, 8000)] == [
        0.9,
        1.2,
    ]
    assert [least_height_mm(rules, FIGURES, 1, g, verified=False) for g in (50, 51)] == [2.0, 6.0]
    assert least_height_mm(rules, FIGURES, 1, 51, verified=True) == 0
    assert least_height_mm((*rules, higher), TEXT, 9000, 0, verified=True) == 1.6


def test_a_house_adds_changes_and_leaves_out() -> None:
    market = _market(_line(STORAGE, Mark.FROM_MEMORY), _line(GRADE))
    records = [
        {"name": "Store", "market": "eu", "item": "storage", "source": "our lawyer"},
        {"name": "No grade", "market": "EU", "item": "grade", "left_out": 1},
        {"name": "Deposit", "market": "EU", "text": "Return the jar"},
        {"name": "Tokyo", "market": "Japan", "item": "storage"},
    ]
    eu, japan = with_own([market], records)
    assert [(one.line.item, one.line.source) for one in lacking([eu], Said({}))] == [
        (STORAGE, "our lawyer")
    ]
    assert printed_texts([eu, eu]) == ("Return the jar",)
    assert (japan.name, [one.words for one in lacking([japan], Said({}))]) == (
        "Japan",
        ["how to store it (Japan: Tokyo)"],
    )


@pytest.mark.parametrize(
    ("record", "sentence"),
    [
        ({}, "Say for which market this wording is, such as EU or own."),
        (
            {"market": "EU"},
            "Choose the item that has to be there, or type the text to print.",
        ),
        (
            {"market": "EU", "item": "colour"},
            "A label has no item called colour: choose of name, net, party, address, origin, lot, "
            "best before, grade, colour class, style, caution, storage.",
        ),
    ],
)
def test_a_wording_says_what_it_is_about(record: dict[str, object], sentence: str) -> None:
    with pytest.raises(Refusal) as refused:
        check_wording(record)
    assert refused.value.text == sentence
