"""Commands for where things stand: carried to a row, walked and scanned, found without a label."""

import importlib
from collections.abc import Sequence

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.drums import weight_of
from honeyledger.commandline.options import Printing, Recording
from honeyledger.commandline.output import GAP, Column, say
from honeyledger.domain.moments import format_iso, format_moment
from honeyledger.domain.units import format_number
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.opening import FoundDrum
from honeyledger.ledger.verbs.stocktake import Move, Stocktake
from honeyledger.services.rooms import SORTS, stands_in, walk_of

SHEETS = "honeyledger.commandline.floor_sheets"


@click.command(cls=Recording)
@click.argument("room")
@click.argument("codes", nargs=-1, required=True)
@click.option("--row", default="", help="The row in it, such as B3.")
@click.pass_obj
def move(desk: Desk, room: str, codes: Sequence[str], row: str) -> None:
    """Drums, pallets or cases are carried to a room and a row.

    \b
    Example: honeyledger move "Drum room" D26-0011-4 D26-0012-2 --row B3
    Undo: move them again, or reverse the entry.
    """
    desk.record(Move(tuple(codes), room, row))


@click.command(cls=Recording)
@click.argument("room")
@click.argument("codes", nargs=-1)
@click.option("--row", default="", help="The row that was walked; else the whole room.")
@click.option(
    "--found",
    multiple=True,
    metavar="WEIGHT",
    help="Net weight of a full drum without a label; once for each.",
)
@click.pass_obj
def stocktake(desk: Desk, room: str, codes: Sequence[str], row: str, found: Sequence[str]) -> None:
    """A row is walked: what was scanned against what should stand there, in one entry.

    \b
    Example: honeyledger stocktake "Drum room" --row B3 D26-0011-4 D26-0012-2 --found 290
    Undo: walk it again, or reverse the entry while nothing is built on a drum it found.
    """
    drums = tuple(FoundDrum(Weight(net_g=desk.the_mass(text, "found"))) for text in found)
    facts = Stocktake(room, row, tuple(codes), drums)
    recorded = desk.house.record(facts, desk.said())
    walked = walk_of(recorded.entries[-1])

    def show() -> None:
        output.show_recorded(recorded, desk.shown)
        for sort, words in SORTS.items():
            if sort == "there" and walked[sort]:
                say(f"{GAP}{words}: {format_number(len(walked[sort]))}")
            elif walked[sort]:
                say(f"{GAP}{words}: {', '.join(walked[sort])}")

    answer = output.recorded_json(recorded, desk.digest_of(recorded))
    desk.answer({**answer, "walked": walked}, show)


@click.command("found-drum", cls=Recording)
@click.option("--net", metavar="WEIGHT", help="Net weight.")
@click.option("--gross", metavar="WEIGHT", help="Gross weight.")
@click.option("--tare", metavar="WEIGHT", help="Weight of the empty container.")
@click.option("--container", default="", metavar="CODE-or-NUMBER", help="The house's container.")
@click.option("--written", default="", help="Whatever stands on it.")
@click.option("--filled-on", metavar="DAY", help="The day it was filled, where it can be told.")
@click.option("--room", default="", help="Where it stands.")
@click.option("--row", default="", help="The row in the room.")
@click.pass_obj
def found_drum(
    desk: Desk,
    net: str | None,
    gross: str | None,
    tare: str | None,
    container: str,
    written: str,
    filled_on: str | None,
    room: str,
    row: str,
) -> None:
    """A full drum is found that the books know nothing of: on hold, its source not known.

    The runs it may be of are named; amend it to its run or its yard, and release it by name.

    \b
    Example: honeyledger found-drum --net 290 --written "no lid" --room "Drum room" --row B3
    Undo: reverse the entry while nothing is built on it; amend it once it is known.
    """
    weight = weight_of(desk, net, gross, tare)
    day = desk.day(filled_on, "filled_on")
    desk.record(FoundDrum(weight, container, written, day, room, row))


@click.command(cls=Printing)
@click.argument("room")
@click.option("--row", default="", help="Only this row.")
@click.option("-o", "--output", "file", metavar="FILE.pdf", help="Write it, to walk with.")
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def standing(desk: Desk, room: str, row: str, file: str | None, paper: str, copies: str) -> None:
    """List what should stand in a room or a row: the sheet for a stocktake.

    \b
    Example: honeyledger standing "Drum room" --row B3 -o row.pdf
    """
    if file is not None:
        importlib.import_module(SHEETS).write_standing(desk, (room, row), (file, paper, copies))
        return
    rows = desk.ask(lambda view: stands_in(view, room, row))
    value = [
        {
            "code": one.code,
            "noun": one.noun,
            "row": one.row,
            "grams": one.grams,
            "pieces": one.pieces,
            "since": format_iso(one.since),
            "missing": one.missing,
            "held": one.held,
        }
        for one in rows
    ]
    shown = [
        [
            one.row,
            one.code,
            one.noun,
            desk.shown(one.grams) if one.grams else "",
            str(one.pieces or ""),
            format_moment(one.since),
            ", ".join([*(["missing"] if one.missing else []), *(["on hold"] if one.held else [])]),
        ]
        for one in rows
    ]
    columns = (Column("row"), Column("code"), Column(""), Column("weight", right=True))
    more = (Column("supers or jars", right=True), Column("since"), Column(""))
    none = "Nothing should stand there."
    desk.answer_rows({"standing": value}, (*columns, *more), shown, none)
