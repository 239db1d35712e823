"""Commands of bottling: start, go on from another feed, close."""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.domain.units import parse_count, parse_mean_net_mg
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver

JARS = "a number of jars"


def _mean(text: str | None) -> int | None:
    return None if text is None else parse_mean_net_mg(text)


@click.command("change-over", cls=Recording)
@click.argument("bottling", required=False, default="")
@click.option("--product", default="", help="What is filled; starts a bottling.")
@click.option(
    "--feed",
    default="",
    metavar="SOURCE",
    help="The vessel or drum it is filled from now.",
)
@click.option(
    "--jars",
    default="0",
    metavar="COUNT",
    help="What the counter says, from the start.",
)
@click.option(
    "--mean-net",
    metavar="GRAMS",
    help="Checked mean net of the jars since the last change-over.",
)
@click.option("--empty", is_flag=True, help="The feed so far ran empty.")
@click.option("--despite-hold", default="", metavar="WHY", help="Why held honey goes on, by name.")
@click.pass_obj
def change_over(
    desk: Desk,
    bottling: str,
    product: str,
    feed: str,
    jars: str,
    mean_net: str | None,
    empty: bool,
    despite_hold: str,
) -> None:
    """Start a bottling, or go on from another drum or vessel.

    Without BOTTLING one is started: name --product and --feed, and note the code it gets.

    \b
    Example: honeyledger change-over --product "Clover 500 g" --feed D26-0011-4
    Example: honeyledger change-over J26-0004-T --jars 560 --feed D26-0012-2 --empty
    Undo: reverse the entry, while nothing is built on it.
    """
    desk.record(
        ChangeOver(
            bottling,
            product,
            feed,
            parse_count(jars, JARS, field="jars"),
            _mean(mean_net),
            empty,
            despite_hold,
        )
    )


@click.command(cls=Recording)
@click.argument("bottling")
@click.argument("jars")
@click.option(
    "--mean-net",
    metavar="GRAMS",
    help="Checked mean net of the jars since the last change-over.",
)
@click.option(
    "--rejects",
    default="0",
    metavar="COUNT",
    help="Jars taken out after the counter; they widen the margin.",
)
@click.option("--packaging", multiple=True, metavar="CODE", help="Lots of jars and lids used.")
@click.option(
    "--labelled-later",
    is_flag=True,
    help="Not labelled as filled: a serial names only the bottling.",
)
@click.option("--empty", is_flag=True, help="The feed ran empty.")
@click.option("--despite-hold", default="", metavar="WHY", help="Why held honey goes on, by name.")
@click.pass_obj
def bottle(
    desk: Desk,
    bottling: str,
    jars: str,
    mean_net: str | None,
    rejects: str,
    packaging: Sequence[str],
    labelled_later: bool,
    empty: bool,
    despite_hold: str,
) -> None:
    """Close a bottling: its jars become one lot.

    JARS is what the counter says at the end.

    \b
    Example: honeyledger bottle J26-0004-T 1120 --rejects 6 --empty
    Undo: reverse the entry; amend the product once jars were sent.
    """
    desk.record(
        Bottle(
            bottling,
            parse_count(jars, JARS, field="jars"),
            _mean(mean_net),
            parse_count(rejects, JARS, field="rejects"),
            not labelled_later,
            empty,
            despite_hold,
            tuple(packaging),
        )
    )
