"""Commands of measuring: readings and results, instruments calibrated, and those found off."""

from collections.abc import Sequence

import click

from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column, say, table
from honeyledger.domain.moments import format_iso, format_moment
from honeyledger.domain.quantities import QUANTITIES, figure_of
from honeyledger.domain.refraction import Scale
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    parse_colour,
    parse_figure,
    parse_moisture,
    parse_percent,
    parse_temperature,
)
from honeyledger.ledger.verbs.measuring import Calibrate, Measure, Refraction, Reported
from honeyledger.services.instruments import Doubts, Off, doubts_on_record, readings_in_doubt

WHAT_AND_RESULT = Sentence(
    "what-and-result", "{text} is no result: write what was measured and the result, as hmf=<5."
)
KNOWN_AND_READ = Sentence(
    "known-and-read", "Say the instrument, what it should read and what it reads, or none of it."
)
NONE_OFF = "No instrument was found off."
OF = click.Choice([one for one in QUANTITIES if one != "yeast"])


@click.command(cls=Recording)
@click.argument("lot")
@click.argument("results", nargs=-1, metavar="[WHAT=RESULT]...")
@click.option("--moisture", metavar="PERCENT", help="Refractometer reading.")
@click.option("--colour", metavar="MM", help="Pfund reading in millimetres.")
@click.option("--temperature", metavar="DEGREES", help="In degrees Celsius, or with F behind.")
@click.option("--shown", metavar="FIGURE", help="What a refractometer showed, for the moisture.")
@click.option(
    "--scale",
    type=click.Choice([scale.name.lower() for scale in Scale]),
    default="index",
    help="Of what it showed: index, water, Brix of honey, Brix of sucrose.",
)
@click.option("--read-at", metavar="DEGREES", help="Of prism or solution, to be corrected.")
@click.option("--corrected", is_flag=True, help="The refractometer corrects by itself.")
@click.option("--instrument", default="", help="What it was read with.")
@click.option("--laboratory", default="", help="Who found the results.")
@click.option("--report", default="", help="The report's number.")
@click.option("--sampled", metavar="DAY", help="When the sample was taken.")
@click.pass_obj
def measure(
    desk: Desk,
    lot: str,
    results: Sequence[str],
    moisture: str | None,
    colour: str | None,
    temperature: str | None,
    shown: str | None,
    scale: str,
    read_at: str | None,
    corrected: bool,
    instrument: str,
    laboratory: str,
    report: str,
    sampled: str | None,
) -> None:
    """Note readings of a lot, and a laboratory's results.

    LOT may be a sample, a pallet or a tank: what was read belongs to all lots in it. RESULTS are
    hmf, diastase, conductivity, free acid, fructose and glucose, sucrose, insolubles, optical
    density or yeast, each as it was reported: hmf=12.4, "hmf=<5", "hmf=not detected".

    \b
    Example: honeyledger measure D26-0011-4 --moisture 17.4 "hmf=<5" --report 26-118
    Undo: measure again; the latest reading counts.
    """
    at = None if read_at is None else parse_temperature(read_at, field="read_at")
    desk.record(
        Measure(
            lot,
            desk.moisture(moisture),
            None if colour is None else parse_colour(colour),
            None if temperature is None else parse_temperature(temperature),
            instrument,
            None if shown is None else Refraction(scale, _shown(shown, scale), at, corrected),
            tuple(_reported(text, at) for text in results),
            laboratory,
            report,
            desk.day(sampled, "sampled"),
        )
    )


def _shown(text: str, scale: str) -> int:
    """Millionths of an index, else hundredths of a percent."""
    if scale != "index":
        return parse_percent(text, "a reading", field="shown")
    return parse_figure(
        text, "a refractive index", "1.4900", decimals=6, bounds=(1, 2), field="shown"
    )


def _reported(text: str, at: int | None) -> Reported:
    what, equals, result = text.partition("=")
    if not equals:
        raise Refusal(WHAT_AND_RESULT, field="results", text=text)
    return Reported(what.strip(), result.strip(), at if "conductivity" in what else None)


