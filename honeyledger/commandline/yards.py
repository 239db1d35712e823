"""Commands of yards by dates: supers on, treatments, feeding, disease."""

from dataclasses import asdict, replace
from typing import Any

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import say_day
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.yards import (
    Certify,
    Disease,
    FeedYard,
    SupersOn,
    Treat,
)
from honeyledger.services import yard_days as dates

_ON = click.option(
    "--supers-on/--supers-off",
    default=None,
    help="Whether supers were on the colonies meanwhile.",
)


@click.command("supers-on", cls=Recording)
@click.argument("yard")
@click.argument("count")
@click.option("--day", metavar="DAY", help="When; else today.")
@click.option("--box", default="", help="Their box type.")
@click.pass_obj
def supers_on(desk: Desk, yard: str, count: str, day: str | None, box: str) -> None:
    """Supers are put on a yard's colonies.

    \b
    Example: honeyledger supers-on "Mill Lane" 60 --day "1 Jun" --box medium
    Undo: reverse the entry.
    """
    desk.record(
        SupersOn(yard, parse_count(count, "a number of supers"), desk.day(day, "day"), box)
    )


@click.command(cls=Recording)
@click.argument("yard")
@click.argument("product")
@click.option("--active", default="", help="What works in it.")
@click.option("--in", "first", metavar="DAY", help="When it went in; else today.")
@click.option("--out", "last", metavar="DAY", help="When it came out.")
@click.option("--clear", metavar="DAY", help="First day honey may be pulled, by its label.")
@click.option("--interval", metavar="DAYS", help="Or its label's interval after it came out.")
@_ON
@click.option("--completes", metavar="ENTRY", help="The entry that began this treatment.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.pass_obj
def treat(
    desk: Desk,
    yard: str,
    product: str,
    active: str,
    first: str | None,
    last: str | None,
    clear: str | None,
    interval: str | None,
    supers_on: bool | None,
    completes: str | None,
    note: str,
) -> None:
    """A yard's colonies are treated; pulls of the days in doubt are held.

    The days are read off the label: always follow your local label and code. An interval, such as
    "6 weeks", counts from the day it came out.

    \b
    Example: honeyledger treat "Mill Lane" "Formic strips" --in "1 Aug" --clear "15 Aug"
    When it is out: the same again with --out DAY and --completes ENTRY.
    Undo: reverse the entry.
    """
    desk.record(
        Treat(
            yard,
            product,
            active,
            desk.day(first, "first_day"),
            desk.day(last, "last_day"),
            desk.day(clear, "clear_day"),
            supers_on,
            0
            if completes is None
            else parse_count(completes, "an entry's number", field="completes"),
            note,
            interval or "",
        )
    )


@click.command(cls=Recording)
@click.argument("yard")
@click.argument("what", required=False, default="")
@click.option("--day", metavar="DAY", help="When; else today.")
@click.option("--net", metavar="WEIGHT", help="How much.")
@click.option("--from", "source", default="", help="Honey of this drum, pail, jar or vessel.")
@click.option("--jars", metavar="N", help="How many jars of it, or pieces of comb.")
@click.option("--all", "whole", is_flag=True, help="All of the honey there.")
@_ON
@click.option(
    "--despite-hold", default="", metavar="WHY", help="Why held honey is given, by name."
)
@click.pass_obj
def feed(
    desk: Desk,
    /,
    yard: str,
    what: str,
    day: str | None,
    net: str | None,
    jars: str | None,
    **honey: Any,
) -> None:
    """A yard's colonies are fed; with supers on, its pulls are held from then on.

    Honey fed to bees can carry foulbrood: only your own, from healthy colonies, and as your local
    code has it.

    \b
    Example: honeyledger feed "Mill Lane" "sugar syrup" --net 120kg --supers-off
    Example: honeyledger feed "Mill Lane" --from D26-0011-4 --net 20kg --supers-off
    Example: honeyledger feed "Mill Lane" --from J26-0004-T --jars 12 --supers-off
    Undo: reverse the entry.
    """
    facts = FeedYard(yard, what, desk.day(day, "day"), desk.mass(net, "net_g"))
    count = None if jars is None else parse_count(jars, "a number of jars", field="jars")
    desk.record(replace(facts, jars=count, **honey))


@click.command(cls=Recording)
@click.argument("yard")
@click.argument("name", metavar="DISEASE", required=False, default="")
@click.option("--since", metavar="DAY", help="Since when; else today.")
@click.option("--until", metavar="DAY", help="The flag is lifted, from this day on.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.pass_obj
def disease(
    desk: Desk, yard: str, name: str, since: str | None, until: str | None, note: str
) -> None:
    """Flag a yard for a disease, or lift the flag, by name.

    Its empties go to no other yard then. Bee diseases may have to be reported: follow your local
    law and your inspector.

    \b
    Example: honeyledger disease "Mill Lane" foulbrood --since "20 Jul" --operator "Ann Reed"
    Undo: reverse the entry.
    """
    desk.record(Disease(yard, name, desk.day(since, "since"), desk.day(until, "until"), note))


@click.command(cls=Recording)
@click.argument("yard")
@click.argument("number")
@click.option("--by", default="", help="Who issued it.")
@click.option("--from", "first", metavar="DAY", help="Good from this day on; else today.")
@click.option("--to", "last", metavar="DAY", help="Good until this day.")
@click.pass_obj
def certify(
    desk: Desk, yard: str, number: str, by: str, first: str | None, last: str | None
) -> None:
    """A certificate for moving a yard's colonies or supers is on record.

    \b
    Example: honeyledger certify "Mill Lane" MV-118 --from "1 Jul" --to "31 Jul"
    Undo: reverse the entry.
    """
    days = desk.day(first, "first_day"), desk.day(last, "last_day")
    desk.record(Certify(yard, number, by, *days))


@click.command("yard-days", cls=Asking)
@click.argument("yard")
@click.pass_obj
def yard_days(desk: Desk, yard: str) -> None:
    """Show a yard by its dates: supers on, treated, fed, flagged, pulled.

    \b
    Example: honeyledger yard-days "Mill Lane"
    """
    found = desk.ask(lambda view: dates.yard_days(view, yard, desk.unit))
    desk.answer_rows(
        asdict(found),
        (Column("day"), Column("what"), Column("", wraps=True), Column("entry", right=True)),
        [[say_day(row.day), row.kind, row.sentence, str(row.entry)] for row in found.days],
        f"Nothing is on record of {found.name} yet.",
    )
