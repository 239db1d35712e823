"""A river on paper: as wide as its shares, named, and never more bands than can be told apart."""

from honeyledger.documents.list_paper import ListPaper, list_pdf
from honeyledger.documents.river import river_mm
from tests.support import printing

LONG = "Upper Meadow behind the Old Quarry at the Bend of the Stream"


def _words(bands: tuple[tuple[str, float], ...]) -> str:
    paper = ListPaper(
        printing.HOUSE, "Trace report", "1 84EDABD03458", (), printing.code("J", 1), bands=bands
    )
    return printing.text_of(list_pdf(paper, printing.typefaces()))


def test_each_source_has_its_name_and_share() -> None:
    words = _words((("Clover Rise", 0.75), ("Low Ford", 0.25)))
    for said in ("Clover Rise", "75.0 %", "Low Ford", "25.0 %"):
        assert said in words


def test_a_name_of_sixty_letters_keeps_its_ends() -> None:
    words = _words(((LONG, 1.0),))
    assert "Upper Mea" in words
    assert "Stream" in words
    assert LONG not in words


def test_the_smallest_of_many_are_one_band() -> None:
    many = tuple((f"Yard {n}", 1 / 25) for n in range(25))
    words = _words(many)
    assert "16 more" in words
    assert "64.0 %" in words
    assert river_mm(many) == river_mm(many[:10])
