"""A residue's spread on the terminal: the level to expect in all that was made of something."""

from collections.abc import Sequence
from dataclasses import asdict
from fractions import Fraction

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.domain.units import format_number, format_share
from honeyledger.services.residues import (
    CAUTION,
    THOUSAND,
    UNIT,
    ResidueLot,
    ResidueSpread,
    parse_level,
    residue_spread,
)


@click.command(cls=Asking)
@click.argument("code")
@click.option("--level", required=True, metavar="FIGURE", help=f"What was found there, {UNIT}.")
@click.option("--limit", metavar="FIGURE", help=f"The limit you hold it against, {UNIT}.")
@click.option("--from", "first", metavar="DAY", help="Of a yard: pulls from this day on.")
@click.option("--to", "last", metavar="DAY", help="Of a yard: pulls up to this day.")
@click.pass_obj
def residue(
    desk: Desk, code: str, level: str, limit: str | None, first: str | None, last: str | None
) -> None:
    """Show what a residue in CODE comes to in all that was made of it, at most and as expected.

    CODE is a yard, a supplier, a lot or a drum.

    \b
    Example: honeyledger residue "Mill Lane" --level 40 --limit 10 --from "1 Jul"
    """
    figures = (
        parse_level(level, "level"),
        None if limit is None else parse_level(limit, "limit"),
    )
    days = (desk.day(first, "first_day"), desk.day(last, "last_day"))
    found = desk.ask(lambda view: residue_spread(view, code, *figures, *days))
    desk.answer({**asdict(found), "unit": f"thousandths of {UNIT}"}, lambda: _show(desk, found))


def _show(desk: Desk, found: ResidueSpread) -> None:
    columns = [
        Column("lot"),
        Column("what"),
        Column("share", right=True),
        Column("expected", right=True),
        Column("at most", right=True),
        Column("here", right=True),
        Column("sent", right=True),
        *([Column("limit")] if found.limit is not None else []),
    ]
    output.table(columns, [_row(desk, row, found) for row in found.lots])
    output.say(f"Levels in {UNIT}.")
    output.say(CAUTION)


def _row(desk: Desk, row: ResidueLot, found: ResidueSpread) -> Sequence[str]:
    return [
        row.code,
        row.noun,
        format_share(row.share),
        format_number(Fraction(row.expected, THOUSAND), 2),
        format_number(Fraction(row.most, THOUSAND), 2),
        desk.shown(row.here_g),
        desk.shown(row.sent_g),
        *([row.judged] if found.limit is not None else []),
    ]
