"""Which yards to pull next, on the terminal and as a truck sheet."""

from collections.abc import Sequence
from dataclasses import asdict
from datetime import date
from typing import Any

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Printing
from honeyledger.commandline.report import show_table, write_report
from honeyledger.domain.distances import Spot
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_coordinate, parse_count
from honeyledger.optimisation.routes import SolverRouter
from honeyledger.services.printed import TRUCK_SHEET
from honeyledger.services.pulling import Asked, PullingPlan, pulling_plan
from honeyledger.services.pulling_tables import (
    plan_facts,
    pulling_tables,
    truck_day,
    truck_sheet,
)
from honeyledger.services.pulling_yards import NEVER

TWO_COORDINATES = Sentence(
    "two-coordinates", "{text} is no place: type latitude and longitude, such as 49.42,-98.88."
)


@click.command("pulling", cls=Printing)
@click.argument("yards", nargs=-1, metavar="[YARD...]")
@click.option("--days", default="3", metavar="N", help="For so many days; else 3.")
@click.option("--truck", metavar="N", help="Supers on one load; else the most of a day lately.")
@click.option("--room", metavar="N", help="Supers in the full hot room; else the most so far.")
@click.option("--first", metavar="DAY", help="The first day; else today.")
@click.option("--from", "home", metavar="LAT,LON", help="Where the truck starts; else the house.")
@click.option("-o", "--output", "file", metavar="FILE.pdf", help="Write the truck sheet there.")
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def pulling(
    desk: Desk,
    yards: Sequence[str],
    days: str,
    truck: str | None,
    room: str | None,
    first: str | None,
    home: str | None,
    file: str | None,
    paper: str,
    copies: str,
) -> None:
    """Propose which yards to pull next, and in which order to drive.

    By supers on the hives, moisture risk, room in the hot room, withholding dates and the road.
    Yards named are planned alone. It books nothing.

    \b
    Example: honeyledger plan pulling --days 2 --truck 120 --room 300
    """
    asked = Asked(
        parse_count(days, "days", field="days"),
        None if truck is None else parse_count(truck, "supers", field="truck"),
        None if room is None else parse_count(room, "supers", field="room"),
        None if first is None else desk.date(first, "first"),
        None if home is None else _spot(home),
        tuple(yards),
    )
    now_ms = desk.house.clock()
    plan = desk.ask(lambda view: pulling_plan(view, asked, SolverRouter(), now_ms))
    if file is not None:
        named = (TRUCK_SHEET, truck_day(plan))
        write_report(desk, truck_sheet(plan), named, (file, paper, copies))
        return
    desk.answer(_plain(asdict(plan)), lambda: _show(plan))


def _spot(text: str) -> Spot:
    parts = text.split(";") if ";" in text else text.split(",")
    if len(parts) != 2:
        raise Refusal(TWO_COORDINATES, field="from", text=text)
    return Spot(parse_coordinate(parts[0], "latitude"), parse_coordinate(parts[1], "longitude"))


def _plain(value: object) -> Any:
    if isinstance(value, date):
        return None if value == NEVER else value.isoformat()
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    return value


def _show(plan: PullingPlan) -> None:
    output.say("; ".join(f"{caption.lower()} {value}" for caption, value in plan_facts(plan)))
    for table in pulling_tables(plan):
        output.say()
        output.say(table.title)
        show_table(table)
    for said in plan.says:
        output.say(said)
