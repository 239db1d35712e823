"""Reports into files, put on record. Loaded by name when one is written."""

from pathlib import Path

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import say
from honeyledger.commandline.papers import write_paper
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.report_paper import report_pdf
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.report_tables import Report


def write(desk: Desk, report: Report, fact: Printed, file: Path, paper: str) -> None:
    """Write a report, each copy behind the one before, and say where it is."""
    faces, size = Typefaces(resource("fonts")), paper or usual_paper(desk.unit)
    entries = write_paper(
        desk,
        file,
        lambda: report_pdf(report, faces, paper=size, copies=fact.copies),
        [fact],
    )
    value = {
        "file": str(file),
        "title": report.title,
        "copies": fact.copies,
        "reprint": report.again,
        "entries": entries,
    }
    again = f", reprint {report.again}" if report.again else ""
    desk.answer(value, lambda: say(f"{report.title}{again}: {file}"))
