"""The head on paper is read by a scanner as the audit takes it, and by a person in fours."""

from honeyledger.documents.anchor import WORDS, draw_anchor
from honeyledger.documents.page import new_page
from honeyledger.documents.stock import PAPERS
from tests.support import printing


def test_a_scanner_and_a_person_read_the_same_head() -> None:
    page = new_page("Head", PAPERS["a4"], printing.typefaces())
    page.begin_page()
    draw_anchor(page, "1317 C002F800AB12", (16, 20, 178))
    pdf = page.finish()
    words = " ".join(printing.text_of(pdf).split())
    assert "Head of the ledger: entry 1317, C002 F800 AB12" in words
    assert WORDS in words
    (symbol,) = printing.placed_symbols(pdf)
    assert symbol.side >= 21
    assert printing.read(printing.raster(pdf, 203)) == ["C002F800AB12:1317"]
