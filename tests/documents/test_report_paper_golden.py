"""Every paper of the office says who printed it, when, at which head, and nothing covers it.

What else it says, and where, is kept in tests/data/papers.
"""

import re

import pypdfium2
import pytest

from tests.support import golden, printing
from tests.support.office_papers import OFFICE, SEASON
from tests.support.stress import overlapping

HEAD = re.compile(r"Ledger( head)? \d+ [0-9A-F]{12}")
MADE_UP = {"truck-sheet": "Ledger 9 AB", "season-plan": "Ledger 7 ABC"}


@pytest.mark.parametrize("paper", [*OFFICE, *SEASON])
def test_a_paper_has_a_title_a_language_and_no_lines_over_one_another(paper: str) -> None:
    pdf = golden.papers()[paper][""]
    with pypdfium2.PdfDocument(pdf) as document:
        assert document.get_metadata_dict()["Title"]
    assert b"/Lang (en)" in pdf
    for page in range(len(printing.page_sizes_mm(pdf))):
        assert overlapping(printing.text_boxes(pdf, page)) == [], page


@pytest.mark.parametrize("paper", [one for one in (*OFFICE, *SEASON) if one != "floor-pad"])
def test_every_page_says_its_number_its_head_and_who_printed_it_when(paper: str) -> None:
    with pypdfium2.PdfDocument(golden.papers()[paper][""]) as document:
        for page in document:
            said = " ".join(page.get_textpage().get_text_range().split())
            assert HEAD.search(said) or MADE_UP.get(paper, "no head") in said, said
            assert "Page " in said
            assert "Printed 24 Jul 2026 " in said
            if not paper.startswith("recall"):
                assert "by Ann Reed" in said
