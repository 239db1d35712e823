"""How the papers of the floor are drawn, on the paper usual in the house's office.

Only the lanes come here, by name: what draws a paper takes a while to load.
"""

from pathlib import Path

from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.inspection_paper import inspection_pdf
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.documents.report_paper import report_pdf
from honeyledger.documents.run_sheet import run_sheet_pdf
from honeyledger.documents.standing_list import standing_list_pdf
from honeyledger.domain.units import MassUnit
from honeyledger.services.floor_papers import RunPaper, StandingPaper
from honeyledger.services.inspection import Inspection
from honeyledger.services.recall_rows import RecallPaper
from honeyledger.services.report_tables import Report


def sheet_pdf(
    what: RunPaper | StandingPaper | RecallPaper | Inspection | Report,
    assets: Path,
    unit: MassUnit,
) -> bytes:
    """A paper as PDF, whatever it tells of.

    Raises:
        Refusal: a sign in it cannot be printed.
    """
    faces, paper = Typefaces(assets / "fonts"), usual_paper(unit)
    if isinstance(what, RecallPaper):
        if what.letters:
            rows = [one for one in what.case.consignees if one.key]
            return recall_letters(what.case, rows, faces, paper=paper, unit=unit)
        return recall_report(what.case, faces, paper=paper, unit=unit)
    if isinstance(what, Report):
        return report_pdf(what, faces, paper=paper)
    if isinstance(what, Inspection):
        return inspection_pdf(what, faces, paper=paper)
    if isinstance(what, RunPaper):
        return run_sheet_pdf(what, faces, paper=paper, unit=unit)
    return standing_list_pdf(what, faces, paper=paper, unit=unit)
