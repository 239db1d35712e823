"""The inspector's pack for one jar or lot, into a file."""

from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.commandline.papers import write_paper
from honeyledger.commandline.report import parse_copies
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.inspection_paper import inspection_pdf
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.inspection import inspection
from honeyledger.services.printed import INSPECTORS_PACK


@click.command(cls=Recording)
@click.argument("code")
@click.option(
    "-o", "--output", "file", required=True, metavar="FILE.pdf", help="The PDF to write."
)
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def inspector(desk: Desk, code: str, file: str, paper: str, copies: str) -> None:
    """Write one pack for an inspector about CODE, a jar or a lot; no customer is in it.

    Sources with shares, what was done in their yards, readings, washes and checks of the days on
    which it was made, its history, complaints.

    \b
    Example: honeyledger inspector J26-0004-T -o pack.pdf
    Undo: throw the paper away and reverse the entry: no gram moves by it.
    """
    many = parse_copies(copies)
    now_ms, by = desk.house.clock(), desk.said().operator
    pack = desk.ask(lambda view: inspection(view, now_ms, code, by))
    size = paper or usual_paper(desk.unit)
    faces = Typefaces(resource("fonts"))
    entries = write_paper(
        desk,
        Path(file),
        lambda: inspection_pdf(pack, faces, paper=size, copies=many),
        [Printed(INSPECTORS_PACK, pack.code, many)],
    )
    value = {
        "file": file,
        "code": pack.code,
        "sources": len(pack.sources),
        "copies": many,
        "reprint": pack.again,
        "entries": entries,
    }
    desk.answer(value, lambda: output.say(f"{pack.code}: {file}"))
