"""Papers and tables of a recall into files; loaded by name when one is written."""

from pathlib import Path

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import say
from honeyledger.commandline.papers import write_pdf, write_table
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.exchange.recall_tables import consignee_table, scope_table
from honeyledger.services.recall_rows import RecallCase
from honeyledger.services.recalls import recall_case

NOBODY_TO_WRITE_TO = Sentence(
    "recall-nobody-to-write-to",
    "By the books no customer has any of {recall}, so there is no letter to print.",
)


def write_report(desk: Desk, case: RecallCase, file: Path, paper: str) -> None:
    """The report as PDF; a name that ends in .csv gives the lots in scope as a table."""
    if file.suffix.casefold() == ".csv":
        write_table(file, scope_table(case))
    else:
        faces, size = Typefaces(resource("fonts")), paper or usual_paper(desk.unit)
        write_pdf(file, recall_report(case, faces, paper=size, unit=desk.unit))
    value = {"file": str(file), "recall": case.code, "lots": len(case.lots)}
    desk.answer(value, lambda: say(f"{case.code}, lots in scope {len(case.lots)}: {file}"))


def write_letters(desk: Desk, case: RecallCase, file: Path, paper: str) -> None:
    """A letter for each customer as one PDF, or all of them as a table for a mail merge."""
    rows = [one for one in case.consignees if one.key]
    if not rows:
        raise Refusal(NOBODY_TO_WRITE_TO, field="case", recall=case.code)
    if file.suffix.casefold() == ".csv":
        write_table(file, consignee_table(case))
    else:
        faces, size = Typefaces(resource("fonts")), paper or usual_paper(desk.unit)
        write_pdf(file, recall_letters(case, rows, faces, paper=size, unit=desk.unit))
    value = {"file": str(file), "recall": case.code, "customers": len(rows)}
    noun = "customer" if len(rows) == 1 else "customers"
    desk.answer(value, lambda: say(f"{case.code}, {len(rows)} {noun}: {file}"))


def write(desk: Desk, text: str, file: str, paper: str, *, letters: bool) -> None:
    """One of the two."""
    now_ms = desk.house.clock()
    case = desk.ask(lambda view: recall_case(view, now_ms, text))
    (write_letters if letters else write_report)(desk, case, Path(file), paper)
