"""Commands that reckon: no house is opened and nothing is recorded.

What comes of values that nobody has seen in their source is told as such.
"""

from collections.abc import Sequence
from datetime import date
from fractions import Fraction

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.domain.air import balance_humidity, what_air_does
from honeyledger.domain.blend import Part, expected
from honeyledger.domain.dips import density, upright_ml, volume_ml, weight_g
from honeyledger.domain.heat_budget import Warmed, diastase_left, hmf_after
from honeyledger.domain.keeping import class_of, keeps_a_year
from honeyledger.domain.moments import format_day, parse_day
from honeyledger.domain.refraction import Scale, Shown, moisture_of
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.repeated import together
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

SAY_THE_YEAR = Sentence(
    "say-the-year", "Type the day it came out with its year, such as 10 Apr 2026."
)
NO_PAIR = Sentence(
    "no-pair", "{text} is not {wanted}: put an equals sign between, without blanks."
)
WEIGHT_OR_DIP = Sentence(
    "weight-or-dip", "Say a weight with --net, or a tank's --width and its --dip."
)
UNVERIFIED = "By a value from memory: not to be relied on."
SECOND_HAND = "By a table seen at second hand: a guide, no promise."
CAUTION = "A band for choosing what to have measured; it certifies nothing."
FOLLOW = "Follow the label where you are, and your local code."
# Without a house nobody says what day it is: what is counted from today shows by its year.
_LONG_AGO = date(2000, 12, 31)
SCALES = {scale.name.lower(): scale for scale in Scale}


@click.group(no_args_is_help=True)
def reckon() -> None:
    """Reckon with figures of the trade, without a house: moisture, keeping, air, heat, dips."""


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
@click.argument("moisture")
@click.option("--yeast", metavar="COUNT", help="Yeast cells in a gram.")
@click.pass_obj
def keeping(desk: Desk, moisture: str, yeast: str | None) -> None:
    """Whether honey of a moisture keeps, or may ferment.

    \b
    Example: honeyledger reckon keeping 18.4 --yeast 8
    """
    water = parse_moisture(moisture)
    found = class_of(water)
    keeps = None
    if yeast is not None:
        keeps = keeps_a_year(water, parse_count(yeast, "a yeast count", field="yeast"))
    said = found.name if keeps is None else "keeps a year" if keeps else "may ferment"
    desk.answer(
        {"class": found.name, "keeps_a_year": keeps}, lambda: say(f"{said}\n{SECOND_HAND}")
    )


@reckon.command(cls=Asking)
@click.argument("moisture")
@click.argument("humidity")
@click.pass_obj
def air(desk: Desk, moisture: str, humidity: str) -> None:
    """Whether air of a relative humidity dries or wets honey of a moisture.

    \b
    Example: honeyledger reckon air 18.8 45
    """
    water = parse_moisture(moisture)
    damp = parse_percent(humidity, "a humidity", field="humidity")
    does, even = what_air_does(water, damp), balance_humidity(water)
    at = f"; in balance with {format_moisture(even)} humidity" if even is not None else ""
    said = f"air {does}{at}\n{SECOND_HAND}" if does else "Outside the table: nobody can tell."
    desk.answer({"air": does, "balance_humidity": even}, lambda: say(said))


@reckon.command(cls=Asking)
@click.argument("times", nargs=-1, required=True, metavar="DEGREES=HOURS...")
@click.option("--hmf", default="0", metavar="MG/KG", help="HMF before.")
@click.option("--diastase", metavar="NUMBER", help="Diastase number before.")
@click.pass_obj
def heat(desk: Desk, times: Sequence[str], hmf: str, diastase: str | None) -> None:
    """What warmth may have done: HMF grown and diastase left, as bands.

    \b
    Example: honeyledger reckon heat 35=72 45=10 --hmf 4 --diastase 18
    """
    history = [_warmed(text) for text in times]
    grown = hmf_after(_tenths(hmf, "hmf"), history)
    lines = [f"HMF {grown.least:.1f} to {grown.most:.1f} mg/kg"]
    answer: dict[str, object] = {"hmf": [grown.least, grown.most]}
    if diastase is not None:
        left = diastase_left(_tenths(diastase, "diastase"), history)
        lines.append(f"diastase {left.least:.1f} to {left.most:.1f}")
        answer["diastase"] = [left.least, left.most]
    desk.answer(answer, lambda: say("\n".join([*lines, CAUTION])))


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
@click.pass_obj
def blend(desk: Desk, parts: Sequence[str]) -> None:
    """What a blend should come to: moisture by weight, colour only as a range.

    \b
    Example: honeyledger reckon blend 300=17.2=12 200=19.4=64
    """
    unit = _unit(desk)
    found = expected([_part(text, unit) for text in parts])
    lines = [f"{format_weight(found.grams, unit)} of honey"]
    if found.moisture is not None and found.solids_g is not None:
        water = format_moisture(found.moisture, 2)
        keeps = class_of(found.moisture).name
        lines.append(f"{water} water ({keeps}), {format_weight(found.solids_g, unit)} of solids")
    if found.lightest is not None and found.darkest is not None:
        lines.append(f"colour {format_colour(found.lightest)} to {format_colour(found.darkest)}")
    answer = {
        "grams": found.grams,
        "moisture": found.moisture,
        "solids_g": found.solids_g,
        "colour": None if found.lightest is None else [found.lightest, found.darkest],
    }
    desk.answer(answer, lambda: say("\n".join(lines)))


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


def _warmed(text: str) -> Warmed:
    degrees, hours = _pair(text, "degrees=hours, such as 35=72")
    parts = parse_figure(
        hours, "a number of hours", "72", decimals=2, bounds=(0, 1_000_000), field="times"
    )
    return Warmed(parse_temperature(degrees, field="times"), parts / 100)


def _part(text: str, unit: MassUnit) -> Part:
    net, rest = _pair(text, "net=moisture or net=moisture=colour, such as 300=17.2=12")
    water, _, colour = rest.partition("=")
    return Part(
        parse_mass_g(net, unit, field="parts"),
        parse_moisture(water, field="parts"),
        parse_colour(colour, field="parts") if colour else None,
    )


def _pair(text: str, wanted: str) -> tuple[str, str]:
    first, equals, second = text.partition("=")
    if not (first.strip() and equals and second.strip()):
        raise Refusal(NO_PAIR, field="parts", text=text, wanted=wanted)
    return first, second


def _tenths(text: str, field: str) -> float:
    what = "a result" if field == "hmf" else "a diastase number"
    return parse_figure(text, what, "4", decimals=2, bounds=(0, 10_000), field=field) / 100
