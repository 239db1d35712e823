"""How the papers of the floor are drawn, on the paper usual in the house's office.

Only the lanes come here, by name: what draws a paper takes a while to load.
"""

from pathlib import Path
from typing import Any

from honeyledger.documents.dispatch_note import dispatch_notes, usual_paper
from honeyledger.documents.drum_list import drum_list_pdf
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.foot import Tell, told_pages
from honeyledger.documents.inspection_paper import inspection_pdf
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.documents.report_paper import report_pdf
from honeyledger.documents.run_sheet import run_sheet_pdf
from honeyledger.documents.standing_list import standing_list_pdf
from honeyledger.domain.units import MassUnit
from honeyledger.services.dispatch_paper import DispatchNote
from honeyledger.services.drum_list import DrumList
from honeyledger.services.floor_papers import RunPaper, StandingPaper
from honeyledger.services.inspection import Inspection
from honeyledger.services.recall_rows import RecallPaper
from honeyledger.services.report_tables import Report


def sheet_pdf(
    what: RunPaper | StandingPaper | RecallPaper | Inspection | Report | DispatchNote | DrumList,
    assets: Path,
    unit: MassUnit,
    copies: int = 1,
) -> bytes:
    """A paper as PDF, whatever it tells of, one copy behind the other.

    Raises:
        Refusal: a sign in it cannot be printed.
    """
    faces, paper = Typefaces(assets / "fonts"), usual_paper(unit)
    if isinstance(what, RecallPaper):
        if what.letters:
            rows = [one for one in what.case.consignees if one.key] * copies
            return recall_letters(what.case, rows, faces, paper=paper, unit=unit, mark=what)
        return recall_report(what.case, faces, paper=paper, unit=unit, mark=what, copies=copies)
    if isinstance(what, Report):
        return report_pdf(what, faces, paper=paper, copies=copies)
    if isinstance(what, Inspection):
        return inspection_pdf(what, faces, paper=paper, copies=copies)
    if isinstance(what, RunPaper):
        return run_sheet_pdf(what, faces, paper=paper, unit=unit, copies=copies)
    if isinstance(what, DispatchNote):
        return dispatch_notes([what] * copies, faces, paper=paper, unit=unit)
    if isinstance(what, DrumList):
        return drum_list_pdf(what, faces, paper=paper, unit=unit, copies=copies)
    return standing_list_pdf(what, faces, paper=paper, unit=unit, copies=copies)


def told_pdf(tell: Tell, *paper: Any) -> bytes:
    """The same as `sheet_pdf`, and each page is told of as it is drawn.

    Raises:
        Refusal: as `sheet_pdf`.
    """
    with told_pages(tell):
        return sheet_pdf(*paper)
