"""Every label at its limits: long names, other scripts, no weight and the most, nothing said.

Nothing may leave its label, lie on other words or on a code, or be left out in silence: what does
not fit is refused, and the refusal names it.
"""

from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import pypdfium2
import pytest

from honeyledger.documents import labels
from honeyledger.documents.page import Page, drawn_on
from honeyledger.documents.stock import Stock, plain_printer
from honeyledger.domain.label_stock import SHEET
from honeyledger.domain.refusals import Refusal
from honeyledger.services.label_forms import DRUM_STICKER, JAR_FRONT, in_form
from tests.support import printing
from tests.support.reading import READ
from tests.support.stress import (
    EMOJI,
    LEAST_G,
    MOST_G,
    NAMES,
    Box,
    emptied,
    overlapping,
    weighing,
    worded,
)
from tests.support.tiers import first_plain

# A retail code's figures stand within its own white: `test_retail_code.py` measures them.
STRESSED = {kind: READ[kind] for kind in READ if kind != labels.RETAIL_CODE}
STRESSED[JAR_FRONT] = (labels.jar_fronts, in_form([printing.jar_label()], JAR_FRONT)[0])


def _stocked(kind: str) -> list[Any]:
    """A kind on its smallest label, and for the long suites on each that is larger."""
    fitting = printing.stocks().fitting(kind)
    by_size = sorted(fitting, key=lambda stock: stock.width_mm * stock.height_mm)
    return first_plain((kind, stock) for stock in by_size)


STOCKED = [one for kind in STRESSED for one in _stocked(kind)]
AGAIN = [kind for kind in STRESSED if hasattr(STRESSED[kind][1], "again")]


def _named(one: object) -> str:
    return getattr(one, "name", str(one))


NO_ROOM = ("no-room-for-text", "no-room-for-qr")
HELD = "held"
USUAL, EMPTIED, AGAIN_LONG = "usual", "emptied", "again, 60 characters"
GRAMS = {f"{grams} g": grams for grams in (LEAST_G, MOST_G)}


class _Unfinished(Page):
    """A page that is drawn and never written: whether a label has room is known by then."""

    def finish(self) -> bytes:
        return b""


@dataclass(frozen=True)
class Printed:
    """One label as its PDF has it: the boxes of its words and codes, in points, and the words."""

    words: str
    boxes: list[Box]
    codes: list[Box]


def _cases(row: Any) -> dict[str, Any]:
    cases = {name: worded(row, words) for name, words in NAMES.items()}
    cases |= {name: weighing(row, grams) for name, grams in GRAMS.items()}
    cases |= {USUAL: row, EMPTIED: emptied(row)}
    if hasattr(row, "held"):
        cases |= {HELD: replace(cases["60 characters"], held=NAMES["60 characters"] * 2)}
    if hasattr(row, "again"):
        cases |= {"again": replace(row, again=12)}
        cases |= {AGAIN_LONG: replace(cases["60 characters"], again=12)}
    return cases


@cache
def _printed(kind: str, stock: Stock) -> dict[str, Printed | Refusal]:
    """All cases of a kind on a stock, each on a page of its own of one document: what is shared
    by many labels, as typefaces are, is written once.
    """
    draw, row = STRESSED[kind]
    size = stock.width_mm, stock.height_mm
    alone = replace(stock, paper=SHEET, sheet_mm=size, columns=1, rows=1, left_mm=0.0, top_mm=0.0)
    printer = plain_printer(alone, plain_printer(stock).dots_per_inch)
    found: dict[str, Printed | Refusal] = {}
    kept: dict[str, Any] = {}
    for name, case in _cases(row).items():
        try:
            with drawn_on(_Unfinished):
                draw([case], alone, printer, printing.typefaces())
        except Refusal as refusal:
            found[name] = refusal
        else:
            kept[name] = case
    pdf = draw(list(kept.values()), alone, printer, printing.typefaces())
    return found | dict(zip(kept, _pages(pdf), strict=True))


def _pages(pdf: bytes) -> list[Printed]:
    with pypdfium2.PdfDocument(pdf) as document:
        texts = [page.get_textpage() for page in document]
        said = [text.get_text_range() for text in texts]
        boxes = [[text.get_rect(n) for n in range(text.count_rects())] for text in texts]
    codes = printing.codes_by_page(pdf) or [[]] * len(said)  # a jar's front has none
    return [Printed(" ".join(said[at].split()), boxes[at], codes[at]) for at in range(len(said))]


