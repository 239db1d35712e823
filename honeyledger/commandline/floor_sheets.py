"""Papers of the floor into files: a run's sheet, and what a row is walked with.

Loaded by name when one is written: what draws a paper takes a while to load.
"""

from pathlib import Path

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.output import say
from honeyledger.commandline.papers import write_paper
from honeyledger.commandline.report import parse_copies
from honeyledger.commandline.run_sheet import sheet_of
from honeyledger.documents.dispatch_note import usual_paper
from honeyledger.documents.fonts import Typefaces
from honeyledger.documents.run_sheet import run_sheet_pdf
from honeyledger.documents.standing_list import standing_list_pdf
from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.floor_papers import run_paper, standing_of, standing_paper
from honeyledger.services.printed import RUN_SHEET, STANDING_LIST


def write_run(desk: Desk, text: str, onto: tuple[str, str, str]) -> None:
    """Write a run's sheet; the newest run's where none is named.

    Args:
        onto: the file, the paper and how many copies, as typed.
    """
    (file, paper, typed), faces = onto, Typefaces(resource("fonts"))
    copies = parse_copies(typed)
    now_ms, by = desk.house.clock(), desk.said().operator
    what = desk.ask(
        lambda view: run_paper(view, sheet_of(view, text, now_ms).run.code, now_ms, by)
    )
    size = paper or usual_paper(desk.unit)
    run = what.sheet.run.code
    entries = write_paper(
        desk,
        Path(file),
        lambda: run_sheet_pdf(what, faces, paper=size, unit=desk.unit, copies=copies),
        [Printed(RUN_SHEET, run, copies)],
    )
    value = {"file": file, "copies": copies, "run": run, "reprint": what.again, "entries": entries}
    desk.answer(value, lambda: say(f"{run}: {file}"))


def write_standing(desk: Desk, where: tuple[str, str], onto: tuple[str, str, str]) -> None:
    """Write what should stand in a room and a row; `onto` as for a run."""
    (file, paper, typed), faces = onto, Typefaces(resource("fonts"))
    copies = parse_copies(typed)
    now_ms, by = desk.house.clock(), desk.said().operator
    what = desk.ask(lambda view: standing_paper(view, *where, now_ms, by))
    size = paper or usual_paper(desk.unit)
    entries = write_paper(
        desk,
        Path(file),
        lambda: standing_list_pdf(what, faces, paper=size, unit=desk.unit, copies=copies),
        [Printed(STANDING_LIST, standing_of(what.room, what.row), copies)],
    )
    count = len(what.rows)
    said = f"{count} that should stand there: {file}"
    value = {
        "file": file,
        "copies": copies,
        "standing": count,
        "reprint": what.again,
        "entries": entries,
    }
    desk.answer(value, lambda: say(said))
