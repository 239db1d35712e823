"""Commands of blending: parts into a vessel, what was blended there, heat, and supplies."""

from collections.abc import Mapping, Sequence

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_iso, format_moment
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_moisture, format_share, parse_count, parse_temperature
from honeyledger.ledger.sources import TO_FOLLOW, Weight
from honeyledger.ledger.verbs.blending import Blend, Portion
from honeyledger.ledger.verbs.supplies import Supply
from honeyledger.ledger.verbs.warming import Warm
from honeyledger.services.blending import BlendSheet, BlendsOf, blends_of

ALL = "all"
NO_AMOUNT = Sentence(
    "no-amount", "Say how much of {part}: {part}=120.5, or {part}=all where all of it goes."
)
NO_SUCH_PART = Sentence(
    "no-such-part", "{part} is no part of this blend. Name it as it is named among the parts."
)


@click.command(cls=Recording)
@click.argument("vessel")
@click.argument("parts", nargs=-1, required=True, metavar="SOURCE=WEIGHT...")
@click.option("--plan", "plans", multiple=True, metavar="SOURCE=WEIGHT", help="What was planned.")
@click.option("--seed", "seeds", multiple=True, metavar="SOURCE", help="The part that is seed.")
@click.option("--purpose", default="blend", help="blend (unless said), cream or standardise.")
@click.option("--note", default="", help="Anything worth knowing.")
@click.option("--despite-hold", default="", metavar="WHY", help="Why held honey goes on, by name.")
@click.pass_obj
def blend(
    desk: Desk,
    vessel: str,
    parts: Sequence[str],
    plans: Sequence[str],
    seeds: Sequence[str],
    purpose: str,
    note: str,
    despite_hold: str,
) -> None:
    """Weighed parts go into a vessel, in one entry.

    A part is a drum, a vessel or an ingredient with its weight, or "all" for the whole of it.

    \b
    Example: honeyledger blend "Blend tank" D26-0101-X=145.2 "Tank 3=80" D26-0102-V=all
             --plan D26-0101-X=145
    Undo: reverse the entry, while nothing is built on it.
    """
    planned = dict(_split(plan) for plan in plans)
    named = [_split(part) for part in parts]
    for part in (*planned, *seeds):
        if part not in dict(named):
            raise Refusal(NO_SUCH_PART, field="parts", part=part)
    portions = tuple(_portion(desk, source, text, planned, seeds) for source, text in named)
    desk.record(Blend(vessel, portions, purpose, note, despite_hold))


def _split(part: str) -> tuple[str, str]:
    source, _, amount = part.rpartition("=")
    if not source.strip() or not amount.strip():
        raise Refusal(NO_AMOUNT, field="parts", part=part.strip("= "))
    return source.strip(), amount.strip()


def _portion(
    desk: Desk, source: str, text: str, planned: Mapping[str, str], seeds: Sequence[str]
) -> Portion:
    whole = text.casefold() == ALL
    return Portion(
        source,
        TO_FOLLOW if whole else Weight(net_g=desk.the_mass(text, "net_g")),
        desk.mass(planned.get(source), "planned_g"),
        whole,
        source in seeds,
    )


@click.command(cls=Asking)
@click.argument("vessel")
@click.option("--last", metavar="COUNT", help="The newest so many; all unless said.")
@click.pass_obj
def blends(desk: Desk, vessel: str, last: str | None) -> None:
    """Show what was blended in a vessel, planned against weighed.

    \b
    Example: honeyledger blends "Blend tank" --last 1
    """
    count = desk.count(last, "a number of blends", "last") or 0
    found = desk.ask(lambda view: blends_of(view, vessel, count))
    desk.answer(_blends_json(found), lambda: _show(desk, found))


