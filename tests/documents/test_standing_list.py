"""What stands on the sheet a row is walked with."""

from honeyledger.documents.standing_list import standing_list_pdf
from honeyledger.domain.moments import Moment
from honeyledger.services.floor_papers import StandingPaper
from honeyledger.services.rooms import StandsHere
from tests.support import printing

NOW = Moment(1_784_882_400_000, 0, "UTC")
DRUM = StandsHere(printing.code("D", 1), "drum", "B3", 280_000, 0, NOW, False, True)
JARS = StandsHere(printing.code("C", 1), "case", "B3", 0, 12, NOW, True, True)


def _words(*rows: StandsHere, row: str = "B3") -> str:
    printed, head = "Printed 24 Jul 2026 08:40", "1 84EDABD03458"
    paper = StandingPaper(printing.HOUSE, "Drum room", row, rows, printed, head)
    text = printing.text_of(standing_list_pdf(paper, printing.typefaces()))
    return " ".join(text.replace("- ", "-").split())


def test_what_a_row_is_walked_with() -> None:
    words = _words(DRUM, JARS)
    for said in (
        "What should stand there",
        "Room Drum room",
        "24 Jul 2026 08:40",
        f"B3 {DRUM.code} drum 24 Jul 2026 280.0 on hold",
        f"B3 {JARS.code} case 24 Jul 2026 12 missing, on hold",
        "2 in all 280.0",
        "Stands there, and is not on the list",
        "Walked by",
    ):
        assert said in words, said


def test_an_empty_room_says_so() -> None:
    words = _words(row="")
    assert "Row all" in words
    assert "Nothing should stand there." in words
