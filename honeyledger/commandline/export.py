"""Tables given out: every posting, for whoever wants to add up the ledger with their own tool."""

from pathlib import Path

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.commandline.papers import write_table
from honeyledger.domain.units import format_number
from honeyledger.exchange.postings_table import postings_table
from honeyledger.services.postings import every_posting
from honeyledger.services.store import View


@click.group(no_args_is_help=True)
def export() -> None:
    """Write the ledger's own rows as a table."""


@export.command(cls=Asking)
@click.option(
    "-o", "--output", "file", required=True, metavar="FILE.csv", help="Where to write it."
)
@click.pass_obj
def postings(desk: Desk, file: str) -> None:
    """Write every posting: entry, time, verb, lot, place, and grams that came (+) or went (-).

    Reversed entries and their reversals are both in it, so that sums over all rows are right as
    they are. Summed by Bucket it is `mass-balance`; summed by Lot and Where, `mass-balance` of a
    lot. Honey that dried has its moisture before and after.

    \b
    Example: honeyledger export postings -o postings.csv
    """

    def question(view: View) -> tuple[bytes, int]:
        return postings_table(every_posting(view))

    data, count = desk.ask(question)
    write_table(Path(file), data)
    value = {"file": file, "postings": count}
    desk.answer(value, lambda: say(f"{format_number(count)} postings: {file}"))
