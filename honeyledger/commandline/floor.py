"""Commands of the extraction floor: runs, loads, wet supers, cappings, washing."""

import importlib
from collections.abc import Sequence

import click

from honeyledger.commandline import run_sheet
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Printing, Recording
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.floor import (
    Cappings,
    CloseRun,
    Heel,
    Load,
    OpenRun,
    Wash,
    WetOut,
)

SUPERS = "a number of supers"
SHEETS = "honeyledger.commandline.floor_sheets"


@click.group(no_args_is_help=True)
def run() -> None:
    """Open a run, show its sheet, close it."""


@run.command("open", cls=Recording)
@click.argument("line")
@click.option(
    "--tank", default="", metavar="VESSEL", help="The tank it runs into, unless fed by the line."
)
@click.option("--crew", default="", help="Who works on it.")
@click.option("--owner", default="", help="Whose supers; else of who owns the first ones loaded.")
@click.pass_obj
def open_run(desk: Desk, line: str, tank: str, crew: str, owner: str) -> None:
    """Open a run on a line; what its vessels hold already is noted.

    \b
    Example: honeyledger run open "Line A" --crew "Ann, Joe"
    Undo: reverse the entry, while nothing carries the run.
    """
    desk.record(OpenRun(line, tank, crew, owner))


@run.command("show", cls=Printing)
@click.argument("code", required=False, default="")
@click.option("-o", "--output", "file", metavar="FILE.pdf", help="Write it on paper.")
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def show_run(desk: Desk, code: str, file: str | None, paper: str, copies: str) -> None:
    """Show a run's sheet: what went in, what came out, how it adds up. The newest unless named.

    \b
    Example: honeyledger run show R26-0003-8 -o run.pdf
    """
    named = code or desk.given.get("run", "")
    if file is None:
        run_sheet.show(desk, named)
    else:
        importlib.import_module(SHEETS).write_run(desk, named, (file, paper, copies))


@run.command("close", cls=Recording)
@click.argument("code", required=False, default="")
@click.option(
    "--heel",
    "heels",
    nargs=2,
    multiple=True,
    metavar="VESSEL WEIGHT",
    help="What is left in a vessel.",
)
@click.option("--heel-by", default="dip", help="How the heel was read: dip, mark or guess.")
@click.option("--cappings-pending", is_flag=True, help="The cappings are not weighed yet.")
@click.pass_obj
def close_run(
    desk: Desk, code: str, heels: Sequence[tuple[str, str]], heel_by: str, cappings_pending: bool
) -> None:
    """Settle a run and sign it: CODE, or the one --run names.

    \b
    Example: honeyledger run close R26-0003-8 --heel "Tank 1" 40 --operator "Ann Reed"
    Undo: reverse the entry.
    """
    read = tuple(Heel(vessel, desk.the_mass(text, "heel"), heel_by) for vessel, text in heels)
    said_run = code or desk.given.get("run", "")
    recorded = desk.house.record(CloseRun(said_run, read, cappings_pending), desk.said())
    run_sheet.show_closed(desk, recorded)


@click.command(cls=Recording)
@click.argument("pallet")
@click.argument("vessel")
@click.option("--count", metavar="COUNT", help="So many supers; else all on the pallet.")
@click.option("--pull", default="", metavar="CODE", help="Only of this pull.")
@click.option("--despite-hold", default="", metavar="WHY", help="Why held honey goes on, by name.")
@click.option("--apart", is_flag=True, help="A load of its own, not the unknown honey since then.")
@click.pass_obj
def load(
    desk: Desk,
    pallet: str,
    vessel: str,
    count: str | None,
    pull: str,
    despite_hold: str,
    apart: bool,
) -> None:
    """Supers of a pallet go into a line's first vessel.

    \b
    Example: honeyledger load G26-0007-E "Line A" --run R26-0003-8
    Undo: reverse the entry; amend its vessel once honey was drawn.
    """
    desk.record(Load(pallet, vessel, desk.count(count, SUPERS), pull, despite_hold, apart))


@click.command(cls=Recording)
@click.argument("count")
@click.option("--gross", metavar="WEIGHT", help="The empties with pallet and lid.")
@click.option("--tare", default="0", metavar="WEIGHT", help="Pallet and lid.")
@click.option("--pull", default="", metavar="CODE", help="The pull they are of.")
@click.option("--to", default="", help="Where they went: a yard, the wet stack.")
@click.option("--despite-flag", default="", metavar="WHY", help="Why they leave a flagged yard.")
@click.pass_obj
def wet_out(
    desk: Desk, count: str, gross: str | None, tare: str, pull: str, to: str, despite_flag: str
) -> None:
    """Empty wet supers are counted and weighed.

    \b
    Example: honeyledger wet-out 24 --gross 170 --tare 15 --to "Mill Lane" --run R26-0003-8
    Undo: reverse the entry.
    """
    facts = WetOut(
        parse_count(count, SUPERS),
        desk.mass(gross, "gross_g"),
        desk.the_mass(tare, "tare_g"),
        pull,
        to,
        despite_flag,
    )
    desk.record(facts)


@click.command(cls=Recording)
@click.argument("line")
@click.argument("net", metavar="WEIGHT")
@click.option("--barrel", default="", help="The barrel's number.")
@click.pass_obj
def cappings(desk: Desk, line: str, net: str, barrel: str) -> None:
    """A barrel of cappings is weighed.

    \b
    Example: honeyledger cappings "Line A" 92.5 --barrel 3
    Undo: reverse the entry, while nothing is built on it.
    """
    desk.record(Cappings(line, desk.the_mass(net, "net_g"), barrel))


@click.command(cls=Recording)
@click.argument("vessels", nargs=-1, required=True)
@click.option(
    "--remains",
    default="",
    help="What became of honey still in the books there: rinse, discarded or never.",
)
@click.option("--rinse-into", default="", metavar="VESSEL", help="Where rinse honey is kept.")
@click.option("--rinse", metavar="WEIGHT", help="What the honey in the rinse weighs.")
@click.pass_obj
def wash(
    desk: Desk, vessels: Sequence[str], remains: str, rinse_into: str, rinse: str | None
) -> None:
    """Vessels are emptied and washed.

    \b
    Example: honeyledger wash "Line A" "Tank 1" --remains rinse
    Example: honeyledger wash "Tank 1" --rinse-into "Rinse tank" --rinse 4.5
    Undo: reverse the entry, while nothing came in since.
    """
    desk.record(Wash(tuple(vessels), remains, rinse_into, desk.mass(rinse, "rinse_g")))
