"""Parts that labels share."""

import pytest

from honeyledger.documents.fonts import STRONG, TEXT
from honeyledger.documents.page import Page
from honeyledger.documents.parts import Job
from honeyledger.documents.setting import Block
from honeyledger.documents.stock import plain_printer
from honeyledger.documents.symbols import make_symbol
from honeyledger.domain.refusals import Refusal
from tests.support import printing

LONG = "Upper Wolverhampstead-on-the-Marsh behind the old railway station, second gate"


@pytest.fixture
def job() -> Job:
    stock = printing.stocks().named("roll-100x60")
    page = Page("A test", stock.page_mm, printing.typefaces())
    page.begin_page()
    return Job(page, stock, plain_printer(stock), "kg")


def test_a_figure_that_does_not_fit_is_refused_but_a_name_is_shortened(job: Job) -> None:
    with pytest.raises(Refusal, match="has no room"):
        job.line(Block(LONG, TEXT, 12, 8), 5, 5, 50)
    job.name(Block(LONG, TEXT, 12, 8), 5, 5, 50)
    job.name(Block("", TEXT, 12, 8), 5, 15, 50)
    text = printing.text_of(job.page.finish())
    assert text.startswith("Upper W")
    assert text.endswith("second gate")
    assert "…" in text


def test_names_fill_their_lines_before_they_are_shortened(job: Job) -> None:
    job.names([Block(LONG, STRONG, 13, 7, most_lines=2)], 5, 5, 40, 8)
    shown = printing.text_of(job.page.finish())
    assert "…" in shown
    assert len(shown) > 35


def test_a_fact_without_value_leaves_a_line_to_write_on(job: Job) -> None:
    job.facts([("Filled", ""), ("Run", "R26-0009-H")], 10, 5, 2)
    pdf = job.page.finish()
    assert printing.text_of(pdf) == "Filled Run R26-0009-H"
    image = printing.raster(pdf, 254)
    column = [image.getpixel((100, y)) for y in range(100, 215)]
    assert 0 in column
    assert image.getpixel((600, 185)) == 255


def test_facts_run_in_columns_and_say_where_they_end(job: Job) -> None:
    facts = [(f"Fact {number}", str(number)) for number in range(5)]
    assert job.facts(facts, 10, 5, 2, 10) == 40
    assert job.facts(facts[:4], 10, 5, 4, 10) == 20


@pytest.mark.parametrize(("x", "left"), [(2.0, 4 * 1.0), (9.0, 9.0)])
def test_the_ink_of_a_symbol_begins_at_x_unless_the_quiet_zone_has_no_room(
    job: Job, x: float, left: float
) -> None:
    side = job.symbol(make_symbol("D26-0611-Y"), x, 10, 40, 1.002)
    (placed,) = printing.placed_symbols(job.page.finish())
    module = placed.module * 25.4 / 72
    ink_left = placed.x * 25.4 / 72 + 4 * module
    assert ink_left == pytest.approx(left, abs=0.15)
    assert x + side == pytest.approx(ink_left + 21 * module, abs=0.15)


def test_what_stays_white_beside_a_symbol_is_four_of_its_modules(job: Job) -> None:
    symbol = make_symbol("D26-0611-Y")
    side = job.symbol(symbol, 9, 10, 40, 1.002)
    assert side == pytest.approx(job.symbol_mm(symbol, 40, 1.002), abs=0.01)
    (placed,) = printing.placed_symbols(job.page.finish())
    assert job.quiet_mm(symbol, side) == pytest.approx(4 * placed.module * 25.4 / 72, abs=0.01)
