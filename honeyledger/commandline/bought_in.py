"""Commands for honey from outside: bought in, sent back, and an opening stock."""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.drums import weight_of
from honeyledger.commandline.options import Recording
from honeyledger.domain.units import parse_colour, parse_count
from honeyledger.ledger.stated import Part, part_said
from honeyledger.ledger.verbs.bought_in import Purchase, SendBack
from honeyledger.ledger.verbs.opening import OpeningStock


def part_of(text: str, field: str) -> Part:
    """A country or yard with its share, as typed: "Argentina=60", or the name alone."""
    name, _, share = text.partition("=")
    return part_said(name, share, field)


@click.command(cls=Recording)
@click.argument("supplier")
@click.option("--net", metavar="WEIGHT", help="Net weight.")
@click.option("--gross", metavar="WEIGHT", help="Gross weight.")
@click.option("--tare", metavar="WEIGHT", help="Weight of the empty container.")
@click.option("--lot", default="", help="The supplier's own lot code.")
@click.option(
    "--country",
    "countries",
    multiple=True,
    metavar="NAME[=SHARE]",
    help="Where the honey is from; once for each country of a blend, with its percent if known.",
)
@click.option("--floral", default="", help="What the bees worked, as its supplier states it.")
@click.option("--certificate", default="", help="Number of its certificate or report.")
@click.option(
    "--container",
    default="",
    metavar="CODE-or-NUMBER",
    help="The drum it stands in, where it is the house's.",
)
@click.option("--owner", default="", help="Whose honey it is, where not the house's.")
@click.pass_obj
def purchase(
    desk: Desk,
    supplier: str,
    net: str | None,
    gross: str | None,
    tare: str | None,
    lot: str,
    countries: Sequence[str],
    floral: str,
    certificate: str,
    container: str,
    owner: str,
) -> None:
    """A drum of honey is bought in.

    Without its supplier's lot, its country or a certificate it is on hold until they are there.

    \b
    Example: honeyledger purchase Ridge --net 290 --lot RH-7 --country AR --certificate C-31
    Example: honeyledger purchase Ridge --net 290 --country AR=60 --country UY=40
    Undo: reverse the entry; amend the supplier once honey of it went on.
    """
    parts = tuple(part_of(text, "countries") for text in countries)
    is_one = len(parts) == 1 and parts[0].permille is None
    desk.record(
        Purchase(
            supplier,
            weight_of(desk, net, gross, tare),
            lot,
            parts[0].name if is_one else "",
            container,
            owner,
            () if is_one else parts,
            certificate,
            floral,
        )
    )


@click.command("send-back", cls=Recording)
@click.argument("lots", nargs=-1, required=True)
@click.option("--reason", default="", help="Why.")
@click.option("--carrier", default="", help="Who carries them.")
@click.option("--reference", default="", help="The supplier's number of the return.")
@click.pass_obj
def send_back(desk: Desk, lots: Sequence[str], reason: str, carrier: str, reference: str) -> None:
    """Bought-in drums go back to their supplier, and stay on record.

    \b
    Example: honeyledger send-back P26-0013-M --reason "20.4 % moisture" --reference RN-4
    Undo: reverse the entry.
    """
    desk.record(SendBack(tuple(lots), reason, carrier, reference))


@click.command("opening-stock", cls=Recording)
@click.argument("season")
@click.option("--net", metavar="WEIGHT", help="Net weight.")
@click.option("--gross", metavar="WEIGHT", help="Gross weight.")
@click.option("--tare", metavar="WEIGHT", help="Weight of the empty container.")
@click.option(
    "--yard",
    "yards",
    multiple=True,
    metavar="YARD[=SHARE]",
    help="Where it is from, with its percent if known; none where nobody can say.",
)
@click.option("--container", default="", metavar="CODE-or-NUMBER", help="The house's container.")
@click.option("--written", default="", help="What stands on it, such as last season's number.")
@click.option("--filled-on", metavar="DAY", help="The day it was filled, where it is known.")
@click.option("--moisture", metavar="PERCENT", help="Refractometer reading.")
@click.option("--colour", metavar="MM", help="Pfund reading in millimetres.")
@click.pass_obj
def opening_stock(
    desk: Desk,
    season: str,
    net: str | None,
    gross: str | None,
    tare: str | None,
    yards: Sequence[str],
    container: str,
    written: str,
    filled_on: str | None,
    moisture: str | None,
    colour: str | None,
) -> None:
    """A drum that was full before the house began to keep this ledger.

    SEASON is the year of its crop.

    \b
    Example: honeyledger opening-stock 2025 --net 290 --yard "Mill Lane=60" --yard "Long Field=40"
    Undo: reverse the entry while nothing is built on it; amend the yard of its source lot later.
    """
    desk.record(
        OpeningStock(
            weight_of(desk, net, gross, tare),
            parse_count(season, "a year", field="season"),
            tuple(part_of(text, "yards") for text in yards),
            container,
            written,
            desk.day(filled_on, "filled_on"),
            desk.moisture(moisture),
            None if colour is None else parse_colour(colour),
        )
    )
