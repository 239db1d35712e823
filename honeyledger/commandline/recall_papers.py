"""Papers and tables of a recall into files; loaded by name when one is written."""

from pathlib import Path

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import say
from honeyledger.commandline.papers import write_paper, write_table
from honeyledger.commandline.report import parse_copies
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.recall_papers import recall_letters, recall_report
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.exchange.recall_tables import consignee_table, scope_table
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.printed import RECALL_LETTERS, RECALL_REPORT, as_printed
from honeyledger.services.recall_rows import RecallCase, RecallPaper
from honeyledger.services.recalls import recall_case

NOBODY_TO_WRITE_TO = Sentence(
    "recall-nobody-to-write-to",
    "By the books no customer has any of {recall}, so there is no letter to print.",
)


Onto = tuple[str, str, str]
"""The file, the paper and how many copies, as typed."""


def write_report(desk: Desk, case: RecallCase, onto: Onto) -> None:
    """The report as PDF; a name that ends in .csv gives the lots in scope as a table."""
    file, paper, copies = Path(onto[0]), onto[1], parse_copies(onto[2])
    value: dict[str, object] = {
        "file": str(file),
        "recall": case.code,
        "lots": len(case.lots),
    }
    if file.suffix.casefold() == ".csv":
        write_table(file, scope_table(case))
    else:
        faces, size = Typefaces(resource("fonts")), paper or usual_paper(desk.unit)
        mark = _mark(desk, RecallPaper(case, letters=False), RECALL_REPORT)
        value["copies"], value["reprint"] = copies, mark.again
        value["entries"] = write_paper(
            desk,
            file,
            lambda: recall_report(
                case, faces, paper=size, unit=desk.unit, mark=mark, copies=copies
            ),
            [Printed(RECALL_REPORT, case.code, copies)],
        )
    desk.answer(value, lambda: say(f"{case.code}, lots in scope {len(case.lots)}: {file}"))


def write_letters(desk: Desk, case: RecallCase, onto: Onto) -> None:
    """A letter for each customer as one PDF, or all of them as a table for a mail merge."""
    file, paper, copies = Path(onto[0]), onto[1], parse_copies(onto[2])
    rows = [one for one in case.consignees if one.key]
    if not rows:
        raise Refusal(NOBODY_TO_WRITE_TO, field="case", recall=case.code)
    value: dict[str, object] = {
        "file": str(file),
        "recall": case.code,
        "customers": len(rows),
    }
    if file.suffix.casefold() == ".csv":
        write_table(file, consignee_table(case))
    else:
        faces, size = Typefaces(resource("fonts")), paper or usual_paper(desk.unit)
        mark = _mark(desk, RecallPaper(case, letters=True), RECALL_LETTERS)
        value["copies"], value["reprint"] = copies, mark.again
        value["entries"] = write_paper(
            desk,
            file,
            lambda: recall_letters(
                case, rows * copies, faces, paper=size, unit=desk.unit, mark=mark
            ),
            [Printed(RECALL_LETTERS, case.code, copies)],
        )
    noun = "customer" if len(rows) == 1 else "customers"
    desk.answer(value, lambda: say(f"{case.code}, {len(rows)} {noun}: {file}"))


def _mark(desk: Desk, paper: RecallPaper, kind: str) -> RecallPaper:
    """What tells this print from another."""
    now_ms, by = desk.house.clock(), desk.said().operator
    return desk.ask(lambda view: as_printed(view, paper, kind, paper.case.code, now_ms, by))


def write(desk: Desk, text: str, onto: Onto, *, letters: bool) -> None:
    """One of the two."""
    now_ms = desk.house.clock()
    case = desk.ask(lambda view: recall_case(view, now_ms, text))
    (write_letters if letters else write_report)(desk, case, onto)
