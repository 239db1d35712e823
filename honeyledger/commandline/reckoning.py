"""Commands that reckon: what honey is, what stands in a tank, what a blend comes to.

No house is opened and nothing is recorded. Whether honey keeps is in a module of its own.
"""

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

import click

from honeyledger.assets import resource
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.commandline.reckoning_codes import COMMANDS as OF_CODES
from honeyledger.commandline.reckoning_house import COMMANDS as IN_THE_HOUSE
from honeyledger.commandline.reckoning_keeping import COMMANDS, SECOND_HAND, UNVERIFIED, pair_of
from honeyledger.domain.blend import Expected, Part, expected, results_of
from honeyledger.domain.colour import PfundClass, class_of_density, density_of
from honeyledger.domain.colour import class_of as colour_class
from honeyledger.domain.conductivity import at_20
from honeyledger.domain.dips import density, gravity_by_bottle, upright_ml, volume_ml, weight_g
from honeyledger.domain.keeping import class_of
from honeyledger.domain.moments import format_day, parse_day
from honeyledger.domain.refraction import Scale, Shown, moisture_of
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.repeated import together
from honeyledger.domain.standards import Judged, judged, named
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_moisture,
    format_number,
    format_weight,
    parse_colour,
    parse_count,
    parse_figure,
    parse_mass_g,
    parse_moisture,
    parse_percent,
    parse_temperature,
)
from honeyledger.domain.withholding import first_day, parse_interval
from honeyledger.exchange.standards import shipped

SAY_THE_YEAR = Sentence(
    "say-the-year", "Type the day it came out with its year, such as 10 Apr 2026."
)
WEIGHT_OR_DIP = Sentence(
    "weight-or-dip", "Say a weight with --net, or a tank's --width and its --dip."
)
FOLLOW = "Follow the label where you are, and your local code."
# Without a house nobody says what day it is: what is counted from today shows by its year.
_LONG_AGO = date(2000, 12, 31)
SCALES = {scale.name.lower(): scale for scale in Scale}


@click.group(no_args_is_help=True)
def reckon() -> None:
    """Reckon with figures of the trade, without a house: moisture, keeping, air, heat, dips."""


for _command in (*COMMANDS, *IN_THE_HOUSE, *OF_CODES):
    reckon.add_command(_command)


@reckon.command(cls=Asking)
@click.argument("figure")
@click.option(
    "--scale",
    type=click.Choice(list(SCALES)),
    default="index",
    help="What the instrument shows: index, water, Brix of honey, Brix of sucrose.",
)
@click.option("--temperature", metavar="DEGREES", help="Of honey and prism.")
@click.option("--corrected", is_flag=True, help="The instrument corrects by itself.")
@click.pass_obj
def moisture(
    desk: Desk, figure: str, scale: str, temperature: str | None, corrected: bool
) -> None:
    """Moisture from what a refractometer shows.

    \b
    Example: honeyledger reckon moisture 1.4900 --temperature 25
    """
    of = SCALES[scale]
    value = (
        parse_figure(
            figure, "a refractive index", "1.4900", decimals=6, bounds=(1, 2), field="figure"
        )
        if of is Scale.INDEX
        else parse_percent(figure, field="figure")
    )
    at = None if temperature is None else parse_temperature(temperature)
    found = moisture_of(Shown(of, value, at, corrected))
    answer = {
        "moisture": found.moisture,
        "index_millionths": found.index,
        "verified": found.verified,
    }

    def show() -> None:
        say(f"{format_moisture(found.moisture, 2)} water, {found.index / 1_000_000:.5f} at 20 °C")
        if not found.verified:
            say(UNVERIFIED)

    desk.answer(answer, show)


@reckon.command(cls=Asking)
@click.argument("reading")
@click.option(
    "--as",
    "what",
    type=click.Choice(["pfund", "density", "transmittance"]),
    default="pfund",
    help="Millimetres, optical density, or percent of light that comes through.",
)
@click.pass_obj
def colour(desk: Desk, reading: str, what: str) -> None:
    """The colour class of a reading.

    \b
    Example: honeyledger reckon colour 34.5
    """
    if what == "pfund":
        found = colour_class(parse_colour(reading, field="reading"))
    else:
        found = _by_light(reading, what)
    said = f"{found.name}\n{SECOND_HAND}"
    desk.answer({"class": found.code, "name": found.name}, lambda: say(said))


