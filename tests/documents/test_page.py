"""Drawing in millimetres from the upper left corner."""

import pytest
from pypdfium2 import PdfDocument
from zxingcpp import read_barcodes

from honeyledger.documents.fonts import CODE, CODE_HEAVY, TEXT, Typefaces
from honeyledger.documents.gs1_symbols import fitted, retail_code
from honeyledger.documents.page import Page, code_runs, code_width_mm, drawn_on, new_page
from honeyledger.documents.symbols import make_symbol
from tests.support import printing


def _page() -> Page:
    page = Page("A test", (50, 30), printing.typefaces())
    page.begin_page()
    return page


@pytest.mark.parametrize(
    ("code", "called"),
    [("D26-0611-Y", "0611"), ("KB-D26-0611-3", "0611"), ("J26-0147-00382-F", "00382")],
)
def test_the_number_people_call_out_stands_out(code: str, called: str) -> None:
    printing.typefaces()
    runs = code_runs(code)
    assert "".join(text for text, _ in runs) == code
    assert [text for text, face in runs if face == CODE_HEAVY] == [called]
    assert code_width_mm(code, 10) == pytest.approx(len(code) * 6 * 25.4 / 72)
    assert {face for _, face in runs} == {CODE, CODE_HEAVY}


def test_text_is_set_from_the_left_the_middle_or_the_right() -> None:
    page = _page()
    for y, align in ((5, 0.0), (15, 0.5), (25, 1.0)):
        page.text(25, y, "HHHH", TEXT, 12, align)
    boxes = [[side * 25.4 / 72 for side in box] for box in printing.text_boxes(page.finish())]
    assert boxes[0][0] == pytest.approx(25, abs=0.5)
    assert (boxes[1][0] + boxes[1][2]) / 2 == pytest.approx(25, abs=0.1)
    assert boxes[2][2] == pytest.approx(25, abs=0.5)
    assert [30 - box[1] for box in boxes] == pytest.approx([5, 15, 25], abs=0.05)


def test_boxes_lines_and_shapes_are_black_where_they_should_be() -> None:
    page = _page()
    page.outline(5, 5, 10, 10, 1.0)
    page.rule(20, 10, 30, 10, 1.0)
    with page.at(35, 5):
        page.shape([(0, 0), (10, 0), (10, 10), (0, 10)])
        page.shape([(4, 4), (6, 4), (6, 6), (4, 6)], white=True)
    image = printing.raster(page.finish(), 254)  # ten dots a millimetre
    black = {(x, y) for x in range(500) for y in range(300) if image.getpixel((x, y)) == 0}
    assert {(55, 55), (145, 145), (250, 99), (360, 60), (440, 140)} <= black
    assert not {(100, 100), (45, 100), (250, 80), (400, 100), (340, 60)} & black


def test_a_stamp_is_drawn_once_and_placed_often() -> None:
    page = _page()
    with page.stamp("mark", 10, 10):
        page.text(1, 5, "HONEY", TEXT, 6)
    for left in (0, 20, 35):
        with page.at(left, 8):
            page.place_stamp("mark", 10)
    pdf = page.finish()
    assert printing.text_of(pdf).split() == ["HONEY"] * 3
    assert pdf.count(b"/Subtype /Form") == 1
    boxes = [[side * 25.4 / 72 for side in box] for box in printing.text_boxes(pdf)]
    assert [box[0] for box in boxes] == pytest.approx([1, 21, 36], abs=0.3)
    assert [30 - box[1] for box in boxes] == pytest.approx([13] * 3, abs=0.1)


@pytest.mark.parametrize("x", [0.0, 3.333, 7.07])
def test_a_symbol_lies_on_the_nearest_dots(x: float) -> None:
    page = _page()
    with page.at(x, 1.234):
        page.symbol(1, 1, make_symbol("D26-0611-Y"), 4, 300)
    (placed,) = printing.placed_symbols(page.finish())
    dot = 72 / 300
    assert placed.x / dot == pytest.approx(round((x + 1) / 25.4 * 300), abs=1e-3)
    assert placed.module / dot == pytest.approx(4)
    assert placed.side == 29


def test_a_symbol_has_its_own_white_ground() -> None:
    page = _page()
    page.shape([(0, 0), (50, 0), (50, 30), (0, 30)])
    page.symbol(5, 5, make_symbol("D26-0611-Y"), 6, 300)
    assert printing.read(printing.raster(page.finish(), 300)) == ["D26-0611-Y"]


@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
def test_bars_lie_on_whole_dots_and_reach_down_where_they_guard(dots_per_inch: int) -> None:
    bars = retail_code("9521234543213")
    size = fitted(bars, (46, 20), dots_per_inch)
    page = _page()
    page.shape([(0, 0), (50, 0), (50, 30), (0, 30)])
    with page.at(1.234, 2):
        page.bars(1, 1, bars, size, dots_per_inch, 1.5)
    pdf = page.finish()
    ((left, bottom, right, top),) = printing.placed_bars(pdf)
    dot = 72 / dots_per_inch
    assert left / dot == pytest.approx(round(2.234 / 25.4 * dots_per_inch), abs=1e-3)
    assert (right - left) / dot == pytest.approx(size.dots * bars.modules_with_quiet, abs=0.01)
    assert top - bottom == pytest.approx((20 + 1.5) * 72 / 25.4, abs=0.01)
    image = printing.raster(pdf, dots_per_inch)
    assert [one.text for one in read_barcodes(image)] == [bars.text]

    def black(y_mm: float) -> int:
        y = round(y_mm / 25.4 * dots_per_inch)
        inner = round(left / dot), round(right / dot)
        return sum(image.getpixel((x, y)) == 0 for x in range(*inner)) // size.dots

    assert black(10) == sum(width for _, width in bars.bars)
    assert black(2 + 1 + 20.8) == len(bars.guards), "guard bars are one module wide"


def test_a_document_says_its_title_and_its_language() -> None:
    pdf = _page().finish()
    with PdfDocument(pdf) as document:
        assert document.get_metadata_value("Title") == "A test"
        assert document.get_metadata_value("Producer") == "Honeyledger"
    assert b"/Lang (en)" in pdf


def test_pages_follow_one_another() -> None:
    page = _page()
    page.text(5, 10, "first", TEXT, 10)
    page.begin_page()
    page.text(5, 10, "second", TEXT, 10)
    pdf = page.finish()
    assert len(printing.page_sizes_mm(pdf)) == 2
    assert printing.text_of(pdf).split() == ["first", "second"]


def test_papers_can_be_drawn_on_another_kind_of_page_for_a_while() -> None:
    made: list[str] = []

    def another(title: str, size: tuple[float, float], faces: Typefaces) -> Page:
        made.append(title)
        return Page(title, size, faces)

    with drawn_on(another):
        new_page("kept", (70, 40), printing.typefaces())
    new_page("written", (70, 40), printing.typefaces())
    assert made == ["kept"]