@click.command(cls=Recording)
@click.argument("instrument")
@click.option("--known", required=True, metavar="VALUE", help="What it should read.")
@click.option("--read", "shown", required=True, metavar="VALUE", help="What it reads.")
@click.option("--of", type=OF, default="moisture", help="What it reads; else moisture.")
@click.option("--against", default="", help="What it was read against, such as an oil.")
@click.pass_obj
def calibrate(desk: Desk, instrument: str, known: str, shown: str, of: str, against: str) -> None:
    """Note what an instrument read of something known.

    Found off, every reading with it since it was last found right is in doubt: see `in-doubt`.

    \b
    Example: honeyledger calibrate "Refractometer 2" --known 18.0 --read 17.6 --against "oil 18"
    Undo: reverse the entry.
    """
    figures = _parts(of, known, "known"), _parts(of, shown, "read")
    desk.record(Calibrate(instrument, *figures, of, against))


def _parts(of: str, text: str, field: str) -> int:
    match of:
        case "moisture":
            return parse_moisture(text, field=field)
        case "colour":
            return parse_colour(text, field=field)
        case "temperature":
            return parse_temperature(text, field=field)
    return figure_of(QUANTITIES[of], text, field=field)


@click.command("in-doubt", cls=Asking)
@click.argument("instrument", required=False, default="")
@click.option("--known", metavar="VALUE", help="What it should read, where that is not on record.")
@click.option("--read", "shown", metavar="VALUE", help="What it reads.")
@click.option("--of", type=OF, default="moisture", help="What it reads; else moisture.")
@click.option("--check", default="", help="What its checks are called, where there are several.")
@click.pass_obj
def in_doubt(
    desk: Desk, instrument: str, known: str | None, shown: str | None, of: str, check: str
) -> None:
    """List what was read with an instrument found off, since it was last found right.

    Beside each reading stands what it would be with the instrument off all the time by as much;
    the reading stays as it was read. Without figures, what calibrations on record say, of one
    instrument or of all. Record a calibration with `calibrate`.

    \b
    Example: honeyledger in-doubt "Refractometer 2" --known 18.0 --read 17.6
    """
    if known is None and shown is None:
        found = desk.ask(lambda view: doubts_on_record(view, instrument))
        answer = {"instruments": [_json(one) for one in found]}
        desk.answer(answer, lambda: _show_all(found))
        return
    if not instrument or known is None or shown is None:
        raise Refusal(KNOWN_AND_READ, field="known")
    off = Off(instrument, of, _parts(of, known, "known"), _parts(of, shown, "read"), check)
    one = desk.ask(lambda view: readings_in_doubt(view, off, desk.house.clock()))
    desk.answer(_json(one), lambda: _show(one))


def _json(found: Doubts) -> dict[str, object]:
    return {
        "instrument": found.name,
        "of": found.of,
        "since": None if found.since is None else format_iso(found.since),
        "unnamed": found.unnamed,
        "readings": [
            {
                "code": row.code,
                "read": format_iso(row.read_at),
                "value": row.value,
                "corrected": row.corrected,
            }
            for row in found.rows
        ],
    }


def _show_all(found: Sequence[Doubts]) -> None:
    if not found:
        say(NONE_OFF)
    for one in found:
        _show(one)


def _show(found: Doubts) -> None:
    of = QUANTITIES[found.of]
    if found.rows:
        columns = (
            *(Column("lot"), Column("read")),
            *(Column(found.of, True), Column("corrected", True)),
        )
        rows = [
            [row.code, format_moment(row.read_at), of.said(row.value), of.said(row.corrected)]
            for row in found.rows
        ]
        table(columns, rows)
    else:
        say(f"No reading with {found.name} is in doubt.")
    if found.since is None:
        say(f"{found.name} was never found right before.")
    else:
        say(f"{found.name} was last found right on {format_moment(found.since)}.")
    if found.unnamed:
        say(f"Readings of that time that name no instrument: {found.unnamed}.")
