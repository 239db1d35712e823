"""Every paper of the office says what it said when it was last read through, page by page."""

import pypdfium2
import pytest

from tests.support import printing
from tests.support.golden_texts import PAPERS, drawn, kept, pages
from tests.support.stress import overlapping

RENEW = "read it, then renew with: python -m tests.support.golden_texts"


@pytest.fixture(scope="module")
def made() -> dict[str, tuple[bytes, bytes]]:
    """All papers, drawn twice."""
    return drawn()


def test_every_paper_is_kept() -> None:
    assert list(kept()) == list(PAPERS), RENEW


@pytest.mark.parametrize("paper", PAPERS)
def test_a_paper_says_the_same_in_the_same_bytes_and_has_a_title(
    paper: str, made: dict[str, tuple[bytes, bytes]]
) -> None:
    pdf, again = made[paper]
    assert list(pages(pdf)) == kept()[paper], RENEW
    assert again == pdf
    with pypdfium2.PdfDocument(pdf) as document:
        assert document.get_metadata_dict()["Title"]
    assert b"/Lang (en)" in pdf
    for page in range(len(printing.page_sizes_mm(pdf))):
        assert overlapping(printing.text_boxes(pdf, page)) == [], page


@pytest.mark.parametrize("paper", [one for one in PAPERS if one != "floor-pad"])
def test_every_page_says_its_number_its_head_and_who_printed_it_when(
    paper: str, made: dict[str, tuple[bytes, bytes]]
) -> None:
    for page in pages(made[paper][0]):
        said = " ".join(page)
        assert "Ledger HEAD" in said
        assert "Page " in said
        assert "Printed 24 Jul 2026 " in said
        if not paper.startswith("recall"):
            assert "by Ann Reed" in said
