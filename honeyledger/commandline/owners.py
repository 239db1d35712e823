"""Commands of other people's honey: pooling a run, its statement, and settling it."""

from collections.abc import Sequence
from dataclasses import asdict

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column, say, table
from honeyledger.domain.units import format_moisture, parse_count
from honeyledger.ledger.owners import BOXES, WEIGHED
from honeyledger.ledger.verbs.owners import Pool, Settle
from honeyledger.services import settling

BASIS = {
    WEIGHED: "Shared by the weight of honey taken out of the supers.",
    BOXES: "Shared by the number of supers: not all of them were weighed full and wet.",
}
AS_IT_STANDS = "Not signed: this is how it stands now, and it may change until it is settled."


@click.command(cls=Recording)
@click.argument("code", metavar="RUN")
@click.argument("agreement")
@click.pass_obj
def pool(desk: Desk, code: str, agreement: str) -> None:
    """A run is pooled: its owners agreed to share what comes out.

    \b
    Example: honeyledger pool R26-0003-8 "both agreed by telephone"
    Undo: reverse the entry.
    """
    desk.record(Pool(agreement, code))


@click.command(cls=Recording)
@click.argument("code", metavar="RUN")
@click.option("--kept", metavar="PERMILLE", default="0", help="What the house keeps, in 1000.")
@click.option(
    "--drum",
    "drums",
    nargs=2,
    multiple=True,
    metavar="CODE OWNER",
    help="A drum that becomes an owner's.",
)
@click.option("--note", default="", help="Anything worth knowing.")
@click.pass_obj
def settle(desk: Desk, code: str, kept: str, drums: Sequence[tuple[str, str]], note: str) -> None:
    """A closed run is settled with its owners, by name, to the gram.

    Shares are by weight (boxes in less wet boxes out), or by boxes where not all were weighed.

    \b
    Example: honeyledger settle R26-0003-8 --kept 100 --drum D26-0011-4 "A. Wendt"
    Undo: reverse the entry.
    """
    permille = parse_count(kept, "a number of parts in a thousand", field="kept_permille")
    desk.record(Settle(code, permille, tuple(drums), note))


@click.command(cls=Asking)
@click.argument("code", metavar="RUN")
@click.pass_obj
def statement(desk: Desk, code: str) -> None:
    """Show what a run's owners get, as signed or as it stands now.

    \b
    Example: honeyledger statement R26-0003-8
    """
    found = desk.ask(lambda view: settling.statement(view, code))
    right = ("supers", "in", "taken out", "honey", "kept", "due", "cappings")
    columns = (Column("owner"), *(Column(name, right=True) for name in right))
    rows = [
        [
            row.owner,
            str(row.supers),
            desk.shown(row.in_g),
            "" if row.taken_g is None else desk.shown(row.taken_g),
            desk.shown(row.honey_g),
            desk.shown(row.kept_g),
            desk.shown(row.due_g),
            desk.shown(row.cappings_g),
        ]
        for row in found.rows
    ]

    def show() -> None:
        if not rows:
            say(f"Nothing was loaded in {found.run} yet.")
            return
        table(columns, rows)
        if len(rows) > 1:
            say(BASIS[found.basis])
        if found.moisture is not None:
            say(f"Its drums read {format_moisture(found.moisture)} on average.")
        say(f"Signed in entry {found.signed_in}." if found.signed_in else AS_IT_STANDS)

    desk.answer(asdict(found), show)
