"""The weather of a day on the terminal, to read a season's yields by."""

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Recording
from honeyledger.domain.units import parse_temperature
from honeyledger.ledger.verbs.weather import Weather


@click.command(cls=Recording)
@click.argument("sort", required=False, default="")
@click.option("--day", metavar="DAY", help="When; else today.")
@click.option("--yard", default="", help="Where, if not everywhere.")
@click.option("--high", metavar="DEGREES", help="The day's highest; °C unless F is typed.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.pass_obj
def weather(
    desk: Desk, sort: str, day: str | None, yard: str, high: str | None, note: str
) -> None:
    """Note a day's weather, to read a season's yields by.

    SORT is sun, heat, cloud, rain, storm, wind, cold, frost, drought or smoke, or left out where
    a note says it.

    \b
    Example: honeyledger weather rain --day "14 Jul" --note "no flight until four"
    Undo: reverse the entry.
    """
    degrees = None if high is None else parse_temperature(high, field="high")
    desk.record(Weather(sort, desk.day(day, "day"), yard, degrees, note))