@reckon.command(cls=Asking)
@click.argument("empty")
@click.argument("with_water")
@click.argument("with_honey")
@click.pass_obj
def gravity(desk: Desk, empty: str, with_water: str, with_honey: str) -> None:
    """Specific gravity by a bottle weighed in grams: empty, with water, with honey.

    \b
    Example: honeyledger reckon gravity 28.4773 54.8809 65.2718
    """
    weights = [
        parse_figure(
            text, "a weight in grams", "28.4773", decimals=4, bounds=(0, 100_000), field=field
        )
        for text, field in (
            *((empty, "empty"), (with_water, "with_water")),
            (with_honey, "with_honey"),
        )
    ]
    found = gravity_by_bottle(*weights)
    said = format_number(Fraction(found, 100_000), 4)
    desk.answer({"gravity_hundred_thousandths": found}, lambda: say(said))


@reckon.command(cls=Asking)
@click.argument("microsiemens")
@click.option("--temperature", required=True, metavar="DEGREES", help="Of the solution.")
@click.pass_obj
def conductivity(desk: Desk, microsiemens: str, temperature: str) -> None:
    """What a conductivity in microsiemens a centimetre would be at 20 °C.

    \b
    Example: honeyledger reckon conductivity 640 --temperature 22.5
    """
    read = parse_count(microsiemens, "a conductivity", field="microsiemens")
    found = at_20(read, parse_temperature(temperature))
    said = f"{format_number(Fraction(found, 1000), 3)} mS/cm at 20 °C\n{UNVERIFIED}"
    desk.answer({"microsiemens": found, "verified": False}, lambda: say(said))


@reckon.command(cls=Asking)
@click.option("--moisture", required=True, metavar="PERCENT", help="Of the honey.")
@click.option("--temperature", default="20", metavar="DEGREES", help="Of the honey; else 20 °C.")
@click.option("--net", metavar="WEIGHT", help="A weight whose volume is wanted.")
@click.option("--width", metavar="MM", help="Inner width of an upright round tank.")
@click.option("--dip", metavar="MM", help="How high the honey stands in it.")
@click.pass_obj
def dip(
    desk: Desk,
    moisture: str,
    temperature: str,
    net: str | None,
    width: str | None,
    dip: str | None,
) -> None:
    """What stands in a tank by its dip, or how much room a weight takes.

    \b
    Example: honeyledger reckon dip --moisture 17.8 --width 1200 --dip 640 --temperature 32
    """
    unit = _unit(desk)
    water, at = parse_moisture(moisture), parse_temperature(temperature)
    if net is not None and width is None and dip is None:
        grams = parse_mass_g(net, unit, field="net")
        volume = volume_ml(grams, water, at)
    elif net is None and width is not None and dip is not None:
        wide, high = (
            parse_count(text, "a length in millimetres", field=field)
            for text, field in ((width, "width"), (dip, "dip"))
        )
        volume = upright_ml(wide, high)
        grams = weight_g(volume, water, at)
    else:
        raise Refusal(WEIGHT_OR_DIP, field="net")
    said = f"{format_number(Fraction(volume, 1000))} l, about {format_weight(grams, unit)}"
    answer = {"volume_ml": volume, "grams": grams, "grams_a_litre": density(water, at)}
    desk.answer(answer, lambda: say(f"{said}\n{UNVERIFIED}"))


@reckon.command(cls=Asking)
@click.argument("parts", nargs=-1, required=True, metavar="NET=MOISTURE[=COLOUR]...")
@click.option("--limits", "standard", metavar="NAME", help="Rules to hold it against; see limits.")
@click.option("--kind", "kinds", multiple=True, help="A kind of honey it is; may be repeated.")
@click.pass_obj
def blend(desk: Desk, parts: Sequence[str], standard: str | None, kinds: Sequence[str]) -> None:
    """What a blend should come to: moisture by weight, colour only as a range.

    \b
    Example: honeyledger reckon blend 300=17.2=12 200=19.4=64 --limits canada-1
    """
    unit = _unit(desk)
    found = expected([_part(text, unit) for text in parts])
    judged_rows = _held_against(found, standard, kinds)
    answer = {
        "grams": found.grams,
        "moisture": found.moisture,
        "solids_g": found.solids_g,
        "colour": None if found.lightest is None else [found.lightest, found.darkest],
        "limits": [
            {"property": row.rule.what, "limit": row.rule.limit, "outcome": row.outcome.value}
            for row in judged_rows
        ],
    }
    desk.answer(answer, lambda: say("\n".join(_blend_lines(found, unit, judged_rows))))


