"""The paper pad: a sheet a place, each with blank lines and what the forms ask for."""

import pypdfium2
import pytest

from honeyledger.documents.floor_pad import HOW, floor_pad
from honeyledger.documents.fonts import Typefaces
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit
from tests.support import printing

FACES = Typefaces(printing.RESOURCES / "fonts")


def _pages(paper: str = "a4", unit: MassUnit = "kg") -> list[str]:
    data = floor_pad(printing.HOUSE, FACES, paper=paper, unit=unit)
    with pypdfium2.PdfDocument(data) as document:
        return [page.get_textpage().get_text_bounded() for page in document]


def test_every_place_has_its_sheet_with_its_columns() -> None:
    dock, floor, filler = _pages()
    for text in (dock, floor, filler):
        assert printing.HOUSE in text
        assert HOW in text
        assert "When" in text
    for word in ("Yard, or the code on its sheet", "Supers", "Box", "Gross kg", "Crew"):
        assert word in dock
    for word in ("Pallet, drum or vessel", "Gross kg", "Tare kg"):
        assert word in floor
    assert floor.count("cappings") >= 15, "a box to tick on every line"
    for word in ("Counter, case", "Jars", "Net kg"):
        assert word in filler
    assert filler.count("change") >= 15


def test_letter_and_pounds() -> None:
    assert "Gross lb" in _pages("letter", "lb")[0]


def test_the_same_pad_is_the_same_bytes() -> None:
    one, other = (floor_pad("House", FACES, paper="a4", unit="kg") for _ in range(2))
    assert one == other


def test_another_paper_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        _pages("a5")
    assert refused.value.key == "note-not-on-paper"
