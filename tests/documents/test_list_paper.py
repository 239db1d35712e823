"""How lists are set on paper: what stands on which page, and that nothing is lost."""

from collections import Counter
from dataclasses import replace

import pypdfium2
import pytest

from honeyledger.documents.list_paper import ListColumn, ListPaper, ListTable, list_pdf
from honeyledger.domain.refusals import Refusal
from tests.support import printing
from tests.support.stress import overlapping

COLUMNS = (
    ListColumn("Code", 3, is_code=True),
    ListColumn("Yard", 4),
    ListColumn("Honey", 2, "kg", right=True),
)


def _paper(count: int, **more: object) -> ListPaper:
    rows = [(printing.code("D", 600 + at), "Long Field", "290.0") for at in range(count)]
    table = ListTable("Went in", COLUMNS, rows, ("In all", "", "9 999.0"), ticks=True)
    facts = (("Line", "Line A"), ("Opened", "24 Jul 2026 08:40"))
    empty = ListTable("Came out", COLUMNS, [], none="Nothing was filled.")
    says = ("Estimates ran 1.8 % low; this house's usual is 3.8 %.",)
    return ListPaper(
        printing.HOUSE,
        "Run sheet",
        "1317 84EDABD03458",
        (table, empty),
        of=printing.code("R", 26),
        facts=facts,
        says=says,
        sign=("Checked by", "Day and time"),
    )


def _pages(pdf: bytes) -> list[str]:
    with pypdfium2.PdfDocument(pdf) as document:
        return [
            document[at].get_textpage().get_text_bounded().replace("-\r\n", "-")
            for at in range(len(document))
        ]


def test_a_paper_says_all_it_is_given() -> None:
    (page,) = _pages(list_pdf(_paper(3), printing.typefaces()))
    text = " ".join(page.split())
    for said in (
        printing.HOUSE,
        "Run sheet",
        printing.code("R", 26),
        "Line A",
        "24 Jul 2026 08:40",
        "Estimates ran 1.8 % low; this house's usual is 3.8 %.",
        "Went in",
        "Came out",
        "Nothing was filled.",
        "Checked by",
        "Ledger 1317 84EDABD03458",
        "Page 1 of 1",
    ):
        assert said in text, said


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_long_lists_go_over_pages_with_their_head_on_each(size: str) -> None:
    paper = _paper(80)
    pages = _pages(list_pdf(paper, printing.typefaces(), size=size))
    assert len(pages) == 3
    text = "".join(pages)
    assert all(row[0] in text for row in paper.tables[0].rows)
    assert all("Honey" in page for page in pages)
    assert text.count("In all") == 1


@pytest.mark.parametrize("count", range(26, 36))
def test_sums_are_never_alone(count: int) -> None:
    pages = _pages(list_pdf(_paper(count), printing.typefaces()))
    with_sums = next(page for page in pages if "In all" in page)
    assert "Long Field" in with_sums


def test_the_same_paper_is_the_same_bytes() -> None:
    faces = printing.typefaces()
    assert list_pdf(_paper(3), faces) == list_pdf(_paper(3), faces)


def test_another_paper_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        list_pdf(_paper(1), printing.typefaces(), size="a5")
    assert refused.value.key == "note-not-on-paper"


def test_boxes_to_write_in_stand_side_by_side_with_words_to_tick() -> None:
    """Two rows of 20 mm, beside a code at the top that is read back."""
    boxes = ListTable(
        "At the yard",
        (ListColumn("", 1), ListColumn("", 2)),
        (("Day", "Condition\nsealed\nmixed\ngreen"), ("Crew", "Again\nsealed\nmixed\ngreen")),
        box_mm=20,
    )
    paper = replace(_paper(1), tables=(boxes,), scan=printing.code("Y", 1))
    pdf = list_pdf(paper, printing.typefaces())
    tops = Counter(round(top) for _, top, *_ in printing.strokes_mm(pdf))
    first = 75
    assert (tops[first], tops[first + 20]) == (2, 2)  # boxes, one row right under the other
    assert sorted(tops.values())[-2:] == [3, 3]  # words to tick
    text = printing.text_of(pdf)
    assert [word for word in ("Day", "Crew", "Again", "green") if word not in text] == []
    assert printing.read(printing.raster(pdf, 203)) == [printing.code("Y", 1)]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_what_is_signed_and_the_code_never_stand_alone_on_the_last_page(paper: str) -> None:
    counts = set()
    for rows in range(18, 40):
        one = replace(_paper(rows), anchors=True, tables=_paper(rows).tables[:1])
        *_, last = pages = _pages(list_pdf(one, printing.typefaces(), size=paper))
        counts.add(len(pages))
        assert "Checked by" in last
        assert "Head of the ledger" in last
        assert printing.code("D", 600 + rows - 1) in last, rows
        assert "In all" in last
    assert counts == {1, 2}


def test_a_fact_too_long_for_its_line_goes_on_in_a_second_one() -> None:
    kinds = "buckwheat, clover, goldenrod, canola, phacelia"
    pdf = list_pdf(replace(_paper(3), facts=(("Floral kind", kinds),) * 6), printing.typefaces())
    assert printing.text_of(pdf).count(kinds) == 6
    assert overlapping(printing.text_boxes(pdf)) == []
    too_long = replace(_paper(3), facts=(("Floral kind", f"{kinds}, " * 4),))
    assert "…" in printing.text_of(list_pdf(too_long, printing.typefaces()))
