"""What stands on a dispatch note, on how many pages, and that its code scans."""

from dataclasses import replace
from typing import Any

import pypdfium2
import pytest

from honeyledger.documents.dispatch_note import dispatch_notes, usual_paper
from honeyledger.documents.stock import PAPERS
from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from honeyledger.services.dispatch_paper import DispatchNote, NotePaperLine
from tests.support import printing

DRUM = NotePaperLine(
    printing.code("D", 611),
    "Drum 31",
    "moisture 17.4 %, colour 34 mm Pfund",
    False,
    0,
    311_400,
    18_200,
    293_200,
)
JARS = NotePaperLine(
    printing.code("J", 147),
    "Clover 500 g",
    "500 g, best before end 2028",
    True,
    264,
    None,
    None,
    132_000,
)
LONG = "Upper Wolverhampstead-on-the-Marsh behind the old railway station, second gate on the left"


def _note(**changes: Any) -> DispatchNote:
    note = DispatchNote(
        code=printing.code("N", 39),
        house=printing.HOUSE,
        producer="",
        place="12 Mill Road, Eastbrook",
        customer="Corner Shop",
        customer_place="4 Dock Road",
        sent=Moment(1_784_882_400_000, 0, "UTC"),
        signed="Ann Reed",
        carrier="Hill Haulage",
        reference="PO 7",
        lines=(DRUM, JARS),
        head="1317 84EDABD03458",
    )
    return replace(note, **changes)


def _print(note: DispatchNote, paper: str = "a4", unit: MassUnit = "kg") -> bytes:
    return dispatch_notes([note], printing.typefaces(), paper=paper, unit=unit)


def _pages(pdf: bytes) -> int:
    with pypdfium2.PdfDocument(pdf) as document:
        return len(document)


def test_a_note_says_what_goes_to_whom() -> None:
    text = printing.text_of(_print(_note())).replace("- ", "-")
    for said in (
        printing.HOUSE,
        f"Dispatch note {printing.code('N', 39)}",
        "To Corner Shop 4 Dock Road",
        "12 Mill Road, Eastbrook",
        "Sent 24 Jul 2026 08:40",
        "Signed by Ann Reed",
        "Carrier Hill Haulage",
        "Your order PO 7",
        "Lot Goods Jars Gross, kg Tare, kg Net, kg",
        f"{DRUM.code} Drum 31",
        "moisture 17.4 %, colour 34 mm Pfund",
        "311.4 18.2 293.2",
        f"{JARS.code} Clover 500 g",
        f"L {JARS.code}, 500 g, best before end 2028",
        "264 132.0",
        "2 lots 264 425.2",
        "Handed over: name, date",
        "Received: name, date",
        "Honey. Not for infants under one year of age.",
        "Ledger 1317 84EDABD03458",
        "Page 1 of 1",
    ):
        assert said in text, said


def test_drums_alone_have_their_gross_summed_and_no_word_of_jars() -> None:
    text = printing.text_of(_print(_note(lines=(DRUM, replace(DRUM, code="D26-0612-W")))))
    assert "2 lots 622.8 36.4 586.4" in text
    assert "Jars" not in text
    assert "infants" not in text


def test_one_lot_is_one_and_what_was_not_said_can_be_written() -> None:
    text = printing.text_of(_print(_note(lines=(JARS,), carrier="", reference="", signed="")))
    assert "1 lot 264" in text
    assert "Carrier" in text
    assert "Gross" not in text


def test_what_was_told_of_the_transport_stands_below() -> None:
    more = (("Vehicle", "SK 4711"), ("Seals", "A-1, A-2"))
    text = printing.text_of(_print(_note(more=more)))
    assert "Vehicle SK 4711" in text
    assert "Seals A-1, A-2" in text
    assert "Lot Goods" in text


def test_masses_are_in_the_houses_unit() -> None:
    text = printing.text_of(_print(_note(lines=(DRUM,)), unit="lb"))
    assert "Net, lb" in text
    assert "646.4" in text


COUNTS = [1, 7, 8, 9, 16, 17, 18, 19, 40, 66, pytest.param(200, marks=pytest.mark.full)]


