"""A label is seen with the very marks that are printed."""

import pypdfium2
import pytest

from honeyledger.assets import resource
from honeyledger.desktop.drawing import label_pdf, seen_label
from honeyledger.desktop.inks import BoxInk, Ink, LineInk, ShapeInk, TextInk
from honeyledger.desktop.seen_page import SeenPage
from honeyledger.documents.fonts import HEAVY, TEXT, Typefaces
from honeyledger.documents.gs1_symbols import fitted, retail_code
from honeyledger.documents.labels import RETAIL_CODE
from honeyledger.documents.stock import plain_printer
from honeyledger.ledger.verbs.bottling import ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.labelling import label_rows
from honeyledger.services.papers import Serials
from tests.support import printing
from tests.support.houses import BuiltHouse
from tests.support.reading import READ


def _page() -> SeenPage:
    return SeenPage((70, 37), Typefaces(resource("fonts")))


def test_marks_are_kept_in_mm_from_the_page_s_corner() -> None:
    page = _page()
    with page.at(10, 20):
        page.rule(1, 2, 3, 4, 0.3)
        page.outline(0, 0, 5, 6, 0.25)
        page.shape([(0, 0), (1, 0), (1, 1)], white=True)
    assert page.inks == [
        LineInk(11, 22, 13, 24, 0.3),
        BoxInk(10, 20, 5, 6, 0.25),
        ShapeInk(((10, 20), (11, 20), (11, 21)), white=True),
    ]


def test_runs_stand_one_behind_the_other_and_are_aligned() -> None:
    page = _page()
    page.runs(30, 10, [("Clover ", TEXT), ("500", HEAVY)], 12)
    first, second = page.inks
    assert isinstance(first, TextInk)
    assert isinstance(second, TextInk)
    assert abs(second.x - first.x - first.width) < 1e-9
    page.text(30, 20, "right", TEXT, 12, 1)
    right = page.inks[-1]
    assert isinstance(right, TextInk)
    assert abs(right.x + right.width - 30) < 1e-9


def test_a_stamp_is_placed_wherever_it_is_put() -> None:
    page = _page()
    with page.stamp("one", 10, 10):
        page.rule(1, 1, 2, 2)
    assert page.inks == [], "made, and not yet on paper"
    for left in (0, 20):
        with page.at(left, 5):
            page.place_stamp("one", 10)
    assert page.inks == [LineInk(1, 6, 2, 7, 0.2), LineInk(21, 6, 22, 7, 0.2)]


def test_a_jar_s_label_is_seen_with_the_words_and_the_modules_it_prints() -> None:
    house = BuiltHouse()
    house.vessel("Tank 1")
    house.do(Register("product", {"name": "Clover 500 g", "net_g": 500}))
    code = house.do(ChangeOver(product="Clover 500 g", feed="Tank 1")).given[0]
    rows = house.house.ask(lambda view: list(label_rows(view, code, Serials(7, 7))))
    seen = seen_label(rows, resource(), {})
    assert seen is not None
    assert (seen.width_mm, seen.height_mm) == (70, 37)
    with pypdfium2.PdfDocument(label_pdf(rows, resource(), "kg")) as document:
        printed = document[0].get_textpage().get_text_bounded().split()
    shown = " ".join(ink.text for ink in seen.inks if isinstance(ink, TextInk)).split()
    assert sorted("".join(printed)) == sorted("".join(shown))
    black = [ink for ink in seen.inks if isinstance(ink, BoxInk) and not ink.white]
    assert len(black) > 100
    assert all(_inside(ink) for ink in seen.inks)


def test_bars_are_seen_as_wide_as_they_are_printed() -> None:
    bars = retail_code("9521234543213")
    page = _page()
    with page.at(1, 2):
        page.bars(3, 4, bars, fitted(bars, (60, 15), 300), 300, 1.5)
    ground, *seen = [ink for ink in page.inks if isinstance(ink, BoxInk)]
    module = 4 / 300 * 25.4
    assert ground == BoxInk(round(4 / 25.4 * 300) / 300 * 25.4, 6, 113 * module, 16.5, white=True)
    assert [ink.width / module for ink in seen] == pytest.approx([wide for _, wide in bars.bars])
    assert [ink.height == 16.5 for ink in seen] == [n in bars.guards for n in range(len(seen))]
    assert seen[0].x == pytest.approx(ground.x + 11 * module)


def _inside(ink: Ink) -> bool:
    """On the label, and not beyond its edge."""
    if isinstance(ink, TextInk):
        return ink.x >= 0 and ink.x + ink.width <= 70 and 0 < ink.y < 37
    if isinstance(ink, BoxInk):
        return ink.x >= 0 and ink.x + ink.width <= 70 and ink.y + ink.height <= 37
    return True


@pytest.mark.parametrize("kind", [kind for kind in READ if kind != RETAIL_CODE])
def test_every_kind_is_seen_as_its_pdf_has_it(kind: str) -> None:
    """The same words in the same places, and as many modules of black as the PDF fills."""
    draw, row = READ[kind]
    seen = seen_label([row], resource(), {})
    assert seen is not None
    stock = printing.stocks().chosen(kind)
    pdf = draw([row], stock, plain_printer(stock), printing.typefaces())
    shown = "".join(ink.text for ink in seen.inks if isinstance(ink, TextInk))
    assert sorted("".join(shown.split())) == sorted("".join(printing.text_of(pdf).split()))
    placed = [
        (one.x / 72 * 25.4 - stock.left_mm, one.side * one.module / 72 * 25.4)
        for one in printing.placed_symbols(pdf)
    ]
    grounds = [
        (ink.x, ink.width)
        for ink in seen.inks
        if isinstance(ink, BoxInk) and ink.white and ink.width == ink.height
    ]
    assert len(placed) == len(grounds) > 0
    for printed, ground in zip(placed, grounds, strict=True):
        assert ground == pytest.approx(printed, abs=0.1)


def test_a_note_is_no_label_to_be_seen() -> None:
    assert seen_label([], resource(), {}) is None
