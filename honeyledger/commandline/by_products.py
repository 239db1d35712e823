"""Commands of the by-products: wax and melter honey, cut comb, chunk honey."""

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.domain.units import parse_count, parse_temperature
from honeyledger.ledger.verbs.by_products import Chunk, Cut, Melt

HELD = "Why held honey goes on, by name."


@click.command(cls=Recording)
@click.argument("vessel")
@click.option("--wax", default="0", metavar="WEIGHT", help="Wax, cleaned.")
@click.option("--honey", default="0", metavar="WEIGHT", help="Honey from under the wax.")
@click.option("--residue", default="0", metavar="WEIGHT", help="What is thrown away.")
@click.option("--into", default="", metavar="VESSEL", help="Where the honey goes, if not apart.")
@click.option("--temperature", metavar="DEGREES", help="The hottest it was.")
@click.option("--goes-on", is_flag=True, help="More is in the melter; it is not emptied yet.")
@click.option("--despite-hold", default="", metavar="WHY", help=HELD)
@click.pass_obj
def melt(
    desk: Desk,
    vessel: str,
    wax: str,
    honey: str,
    residue: str,
    into: str,
    temperature: str | None,
    goes_on: bool,
    despite_hold: str,
) -> None:
    """A melter gives wax and heated honey.

    Barrels of cappings are tipped into it with fill, --into Melter --whole. What its honey goes
    into is shown as heated. Hot wax burns and catches fire: never over an open flame.

    \b
    Example: honeyledger melt Melter --wax 14.2 --honey 9.5 --residue 1.1 --temperature 72
    Undo: reverse the entry, while nothing is built on it.
    """
    desk.record(
        Melt(
            vessel,
            desk.the_mass(wax, "wax_g"),
            desk.the_mass(honey, "honey_g"),
            desk.the_mass(residue, "residue_g"),
            into,
            None if temperature is None else parse_temperature(temperature),
            goes_on,
            despite_hold,
        )
    )


@click.command(cls=Recording)
@click.argument("pallet")
@click.argument("pieces", metavar="PIECES")
@click.option("--net", required=True, metavar="WEIGHT", help="The pieces packed, all together.")
@click.option("--count", metavar="COUNT", help="So many supers; else all on the pallet.")
@click.option("--pull", default="", metavar="CODE", help="Only of this pull.")
@click.option("--product", default="", help="What the pieces are sold as.")
@click.option("--drained", default="0", metavar="WEIGHT", help="Honey that ran out of the edges.")
@click.option("--into", default="", metavar="VESSEL", help="Where that honey went.")
@click.option("--trimmings", default="0", metavar="WEIGHT", help="Cut off round the pieces.")
@click.option(
    "--trimmings-into", default="", metavar="VESSEL", help="Where they went, if not into a barrel."
)
@click.option("--rejects", default="0", metavar="WEIGHT", help="Pieces thrown away.")
@click.option("--despite-hold", default="", metavar="WHY", help=HELD)
@click.pass_obj
def cut(
    desk: Desk,
    pallet: str,
    pieces: str,
    net: str,
    count: str | None,
    pull: str,
    product: str,
    drained: str,
    into: str,
    trimmings: str,
    trimmings_into: str,
    rejects: str,
    despite_hold: str,
) -> None:
    """Supers are cut into pieces of comb honey.

    \b
    Example: honeyledger cut G26-0031-7 420 --net 142.8 --count 20 --product "Cut comb 340"
             --drained 25.5 --into Drainer --trimmings 16 --rejects 4.1
    Undo: reverse the entry, while nothing is built on it; a wrong yard is amended on the pull.
    """
    facts = Cut(
        pallet=pallet,
        pieces=parse_count(pieces, "a number of pieces", field="pieces"),
        net_g=desk.the_mass(net, "net_g"),
        count=desk.count(count, "a number of supers"),
        pull=pull,
        product=product,
        drained_g=desk.the_mass(drained, "drained_g"),
        into=into,
        trimmings_g=desk.the_mass(trimmings, "trimmings_g"),
        trimmings_into=trimmings_into,
        rejects_g=desk.the_mass(rejects, "rejects_g"),
        despite_hold=despite_hold,
    )
    desk.record(facts)


@click.command(cls=Recording)
@click.argument("product")
@click.argument("jars")
@click.option("--comb", required=True, metavar="CODE", help="The comb honey the pieces are of.")
@click.option("--pieces", required=True, metavar="COUNT", help="How many pieces went in.")
@click.option(
    "--from", "source", required=True, metavar="SOURCE", help="The vessel or drum of the liquid."
)
@click.option(
    "--liquid", metavar="WEIGHT", help="The liquid weighed; else what the jars hold besides."
)
@click.option("--despite-hold", default="", metavar="WHY", help=HELD)
@click.pass_obj
def chunk(
    desk: Desk,
    product: str,
    jars: str,
    comb: str,
    pieces: str,
    source: str,
    liquid: str | None,
    despite_hold: str,
) -> None:
    """Jars get a piece of comb in liquid honey.

    \b
    Example: honeyledger chunk "Chunk 450" 48 --comb K26-0002-4 --pieces 48 --from "Tank 3"
    Undo: reverse the entry, while nothing is built on it.
    """
    facts = Chunk(
        product=product,
        comb=comb,
        pieces=parse_count(pieces, "a number of pieces", field="pieces"),
        source=source,
        jars=parse_count(jars, "a number of jars", field="jars"),
        liquid_g=desk.mass(liquid, "liquid_g"),
        despite_hold=despite_hold,
    )
    desk.record(facts)