@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("line", [DRUM, JARS], ids=["drums", "jars"])
@pytest.mark.parametrize("count", COUNTS)
def test_however_many_lots_each_is_on_a_page_and_the_signatures_on_the_last(
    count: int, line: NotePaperLine, paper: str
) -> None:
    lines = tuple(replace(line, code=printing.code("D", 1 + 3 * at)) for at in range(count))
    pdf = _print(_note(lines=lines), paper)
    text = printing.text_of(pdf).replace("- ", "-")
    for one in lines:
        assert one.code in text
    pages = _pages(pdf)
    assert text.count("Handed over") == 1
    assert text.count("Page ") == pages
    assert text.index(f"Page {pages - 1} of" if pages > 1 else "Sent") < text.index("Handed over")
    lowest = [min(box[1] for box in printing.text_boxes(pdf, page)) for page in range(pages)]
    assert min(lowest) > 12 / 25.4 * 72
    # Nothing stands over anything else: boxes of one page do not cross.
    for page in range(pages):
        boxes = printing.text_boxes(pdf, page)
        assert not any(_cross(a, b) for at, a in enumerate(boxes) for b in boxes[at + 1 :])


def _cross(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    """Whether two pieces of text cover each other by more than a hair, in points."""
    wide = min(a[2], b[2]) - max(a[0], b[0])
    high = min(a[3], b[3]) - max(a[1], b[1])
    return wide > 1 and high > 1


def test_long_names_stay_within_the_paper() -> None:
    lines = tuple(replace(line, goods=LONG, detail=LONG) for line in (DRUM, JARS))
    more = tuple((caption, LONG) for caption in ("Contract", "Vehicle", "Seals", "Container"))
    note = _note(
        more=more,
        house=LONG,
        customer=f"{LONG} {LONG}",
        customer_place=LONG,
        carrier=LONG,
        lines=lines,
    )
    pdf = _print(replace(note, signed=LONG, reference=LONG, place=LONG))
    width = PAPERS["a4"][0] / 25.4 * 72
    boxes = printing.text_boxes(pdf)
    assert max(box[2] for box in boxes) <= width - 17 / 25.4 * 72
    assert not any(_cross(a, b) for at, a in enumerate(boxes) for b in boxes[at + 1 :])


def test_its_code_is_read_from_the_paper() -> None:
    pdf = _print(_note())
    assert printing.read(printing.raster(pdf, 300)) == [printing.code("N", 39)]


def test_the_same_note_is_the_same_bytes() -> None:
    assert _print(_note()) == _print(_note())


def test_each_note_begins_a_page() -> None:
    pdf = dispatch_notes([_note(), _note(customer="Packer")], printing.typefaces())
    assert _pages(pdf) == 2
    assert printing.text_of(pdf).count("Page 1 of 1") == 2


def test_other_paper_and_nothing_are_refused() -> None:
    with pytest.raises(Refusal) as caught:
        _print(_note(), paper="roll")
    assert caught.value.text == (
        "A dispatch note is printed on a4 or letter, not on roll: choose one of the two."
    )
    with pytest.raises(Refusal, match="There is nothing to print"):
        dispatch_notes([], printing.typefaces())


def test_a_house_that_weighs_in_pounds_has_letter_paper() -> None:
    assert [usual_paper(unit) for unit in ("kg", "g", "lb")] == ["a4", "a4", "letter"]


def test_more_than_four_facts_go_on_in_the_next_row() -> None:
    more = tuple((f"Fact {at}", f"value {at}") for at in range(6))
    text = printing.text_of(_print(_note(more=more)))
    assert all(f"value {at}" in text for at in range(6))
    assert _pages(_print(_note(more=more, lines=(DRUM,) * 20))) == _pages(
        _print(_note(lines=(DRUM,) * 20))
    )


# The eight items of Commission Implementing Regulation (EU) No 931/2011, article 3(1), known at
# second hand from summaries of it: check the text in force.
CONSIGNOR, OWNER = "Vale Apiaries, 3 Hill Lane", "Harbour Foods, 9 Quay"
EIGHT = {
    "an accurate description of the food": "moisture 17.4 %, colour 34 mm Pfund",
    "its volume or quantity": "293.2",
    "name and address of who dispatched it": f"{printing.HOUSE} 12 Mill Road, Eastbrook",
    "the consignor or owner, where another dispatched it": f"Consignor {CONSIGNOR}",
    "name and address of who it is dispatched to": "To Corner Shop 4 Dock Road",
    "the consignee or owner, where another receives it": f"Owner from now on {OWNER}",
    "a reference that names the lot": DRUM.code,
    "the date of dispatch": "Sent 24 Jul 2026",
}


@pytest.mark.parametrize("item", EIGHT)
def test_the_eight_items_of_eu_931_2011(item: str) -> None:
    more = (("Consignor", CONSIGNOR), ("Owner from now on", OWNER))
    text = printing.text_of(_print(_note(more=more))).replace("- ", "-")
    assert EIGHT[item] in text, text
