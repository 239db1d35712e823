"""Reports into files. Loaded by name when one is written."""

from pathlib import Path

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import say
from honeyledger.commandline.papers import write_pdf
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.report_paper import report_pdf
from honeyledger.services.report_tables import Report


def write(desk: Desk, report: Report, file: Path, paper: str) -> None:
    """Write a report and say where it is."""
    draw(desk, report, file, paper)
    desk.answer({"file": str(file), "title": report.title}, lambda: say(f"{report.title}: {file}"))


def draw(desk: Desk, report: Report, file: Path, paper: str, copies: int = 1) -> None:
    """Write a report, each copy behind the one before."""
    faces, size = Typefaces(resource("fonts")), paper or usual_paper(desk.unit)
    write_pdf(file, report_pdf(report, faces, paper=size, copies=copies))
