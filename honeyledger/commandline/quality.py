"""Commands of quality: readings, instruments found off, samples, holds, clearing, releasing."""

from collections.abc import Callable, Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column, say, table
from honeyledger.domain.moments import format_iso, format_moment, say_day
from honeyledger.domain.units import (
    format_colour,
    format_moisture,
    format_temperature,
    parse_colour,
    parse_moisture,
    parse_temperature,
)
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import Clear, PutOnHold, Release, Sample
from honeyledger.services.holding import HoldRow, hold_rows
from honeyledger.services.instruments import Doubts, Off, readings_in_doubt

READS: dict[str, tuple[Callable[..., int], Callable[[int], str]]] = {
    "moisture": (parse_moisture, format_moisture),
    "colour": (parse_colour, format_colour),
    "temperature": (parse_temperature, format_temperature),
}


@click.command(cls=Recording)
@click.argument("lot")
@click.option("--moisture", metavar="PERCENT", help="Refractometer reading.")
@click.option("--colour", metavar="MM", help="Pfund reading in millimetres.")
@click.option("--temperature", metavar="DEGREES", help="In degrees Celsius, or with F behind.")
@click.option("--instrument", default="", help="What it was read with.")
@click.pass_obj
def measure(
    desk: Desk,
    lot: str,
    moisture: str | None,
    colour: str | None,
    temperature: str | None,
    instrument: str,
) -> None:
    """Note readings of a lot: moisture, colour, temperature.

    \b
    Example: honeyledger measure D26-0011-4 --moisture 17.4 --colour 32
    Undo: measure again; the latest reading counts.
    """
    desk.record(
        Measure(
            lot,
            desk.moisture(moisture),
            None if colour is None else parse_colour(colour),
            None if temperature is None else parse_temperature(temperature),
            instrument,
        )
    )


@click.command("in-doubt", cls=Asking)
@click.argument("instrument")
@click.option("--known", required=True, metavar="VALUE", help="What it should read.")
@click.option("--read", "shown", required=True, metavar="VALUE", help="What it reads.")
@click.option(
    "--of",
    type=click.Choice(list(READS)),
    default="moisture",
    help="What it reads; else moisture.",
)
@click.option("--check", default="", help="What its checks are called, where there are several.")
@click.pass_obj
def in_doubt(desk: Desk, instrument: str, known: str, shown: str, of: str, check: str) -> None:
    """List what was read with an instrument found off, since it was last found right.

    Beside each reading stands what it would be with the instrument off all the time by as much;
    the reading stays as it was read. Record the check itself with `check`.

    \b
    Example: honeyledger in-doubt "Refractometer 2" --known 18.0 --read 17.6
    """
    parse = READS[of][0]
    off = Off(instrument, of, parse(known, field="known"), parse(shown, field="read"), check)
    found = desk.ask(lambda view: readings_in_doubt(view, off, desk.house.clock()))
    value = {
        "instrument": found.name,
        "since": None if found.since is None else format_iso(found.since),
        "unnamed": found.unnamed,
        "readings": [
            {
                "code": row.code,
                "read": format_iso(row.read_at),
                "value": row.value,
                "corrected": row.corrected,
            }
            for row in found.rows
        ],
    }
    desk.answer(value, lambda: _show_doubts(found, of))


def _show_doubts(found: Doubts, of: str) -> None:
    write = READS[of][1]
    if found.rows:
        columns = (Column("lot"), Column("read"), Column(of, True), Column("corrected", True))
        rows = [
            [row.code, format_moment(row.read_at), write(row.value), write(row.corrected)]
            for row in found.rows
        ]
        table(columns, rows)
    else:
        say(f"No reading with {found.name} is in doubt.")
    if found.since is None:
        say(f"{found.name} was never found right before.")
    else:
        say(f"{found.name} was last found right on {format_moment(found.since)}.")
    if found.unnamed:
        say(f"Readings of that time that name no instrument: {found.unnamed}.")


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
