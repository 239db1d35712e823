"""The papers of the floor come out on A4, or on Letter where they weigh in pounds."""

import pypdfium2
import pytest

from honeyledger.desktop.sheet_drawing import sheet_pdf
from honeyledger.domain.units import MassUnit
from honeyledger.services.floor_papers import StandingPaper
from tests.support import printing


@pytest.mark.parametrize(("unit", "points"), [("kg", (595, 842)), ("lb", (612, 792))])
def test_on_the_paper_usual_there(unit: MassUnit, points: tuple[int, int]) -> None:
    paper = StandingPaper(printing.HOUSE, "Drum room", "", (), "Printed today", "1 00")
    with pypdfium2.PdfDocument(sheet_pdf(paper, printing.RESOURCES, unit)) as document:
        width, height = document[0].get_size()
    assert (round(width), round(height)) == points