def _check(printed: Printed, stock: Stock) -> None:
    """All words are a millimetre or more from its edges, clear of each other and of codes."""
    point = 72 / 25.4
    right, top = stock.width_mm * point, stock.height_mm * point
    assert printed.boxes
    for box in printed.boxes:
        assert point < box[0] < box[2] < right - point, box
        assert point < box[1] < box[3] < top - point, box
    assert overlapping([*printed.boxes, *printed.codes]) == []


def _on_paper(kind: str, case: str, stock: Stock) -> Printed:
    found = _printed(kind, stock)[case]
    if isinstance(found, Refusal):
        raise found
    _check(found, stock)
    return found


def _on_paper_or_refused(kind: str, case: str, stock: Stock) -> None:
    found = _printed(kind, stock)[case]
    if not isinstance(found, Refusal):
        _check(found, stock)
    elif found.key not in NO_ROOM:
        raise found


@pytest.mark.parametrize(("kind", "stock"), STOCKED, ids=_named)
def test_words_of_any_length_and_script_stay_on_the_label(kind: str, stock: Stock) -> None:
    for words in NAMES:
        _on_paper_or_refused(kind, words, stock)


@pytest.mark.parametrize(("kind", "stock"), STOCKED, ids=_named)
def test_no_weight_and_the_most_have_room(kind: str, stock: Stock) -> None:
    for case, grams in GRAMS.items():
        # A jar of a hundred tonnes may be refused.
        is_jar = kind in (labels.JAR_LABEL, JAR_FRONT)
        (_on_paper_or_refused if is_jar and grams == MOST_G else _on_paper)(kind, case, stock)


@pytest.mark.parametrize(("kind", "stock"), STOCKED, ids=_named)
def test_what_nobody_said_leaves_a_label_that_is_whole(kind: str, stock: Stock) -> None:
    words = _on_paper(kind, EMPTIED, stock).words
    assert "None" not in words
    assert not any(gap in words for gap in (", ,", "()", ": ,"))


@pytest.mark.parametrize(
    ("kind", "stock"), [one for kind in AGAIN for one in _stocked(kind)], ids=_named
)
def test_a_reprint_says_so_with_long_names_too(kind: str, stock: Stock) -> None:
    for case in ("again", AGAIN_LONG):
        assert "eprint 12" in _on_paper(kind, case, stock).words
    assert "eprint" not in _on_paper(kind, USUAL, stock).words


@pytest.mark.parametrize("kind", [labels.DRUM_LABEL, DRUM_STICKER])
def test_what_holds_a_drum_has_room(kind: str) -> None:
    for stock in printing.stocks().fitting(kind):
        words = _on_paper(kind, HELD, stock).words
        assert "Hold" in words
        assert (NAMES["60 characters"][:12] in words) or kind == DRUM_STICKER


def test_what_goes_to_the_shop_never_says_that_it_is_a_reprint() -> None:
    assert set(STRESSED) - set(AGAIN) == {"jar label", "jar front", "jar back", "lid seal"}


@pytest.mark.parametrize("kind", STRESSED)
def test_a_sign_that_cannot_be_printed_is_refused_by_its_name(kind: str) -> None:
    draw, row = STRESSED[kind]
    stock = printing.stocks().fitting(kind)[0]
    with pytest.raises(Refusal) as refused:
        draw([worded(row, EMOJI)], stock, plain_printer(stock), printing.typefaces())
    assert '"🐝" (honeybee, U+1F41D)' in refused.value.text


@pytest.mark.parametrize("script", ["Polish", "Greek", "Cyrillic"])
@pytest.mark.parametrize("kind", [labels.YARD_CODE, labels.BADGE])
def test_a_yard_s_name_stands_whole_where_it_is_of_usual_length(kind: str, script: str) -> None:
    draw, row = STRESSED[kind]
    for stock in printing.stocks().fitting(kind):
        named = [replace(row, name=NAMES[script])]
        pdf = draw(named, stock, plain_printer(stock), printing.typefaces())
        assert NAMES[script] in printing.text_of(pdf)
