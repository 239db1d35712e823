"""Every label at its limits: long names, other scripts, no weight and the most, nothing said.

Nothing may leave its label, lie on other words or on a code, or be left out in silence: what does
not fit is refused, and the refusal names it.
"""

from dataclasses import replace
from typing import Any

import pytest

from honeyledger.documents import labels
from honeyledger.documents.stock import Stock, plain_printer
from honeyledger.domain.refusals import Refusal
from tests.support import printing
from tests.support.reading import READ
from tests.support.stress import (
    EMOJI,
    LEAST_G,
    MOST_G,
    NAMES,
    emptied,
    overlapping,
    weighing,
    worded,
)

# A retail code's figures stand within its own white: `test_retail_code.py` measures them.
STRESSED = {kind: READ[kind] for kind in READ if kind != labels.RETAIL_CODE}
STOCKED = [(kind, stock) for kind in STRESSED for stock in printing.stocks().fitting(kind)]


def _named(one: object) -> str:
    return getattr(one, "name", str(one))


NO_ROOM = ("no-room-for-text", "no-room-for-qr")


def _print(kind: str, row: Any, stock: Stock) -> bytes:
    draw = STRESSED[kind][0]
    return draw([row], stock, plain_printer(stock), printing.typefaces())


def _check(pdf: bytes, stock: Stock) -> None:
    """All words are a millimetre or more from its edges, clear of each other and of codes."""
    ((_, high_mm),) = printing.page_sizes_mm(pdf)
    point = 72 / 25.4
    left, top = stock.left_mm * point, (high_mm - stock.top_mm) * point
    right, bottom = left + stock.width_mm * point, top - stock.height_mm * point
    boxes = printing.text_boxes(pdf)
    assert boxes
    for box in boxes:
        assert left + point < box[0] < box[2] < right - point, box
        assert bottom + point < box[1] < box[3] < top - point, box
    codes = [
        (one.x, one.y, one.x + one.side * one.module, one.y + one.side * one.module)
        for one in printing.placed_symbols(pdf)
    ]
    assert overlapping([*boxes, *codes, *printing.placed_bars(pdf)]) == []


def _on_paper_or_refused(kind: str, row: Any, stock: Stock) -> None:
    try:
        pdf = _print(kind, row, stock)
    except Refusal as refusal:
        if refusal.key not in NO_ROOM:
            raise
    else:
        _check(pdf, stock)


@pytest.mark.parametrize("words", NAMES)
@pytest.mark.parametrize("kind", STRESSED)
def test_words_of_any_length_and_script_stay_on_the_label(kind: str, words: str) -> None:
    for stock in printing.stocks().fitting(kind):
        _on_paper_or_refused(kind, worded(STRESSED[kind][1], NAMES[words]), stock)


@pytest.mark.parametrize("grams", [LEAST_G, MOST_G])
@pytest.mark.parametrize(("kind", "stock"), STOCKED, ids=_named)
def test_no_weight_and_the_most_have_room(kind: str, stock: Stock, grams: int) -> None:
    row = weighing(STRESSED[kind][1], grams)
    if kind == labels.JAR_LABEL and grams == MOST_G:  # a jar of a hundred tonnes may be refused
        _on_paper_or_refused(kind, row, stock)
    else:
        _check(_print(kind, row, stock), stock)


@pytest.mark.parametrize(("kind", "stock"), STOCKED, ids=_named)
def test_what_nobody_said_leaves_a_label_that_is_whole(kind: str, stock: Stock) -> None:
    pdf = _print(kind, emptied(STRESSED[kind][1]), stock)
    _check(pdf, stock)
    words = printing.text_of(pdf)
    assert "None" not in words
    assert not any(gap in words for gap in (", ,", "()", ": ,"))


@pytest.mark.parametrize(
    "kind", [kind for kind in STRESSED if hasattr(STRESSED[kind][1], "again")]
)
def test_a_reprint_says_so_with_long_names_too(kind: str) -> None:
    row = STRESSED[kind][1]
    for stock in printing.stocks().fitting(kind):
        for named in (row, worded(row, NAMES["60 characters"])):
            pdf = _print(kind, replace(named, again=12), stock)
            _check(pdf, stock)
            assert "eprint 12" in printing.text_of(pdf), stock.name
        assert "eprint" not in printing.text_of(_print(kind, row, stock))


@pytest.mark.parametrize("kind", STRESSED)
def test_a_sign_that_cannot_be_printed_is_refused_by_its_name(kind: str) -> None:
    stock = printing.stocks().fitting(kind)[0]
    with pytest.raises(Refusal) as refused:
        _print(kind, worded(STRESSED[kind][1], EMOJI), stock)
    assert '"🐝" (honeybee, U+1F41D)' in refused.value.text


@pytest.mark.parametrize("script", ["Polish", "Greek", "Cyrillic"])
def test_a_yard_s_name_stands_whole_where_it_is_of_usual_length(script: str) -> None:
    for row in (printing.yard_tag(name=NAMES[script]), printing.badge(name=NAMES[script])):
        kind = "yard sheet code" if hasattr(row, "place") else "badge"
        for stock in printing.stocks().fitting(kind):
            assert NAMES[script] in printing.text_of(_print(kind, row, stock))
