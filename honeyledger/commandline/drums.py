"""Commands for drums and tanks: filling, closing, weighing again, skimming, buying in."""

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Bung, Fill, Reweigh, Skim


def weight_of(desk: Desk, net: str | None, gross: str | None, tare: str | None) -> Weight:
    """A weighing as typed."""
    return Weight(desk.mass(net, "net_g"), desk.mass(gross, "gross_g"), desk.mass(tare, "tare_g"))


@click.command(cls=Recording)
@click.argument("source")
@click.option("--net", metavar="WEIGHT", help="Net weight.")
@click.option("--gross", metavar="WEIGHT", help="Gross weight.")
@click.option(
    "--tare", metavar="WEIGHT", help="Weight of the empty container; else as registered."
)
@click.option(
    "--container",
    default="",
    metavar="CODE-or-NUMBER",
    help="The drum or tote; a one-way drum has none.",
)
@click.option("--into", default="", metavar="VESSEL", help="Into a vessel instead of a drum.")
@click.option("--jars", metavar="COUNT", help="Of a jar lot: so many are scraped back, --into.")
@click.option("--to-follow", is_flag=True, help="Not weighed yet: the usual net stands in.")
@click.option("--whole", is_flag=True, help="All that is in the source.")
@click.option(
    "--open", "stays_open", is_flag=True, help="The drum waits for more; close it with bung."
)
@click.option("--top-up", is_flag=True, help="A closed drum is filled on: it becomes a new lot.")
@click.option("--washed/--not-washed", default=None, help="Whether a used container was washed.")
@click.option("--despite-hold", default="", metavar="WHY", help="Why held honey goes on, by name.")
@click.option("--seal", default="", metavar="NUMBER", help="The seal put on the closed drum.")
@click.pass_obj
def fill(
    desk: Desk,
    source: str,
    net: str | None,
    gross: str | None,
    tare: str | None,
    container: str,
    into: str,
    jars: str | None,
    to_follow: bool,
    whole: bool,
    stays_open: bool,
    top_up: bool,
    washed: bool | None,
    despite_hold: str,
    seal: str,
) -> None:
    """Fill a drum, or draw into another vessel.

    SOURCE is a vessel, a drum that is poured out, or a jar lot that is scraped back.

    \b
    Example: honeyledger fill "Tank 1" --container "Drum 7" --gross 311.5 --run R26-0003-8
    Example: honeyledger fill J26-0004-T --into "Bottling tank" --jars 24
    Undo: reverse the entry, while nothing is built on it; the container, day and vessel of a drum
    are amended, so that its label stays true.
    """
    desk.record(
        Fill(
            source,
            weight_of(desk, net, gross, tare),
            container=container,
            into=into,
            jars=desk.count(jars, "jars", "jars"),
            pending=to_follow,
            whole=whole,
            bung=not stays_open,
            top_up=top_up,
            washed=washed,
            despite_hold=despite_hold,
            seal=seal,
        )
    )


@click.command(cls=Recording)
@click.argument("container")
@click.option("--seal", default="", metavar="NUMBER", help="The seal put on it.")
@click.pass_obj
def bung(desk: Desk, container: str, seal: str) -> None:
    """Close a drum that waited for more.

    Its seal stands on drum list and weigh ticket.

    \b
    Example: honeyledger bung "Drum 7" --seal "A 104"
    Undo: reverse the entry, while nothing is built on it.
    """
    desk.record(Bung(container, seal))


@click.command(cls=Recording)
@click.argument("drum")
@click.option("--net", metavar="WEIGHT", help="Net weight.")
@click.option("--gross", metavar="WEIGHT", help="Gross weight.")
@click.option("--tare", metavar="WEIGHT", help="Weight of the empty container; else as known.")
@click.pass_obj
def reweigh(desk: Desk, drum: str, net: str | None, gross: str | None, tare: str | None) -> None:
    """Put a drum on the scale again.

    \b
    Example: honeyledger reweigh D26-0011-4 --gross 311.5
    Undo: weigh again, or reverse the entry.
    """
    desk.record(Reweigh(drum, weight_of(desk, net, gross, tare)))


@click.command(cls=Recording)
@click.argument("source")
@click.argument("net", metavar="WEIGHT")
@click.pass_obj
def skim(desk: Desk, source: str, net: str) -> None:
    """Take foam off a vessel or drum.

    \b
    Example: honeyledger skim "Tank 1" 2.5
    Undo: reverse the entry, while nothing is built on it.
    """
    desk.record(Skim(source, desk.the_mass(net, "net_g")))
