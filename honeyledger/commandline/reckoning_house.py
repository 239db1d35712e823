"""Commands that reckon for work in the house: jars from a weight, units of the trade."""

from fractions import Fraction

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.domain.jar_count import jars_from
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    format_number,
    format_temperature,
    parse_figure,
    parse_mass_g,
    parse_temperature,
)

EXACT = "Exact by definition: a pound is 453.59237 g; 32 °F is 0 °C, 212 °F is 100 °C."


@click.command(cls=Asking)
@click.argument("mass")
@click.argument("net")
@click.option("--over", metavar="GRAMS", help="How much a jar is overfilled in the mean.")
@click.option("--lost", metavar="WEIGHT", help="What stays in tank and filler.")
@click.pass_obj
def jars(desk: Desk, mass: str, net: str, over: str | None, lost: str | None) -> None:
    """How many jars a weight of honey fills.

    \b
    Example: honeyledger reckon jars 300 500g --over 2.4 --lost 2
    """
    unit: MassUnit = "lb" if desk.given.get("unit") == "lb" else "kg"
    over_mg = 0
    if over is not None:
        over_mg = parse_figure(
            over, "an overfill in grams", "2.4", decimals=3, bounds=(0, 1_000), field="over"
        )
    found = jars_from(
        parse_mass_g(mass, unit, field="mass"),
        parse_mass_g(net, "g", field="net"),
        over_mg,
        0 if lost is None else parse_mass_g(lost, unit, field="lost"),
    )
    left = format_mass(found.left_g, "g" if found.left_g < 1_000 else unit)
    words = "1 jar" if found.jars == 1 else f"{format_number(found.jars)} jars"
    desk.answer(
        {"jars": found.jars, "left_g": found.left_g}, lambda: say(f"{words}, {left} left over")
    )


@click.command(cls=Asking)
@click.option("--mass", metavar="WEIGHT", help="A weight with its unit, such as 640lb.")
@click.option("--degrees", metavar="DEGREES", help="A temperature with its unit, such as 95F.")
@click.pass_obj
def units(desk: Desk, mass: str | None, degrees: str | None) -> None:
    """A weight or a temperature in the other units of the trade.

    \b
    Example: honeyledger reckon units --mass 640lb --degrees 95F
    """
    unit: MassUnit = "lb" if desk.given.get("unit") == "lb" else "kg"
    lines, answer = [], {}
    if mass is not None:
        grams = answer["grams"] = parse_mass_g(mass, unit, field="mass")
        ounces = format_number(Fraction(grams * 1_000_000_000, 28_349_523_125), 2)
        shown = (format_mass(grams, "kg", 3), format_mass(grams, "lb", 3), f"{ounces} oz")
        lines.append(" = ".join(shown))
    if degrees is not None:
        tenths = answer["celsius_tenths"] = parse_temperature(degrees, field="degrees")
        lines.append(f"{format_temperature(tenths)} = {format_temperature(tenths, 'F')}")
    if not lines:
        raise click.UsageError("Say what: --mass, --degrees or both.")
    desk.answer(answer, lambda: say("\n".join([*lines, EXACT])))


COMMANDS = (jars, units)
