"""The inspector's pack for one jar or lot, into a file."""

from pathlib import Path

import click

from honeyledger.assets import resource
from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.papers import write_pdf
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.inspection_paper import inspection_pdf
from honeyledger.services.inspection import inspection


@click.command(cls=Asking)
@click.argument("code")
@click.option(
    "-o", "--output", "file", required=True, metavar="FILE.pdf", help="The PDF to write."
)
@click.option("--paper", default="", help="a4 or letter.")
@click.pass_obj
def inspector(desk: Desk, code: str, file: str, paper: str) -> None:
    """Write one pack for an inspector about CODE, a jar or a lot; no customer is in it.

    Sources with shares, what was done in their yards, readings, washes and checks of the days on
    which it was made, its history, complaints.

    \b
    Example: honeyledger inspector J26-0004-T -o pack.pdf
    """
    now_ms = desk.house.clock()
    pack = desk.ask(lambda view: inspection(view, now_ms, code))
    size = paper or usual_paper(desk.unit)
    write_pdf(Path(file), inspection_pdf(pack, Typefaces(resource("fonts")), paper=size))
    value = {"file": file, "code": pack.code, "sources": len(pack.sources)}
    desk.answer(value, lambda: output.say(f"{pack.code}: {file}"))