@reckon.command(cls=Asking)
@click.argument("moistures", nargs=-1, required=True)
@click.option("--repeats-to", default="0.2", metavar="PERCENT", help="The instrument's own.")
@click.pass_obj
def readings(desk: Desk, moistures: Sequence[str], repeats_to: str) -> None:
    """Mean and spread of several moistures of one lot, and the one that does not belong.

    \b
    Example: honeyledger reckon readings 17.4 17.4 17.5 17.3 17.4 19.8
    """
    read = [parse_moisture(text) for text in moistures]
    found = together(read, parse_percent(repeats_to, field="repeats_to"))
    lines = [
        f"mean {format_moisture(found.mean, 2)}, spread {format_moisture(found.spread, 2)}, "
        f"{format_moisture(found.lowest)} to {format_moisture(found.highest)}"
    ]
    if found.odd is not None and found.mean_without is not None:
        odd, others = read[found.odd], format_moisture(found.mean_without, 2)
        lines.append(f"{format_moisture(odd)} does not belong: read it again; without it {others}")
    answer = {
        "mean": found.mean,
        "spread": found.spread,
        "odd": None if found.odd is None else read[found.odd],
        "mean_without": found.mean_without,
    }
    desk.answer(answer, lambda: say("\n".join(lines)))


@reckon.command(cls=Asking)
@click.argument("out")
@click.argument("interval")
@click.pass_obj
def interval(desk: Desk, out: str, interval: str) -> None:
    """The first day for supers, from the day a treatment came out and its label's interval.

    \b
    Example: honeyledger reckon interval "10 Apr 2026" "14 days"
    """
    day = parse_day(out, _LONG_AGO, field="out")
    if day.year <= _LONG_AGO.year:
        raise Refusal(SAY_THE_YEAR, field="out")
    first = first_day(day, parse_interval(interval))
    desk.answer(
        {"first_day": first.isoformat()},
        lambda: say(f"{format_day(first)}, by the interval as it was typed.\n{FOLLOW}"),
    )


def _unit(desk: Desk) -> MassUnit:
    """Without a house, kilograms unless pounds are asked for."""
    return "lb" if desk.given.get("unit") == "lb" else "kg"


def _part(text: str, unit: MassUnit) -> Part:
    net, rest = pair_of(text, "net=moisture or net=moisture=colour, such as 300=17.2=12")
    water, _, colour = rest.partition("=")
    return Part(
        parse_mass_g(net, unit, field="parts"),
        parse_moisture(water, field="parts"),
        parse_colour(colour, field="parts") if colour else None,
    )


def _by_light(reading: str, what: str) -> PfundClass:
    if what == "transmittance":
        return class_of_density(density_of(parse_percent(reading, field="reading")))
    parts = parse_figure(
        reading, "an optical density", "0.595", decimals=4, bounds=(0, 10), field="reading"
    )
    return class_of_density(parts)


def _held_against(
    blend: Expected, standard: str | None, kinds: Sequence[str]
) -> tuple[Judged, ...]:
    """The rules that a blend's own figures say something to; none where nobody asked."""
    if standard is None:
        return ()
    rules = named(shipped(resource("standards")), standard)
    results = results_of(blend)
    rows = judged(rules, results, kinds or None).rows
    return tuple(row for row in rows if row.rule.what in results)


def _blend_lines(found: Expected, unit: MassUnit, rows: Sequence[Judged]) -> list[str]:
    lines = [f"{format_weight(found.grams, unit)} of honey"]
    if found.moisture is not None and found.solids_g is not None:
        water = format_moisture(found.moisture, 2)
        keeps = class_of(found.moisture).name
        lines.append(f"{water} water ({keeps}), {format_weight(found.solids_g, unit)} of solids")
    if found.lightest is not None and found.darkest is not None:
        classes = dict.fromkeys(colour_class(one).name for one in (found.lightest, found.darkest))
        mm = f"{format_colour(found.lightest)} to {format_colour(found.darkest)}"
        lines.append(f"colour {mm}, {' to '.join(classes)}")
    lines += [f"{row.rule.what} {row.rule.limit}: {row.outcome.value}" for row in rows]
    return lines
