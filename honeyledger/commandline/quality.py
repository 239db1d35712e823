"""Commands of quality: samples, holds, clearing, releasing."""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import say_day
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release, Sample
from honeyledger.services.holding import HoldRow, hold_rows


@click.command("draw-sample", cls=Recording)
@click.argument("lots", nargs=-1, required=True)
@click.option(
    "--net",
    required=True,
    metavar="WEIGHT",
    help="Weight of the sample, from all lots together.",
)
@click.option("--kept-at", default="", help="Where it is kept.")
@click.option("--purpose", default="", help="What it is for, such as before shipment.")
@click.option("--customer", default="", help="Who is to judge it; see approve.")
@click.pass_obj
def draw_sample(
    desk: Desk, lots: Sequence[str], net: str, kept_at: str, purpose: str, customer: str
) -> None:
    """Draw a sample from one lot or more.

    \b
    Example: honeyledger draw-sample D26-0011-4 --net 0.25 --kept-at "shelf 2"
    Undo: reverse the entry.
    """
    desk.record(Sample(tuple(lots), desk.the_mass(net, "net_g"), kept_at, purpose, customer))


@click.command(cls=Recording)
@click.argument("target")
@click.option("--reason", default="", help="Why.")
@click.option("--from", "first", metavar="DAY", help="Of a yard: pulls from this day on.")
@click.option("--to", "last", metavar="DAY", help="Of a yard: pulls up to this day.")
@click.pass_obj
def hold(desk: Desk, target: str, reason: str, first: str | None, last: str | None) -> None:
    """Put a lot, a pallet or a yard's pulls on hold.

    What is made of it is held too; nothing held leaves the house.

    \b
    Example: honeyledger hold "Mill Lane" --from "1 Jul" --reason "strips in hives"
    Undo: release it, by name.
    """
    desk.record(
        PutOnHold(target, reason, desk.day(first, "first_day"), desk.day(last, "last_day"))
    )


@click.command(cls=Recording)
@click.argument("lot")
@click.option(
    "--hold",
    "of",
    required=True,
    metavar="HOLD",
    help="The hold: its number, or the code it stands on.",
)
@click.option("--result", default="", help="What was found.")
@click.option("--reason", default="", help="Why that frees it.")
@click.option("--second", default="", metavar="WHO", help="Who agrees, where two have to.")
@click.pass_obj
def clear(desk: Desk, lot: str, of: str, result: str, reason: str, second: str) -> None:
    """Free one lot of a hold that stays.

    \b
    Example: honeyledger clear D26-0011-4 --hold "Mill Lane" --result "none found" --operator Ann
    Undo: reverse the entry: it is held again.
    """
    desk.record(Clear(lot, of, result, reason, second))


@click.command(cls=Recording)
@click.argument("hold", metavar="HOLD")
@click.option("--reason", default="", help="Why it ends.")
@click.option("--certificate", default="", help="Of bought-in honey that came without one.")
@click.option("--supplier-lot", default="", help="The supplier's lot, where it came without.")
@click.option("--country", default="", help="Its country, where it came without.")
@click.option("--second", default="", metavar="WHO", help="Who agrees, where two have to.")
@click.pass_obj
def release(desk: Desk, /, hold: str, reason: str, **more: str) -> None:
    """End a hold.

    HOLD is its number, or the code or yard it stands on.

    \b
    Example: honeyledger release "Mill Lane" --reason "none found" --operator Ann
    Undo: reverse the entry, or hold it anew.
    """
    desk.record(Release(hold, reason, **more))


@click.command(cls=Asking)
@click.pass_obj
def holds(desk: Desk) -> None:
    """List the holds that are open, and what they reach.

    \b
    Example: honeyledger holds
    """
    rows = desk.ask(hold_rows)
    value = {
        "holds": [
            {
                "hold": row.number,
                "target": row.target,
                "name": row.name,
                "from": row.first_day,
                "to": row.last_day,
                "reason": row.reason,
                "lots": list(row.on_hand),
                "grams": row.grams,
            }
            for row in rows
        ]
    }
    desk.answer_rows(
        value,
        (
            Column("hold", right=True),
            Column("stands on"),
            Column("days"),
            Column("reason", wraps=True),
            Column("lots on hand", right=True),
            Column("weight", right=True),
        ),
        [_row(desk, row) for row in rows],
        "Nothing is on hold.",
    )


def _row(desk: Desk, row: HoldRow) -> list[str]:
    days = f"{say_day(row.first_day) or '...'} to {say_day(row.last_day) or '...'}"
    return [
        row.number,
        row.name,
        days if row.first_day or row.last_day else "",
        row.reason,
        str(len(row.on_hand)),
        desk.shown(row.grams),
    ]