def _blends_json(found: BlendsOf) -> dict[str, object]:
    return {
        "vessel": found.vessel,
        "name": found.name,
        "blends": [
            {
                "entry": sheet.entry,
                "happened": format_iso(sheet.happened),
                "purpose": sheet.purpose,
                "note": sheet.note,
                "net_g": sheet.net_g,
                "moisture": sheet.moisture,
                "planned_g": sheet.planned_g,
                "measured": sheet.measured,
                "read_on": list(sheet.read_on),
                "parts": [
                    {
                        "code": row.code,
                        "kind": row.noun,
                        "planned_g": row.planned_g,
                        "net_g": row.net_g,
                        "share": row.share,
                        "moisture": row.moisture,
                        "seed": row.seed,
                    }
                    for row in sheet.parts
                ],
            }
            for sheet in found.sheets
        ],
    }


def _show(desk: Desk, found: BlendsOf) -> None:
    if not found.sheets:
        output.say(f"Nothing was blended in {found.name} yet.")
    for sheet in found.sheets:
        _show_sheet(desk, sheet)


def _show_sheet(desk: Desk, sheet: BlendSheet) -> None:
    note = f", {sheet.note}" if sheet.note else ""
    when = format_moment(sheet.happened)
    output.say(f"{when}  {sheet.purpose}, {desk.shown(sheet.net_g)}{note} [entry {sheet.entry}]")
    output.table(
        (
            Column("part"),
            Column("kind"),
            Column("planned", right=True),
            Column("weighed", right=True),
            Column("share", right=True),
            Column("moisture", right=True),
            Column(""),
        ),
        [
            [
                row.code,
                row.noun,
                "" if row.planned_g is None else desk.shown(row.planned_g),
                desk.shown(row.net_g),
                format_share(row.share),
                "" if row.moisture is None else format_moisture(row.moisture),
                "seed" if row.seed else "",
            ]
            for row in sheet.parts
        ],
    )
    if sheet.moisture is not None:
        output.say(f"By the readings of its parts: {format_moisture(sheet.moisture, 2)}.")
    if sheet.measured is not None:
        of = ", ".join(sheet.read_on)
        output.say(f"Read since, of {of}: {format_moisture(sheet.measured, 2)}.")


@click.command(cls=Recording)
@click.argument("what")
@click.option("--temperature", required=True, metavar="DEGREES", help="The hottest it was.")
@click.option("--hours", metavar="HOURS", help="How long.")
@click.option("--minutes", metavar="MINUTES", help="How long, if not in hours.")
@click.option("--why", default="", help="What for, such as liquefying.")
@click.pass_obj
def warm(
    desk: Desk, what: str, temperature: str, hours: str | None, minutes: str | None, why: str
) -> None:
    """Honey was warmed: how hot, and for how long.

    WHAT is a drum, a vessel, or jars by their lot. Heat raises HMF and takes enzymes; what was
    above 40 °C is shown as heated in all it goes into.

    \b
    Example: honeyledger warm D26-0101-X --temperature 42 --hours 24 --why liquefying
    Undo: reverse the entry.
    """
    length = parse_count(hours or "0", "a number of hours", field="minutes") * 60
    length += parse_count(minutes or "0", "a number of minutes", field="minutes")
    desk.record(Warm(what, parse_temperature(temperature), length, why))


@click.command(cls=Recording)
@click.argument("supplier")
@click.argument("name")
@click.option("--net", metavar="WEIGHT", help="Of an ingredient: its net weight.")
@click.option("--count", metavar="COUNT", help="Of packaging: how many pieces.")
@click.option("--supplier-lot", default="", metavar="LOT", help="What the supplier calls it.")
@click.option("--best-before", metavar="DAY", help="How long it is good.")
@click.pass_obj
def supply(
    desk: Desk,
    supplier: str,
    name: str,
    net: str | None,
    count: str | None,
    supplier_lot: str,
    best_before: str | None,
) -> None:
    """An ingredient or packaging comes in: with --net the one, with --count the other.

    Bought seed is honey: purchase it.

    \b
    Example: honeyledger supply "Glass Works" "Jars 500 g" --count 5760 --supplier-lot 7718
    Undo: reverse the entry, while nothing is built on it.
    """
    facts = Supply(
        supplier,
        "packaging" if net is None else "ingredient",
        name,
        Weight(net_g=desk.mass(net, "net_g")),
        desk.count(count, "a number of pieces"),
        supplier_lot,
        desk.day(best_before, "best_before"),
    )
    desk.record(facts)
