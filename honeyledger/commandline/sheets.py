"""Papers by their kind into a file: receipts, tickets, histories, traces, lists, logs."""

import importlib
from pathlib import Path

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.commandline.output import Column
from honeyledger.commandline.report import SHEETS, parse_copies
from honeyledger.services.paper_kinds import KINDS, paper_of, put_on_record


@click.command(cls=Recording)
@click.argument("kind", required=False, default="")
@click.argument("about", required=False, default="")
@click.option("-o", "--output", "file", default="", metavar="FILE.pdf", help="The PDF to write.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.option("--paper", "size", default="", help="a4 or letter.")
@click.pass_obj
def paper(desk: Desk, kind: str, about: str, file: str, copies: str, size: str) -> None:
    """Print a paper of KIND to a PDF, ABOUT a lot, a pallet, a day or a year.

    Without KIND, all kinds are listed with what each is about. Every page says which it is of how
    many, when it was printed and by whom, and carries the ledger's head. What is printed is put on
    record: the second print of a paper says that it is reprint 1.

    \b
    Example: honeyledger paper lot-history D26-0011-4 -o history.pdf
    Undo: throw the paper away and reverse the entry: no gram moves by it.
    """
    if not kind:
        _list(desk)
        return
    now_ms, operator = desk.house.clock(), desk.said().operator
    report = desk.ask(lambda view: paper_of(view, now_ms, kind, about, operator))
    target = Path(file or f"{' '.join(part for part in (kind, report.of) if part)}.pdf")
    fact = put_on_record(kind, about, report, parse_copies(copies))
    importlib.import_module(SHEETS).write(desk, report, fact, target, size)


def _list(desk: Desk) -> None:
    rows = [(name, one.title, one.about) for name, one in KINDS.items()]
    value = [{"kind": name, "title": title, "about": about} for name, title, about in rows]
    columns = (Column("kind"), Column("paper"), Column("about", wraps=True))
    desk.answer(value, lambda: output.table(columns, [list(row) for row in rows]))
