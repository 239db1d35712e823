"""Commands of the dock: supers arrive, pallets are split, joined and counted again."""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.dock import PALLET_TARE_G, Count, Join, Line, Receive, Split

SUPERS = "a number of supers"


@click.command(cls=Recording)
@click.argument("yard")
@click.argument("count")
@click.option(
    "--and",
    "also",
    nargs=2,
    multiple=True,
    metavar="YARD COUNT",
    help="Another yard on the same pallet.",
)
@click.option(
    "--box",
    default="medium",
    help='Box type; medium unless said. COUNT may name its own: "12 deep".',
)
@click.option("--pulled", metavar="DAY", help="When the supers were pulled; today unless said.")
@click.option("--crew", default="", help="Who pulled them.")
@click.option("--sheet", metavar="COUNT", help="What the pull sheet says, to compare.")
@click.option("--owner", default="", help="Whose honey it is, where it is not the house's.")
@click.option("--gross", metavar="WEIGHT", help="Pallet, lid, supers and honey on the scale.")
@click.option("--tare", metavar="WEIGHT", help="Pallet and lid; 15 kg unless said.")
@click.option("--condition", default="sealed", help="sealed, mixed or green.")
@click.option("--moisture", metavar="PERCENT", help="Refractometer reading.")
@click.option(
    "--pallet",
    default="",
    metavar="CODE",
    help="A tag printed before; else the next one is given.",
)
@click.pass_obj
def receive(
    desk: Desk,
    yard: str,
    count: str,
    also: Sequence[tuple[str, str]],
    box: str,
    pulled: str | None,
    crew: str,
    sheet: str | None,
    owner: str,
    gross: str | None,
    tare: str | None,
    condition: str,
    moisture: str | None,
    pallet: str,
) -> None:
    """Supers come in from a yard on a pallet.

    YARD is a yard's code or name, COUNT the number of supers. Each yard makes one pull, the
    pallet gets its tag.

    \b
    Example: honeyledger receive "Mill Lane" 24 --gross 478.5 --condition sealed
    Undo: reverse the entry; amend the yard once honey of it went on.
    """
    day = desk.day(pulled, "pulled")
    on_sheet = desk.count(sheet, SUPERS, "sheet")
    lines = []
    for at, (name, text) in enumerate([(yard, count), *also]):
        supers, own_box = _supers(text, box)
        lines.append(Line(name, supers, own_box, day, crew, on_sheet if at == 0 else None, owner))
    tare_g = desk.mass(tare, "tare_g")
    desk.record(
        Receive(
            tuple(lines),
            gross_g=desk.mass(gross, "gross_g"),
            tare_g=PALLET_TARE_G if tare_g is None else tare_g,
            condition=condition,
            moisture=desk.moisture(moisture),
            pallet=pallet,
        )
    )


def _supers(text: str, box: str) -> tuple[int, str]:
    """A count of supers and their box: "12" or "12 deep"."""
    number, _, own = text.strip().partition(" ")
    return parse_count(number, SUPERS), own.strip() or box


@click.command(cls=Recording)
@click.argument("pallet")
@click.argument("count")
@click.option(
    "--pull", default="", metavar="CODE", help="Only of this pull; else of all in proportion."
)
@click.pass_obj
def split(desk: Desk, pallet: str, count: str, pull: str) -> None:
    """Put some supers of a pallet onto a new one.

    \b
    Example: honeyledger split G26-0007-E 12
    Undo: reverse the entry.
    """
    desk.record(Split(pallet, parse_count(count, SUPERS), pull))


@click.command(cls=Recording)
@click.argument("pallet")
@click.argument("onto")
@click.pass_obj
def join(desk: Desk, pallet: str, onto: str) -> None:
    """Put everything on one pallet onto another.

    \b
    Example: honeyledger join G26-0007-E G26-0008-C
    Undo: reverse the entry.
    """
    desk.record(Join(pallet, onto))


@click.command(cls=Recording)
@click.argument("pallet")
@click.argument("count")
@click.option("--pull", default="", metavar="CODE", help="The pull that was counted.")
@click.pass_obj
def count(desk: Desk, pallet: str, count: str, pull: str) -> None:
    """Correct the count of supers on a pallet.

    \b
    Example: honeyledger count G26-0007-E 23
    Undo: count again, or reverse the entry.
    """
    desk.record(Count(pallet, parse_count(count, SUPERS), pull))
