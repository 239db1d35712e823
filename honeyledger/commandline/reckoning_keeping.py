"""Commands that reckon whether honey keeps: yeast, air, heat, drying, and the beetle's clock.

What comes of values that nobody has seen in their source is told as such.
"""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import say
from honeyledger.domain.air import balance_humidity, told_air, told_balance
from honeyledger.domain.beetles import clock
from honeyledger.domain.drying_trend import hours_to
from honeyledger.domain.heat_budget import Warmed, diastase_left, hmf_after
from honeyledger.domain.keeping import class_of, keeps_a_year
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    format_moisture,
    parse_count,
    parse_figure,
    parse_moisture,
    parse_percent,
    parse_temperature,
)

NO_PAIR = Sentence(
    "no-pair", "{text} is not {wanted}: put an equals sign between, without blanks."
)
UNVERIFIED = "By a value from memory: not to be relied on."
SECOND_HAND = "By a table seen at second hand: a guide, no promise."
CAUTION = "A band for choosing what to have measured; it certifies nothing."
READ_AGAIN = "Read it again before you rely on it: drying slows down towards the end."
_HOUR_MS = 3_600_000


@click.command(cls=Asking)
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


@click.command(cls=Asking)
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
    does, even = told_air(water, damp), balance_humidity(water)
    at = f"; in balance with {format_moisture(even)} humidity" if even is not None else ""
    answer = {"air": does, "balance_humidity": even}
    desk.answer(answer, lambda: say(f"air {does}{at}\n{SECOND_HAND}"))


@click.command(cls=Asking)
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


@click.command(cls=Asking)
@click.argument("target")
@click.argument("readings", nargs=-1, required=True, metavar="HOUR=MOISTURE...")
@click.option("--humidity", metavar="PERCENT", help="Of the air it dries in.")
@click.pass_obj
def dry(desk: Desk, target: str, readings: Sequence[str], humidity: str | None) -> None:
    """How many hours honey takes yet to come to a moisture, by its readings so far.

    \b
    Example: honeyledger reckon dry 18.0 0=19.6 6=19.4 12=19.2 18=19.0 --humidity 45
    """
    read = [_read_at(text) for text in readings]
    wanted, balance = parse_moisture(target, field="target"), None
    if humidity is not None:
        balance = told_balance(wanted, parse_percent(humidity, "a humidity", field="humidity"))
    found = hours_to(wanted, read, balance)
    answer = {
        "a_day": found.a_day,
        "hours": {"soonest": found.soonest, "likely": found.likely, "latest": found.latest},
    }
    said = "It is there already."
    if found.latest > 0:
        said = (
            f"Likely {found.likely:.0f} hours after the last reading, {found.soonest:.0f} to "
            f"{found.latest:.0f}; {found.a_day / 100:.2f} % a day.\n{READ_AGAIN}"
        )
    desk.answer(answer, lambda: say(said))


@click.command(cls=Asking)
@click.argument("hours")
@click.option("--humidity", multiple=True, metavar="PERCENT", help="Readings of the air since.")
@click.pass_obj
def beetles(desk: Desk, hours: str, humidity: Sequence[str]) -> None:
    """How long waiting supers have yet where there is the small hive beetle.

    \b
    Example: honeyledger reckon beetles 80 --humidity 55
    """
    air_read = [parse_percent(one, "a humidity", field="humidity") for one in humidity]
    found = clock(parse_count(hours, "a number of hours", field="hours"), air_read)
    said = f"{found.state}; {found.left} hours until damage by larvae is likely"
    desk.answer({"state": found.state, "left": found.left}, lambda: say(said))


COMMANDS = (keeping, air, heat, dry, beetles)


def _read_at(text: str) -> tuple[int, int]:
    hour, water = pair_of(text, "hour=moisture, such as 6=19.4")
    parts = parse_figure(
        hour, "a number of hours", "6", decimals=2, bounds=(0, 10_000), field="readings"
    )
    return parts * _HOUR_MS // 100, parse_moisture(water, field="readings")


def _warmed(text: str) -> Warmed:
    degrees, hours = pair_of(text, "degrees=hours, such as 35=72")
    parts = parse_figure(
        hours, "a number of hours", "72", decimals=2, bounds=(0, 1_000_000), field="times"
    )
    return Warmed(parse_temperature(degrees, field="times"), parts / 100)


def pair_of(text: str, wanted: str) -> tuple[str, str]:
    """What stands before and behind the first equals sign.

    Raises:
        Refusal: one of the two is missing.
    """
    first, equals, second = text.partition("=")
    if not (first.strip() and equals and second.strip()):
        raise Refusal(NO_PAIR, field="parts", text=text, wanted=wanted)
    return first, second


def _tenths(text: str, field: str) -> float:
    what = "a result" if field == "hmf" else "a diastase number"
    return parse_figure(text, what, "4", decimals=2, bounds=(0, 10_000), field=field) / 100
