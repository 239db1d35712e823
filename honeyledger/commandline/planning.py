"""Plans on the terminal: a season; with a small recall, drums to blend or fill, pallets to run."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace

import click

from honeyledger.commandline import output, progress
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.commandline.pulling import pulling
from honeyledger.commandline.season_plan import season
from honeyledger.domain.units import (
    format_moisture,
    format_number,
    format_share,
    parse_colour,
    parse_count,
    parse_moisture,
)
from honeyledger.optimisation.plans import SolverPlanner
from honeyledger.services.bottling_plan import bottling_and_drums, plan_bottling
from honeyledger.services.drums_page import drums_page
from honeyledger.services.hot_room_page import hot_room_page
from honeyledger.services.planning import Runs, Wanted
from honeyledger.services.recall_plans import Plan, plan_blend, plan_runs

PROPOSED = "It is a proposal and books nothing. A recall may need to be wider than any plan."
_STOPPED = {
    "proved": "No plan can do better.",
    "time": "The time was up: a better plan may exist.",
    "asked": "It was stopped: a better plan may exist.",
}


@click.group(no_args_is_help=True)
def plan() -> None:
    """Plan a season's work; propose a blend, a bottling or runs that keep a later recall small."""


plan.add_command(season)


plan.add_command(pulling)


@plan.command("blend", cls=Asking)
@click.option("--least", required=True, metavar="WEIGHT", help="The blend weighs this at least.")
@click.option("--most", metavar="WEIGHT", help="At most this; else a tenth more than the least.")
@click.option("--moisture", metavar="PERCENT", help="Its moisture at most, by weight of parts.")
@click.option("--moisture-least", metavar="PERCENT", help="Its moisture at least.")
@click.option("--lightest", metavar="MM", help="No part is lighter, Pfund millimetres.")
@click.option("--darkest", metavar="MM", help="No part is darker, Pfund millimetres.")
@click.option("--seconds", default="10", metavar="S", help="Look for so long at most; else 10.")
@click.pass_obj
def blend(
    desk: Desk,
    least: str,
    most: str | None,
    moisture: str | None,
    moisture_least: str | None,
    lightest: str | None,
    darkest: str | None,
    seconds: str,
) -> None:
    """Propose which drums on hand to blend, whole, so that a recall stays small.

    \b
    Example: honeyledger plan blend --least 1200 --moisture 17.8 --darkest 50
    """
    least_g = desk.the_mass(least, "least")
    wanted = Wanted(
        least_g,
        least_g + least_g // 10 if most is None else desk.the_mass(most, "most"),
        None if moisture is None else parse_moisture(moisture),
        None if moisture_least is None else parse_moisture(moisture_least, field="moisture_least"),
        None if lightest is None else parse_colour(lightest, field="lightest"),
        None if darkest is None else parse_colour(darkest, field="darkest"),
    )
    limit_s = parse_count(seconds, "seconds", least=1, field="seconds")
    now_ms = desk.house.clock()
    page = desk.ask(lambda view: drums_page(view, now_ms))
    with progress.bar("Looking for drums") as step:
        found = plan_blend(page, wanted, SolverPlanner(), limit_s, lambda *_: not step(0, 1))
    desk.answer(_json(found), lambda: _show(desk, found, "Blend"))


@plan.command("bottling", cls=Asking)
@click.argument("product")
@click.option("--jars", required=True, metavar="N", help="About so many jars.")
@click.option("--moisture", metavar="PERCENT", help="Moisture at most, by weight of the drums.")
@click.option("--lightest", metavar="MM", help="No drum is lighter, Pfund millimetres.")
@click.option("--darkest", metavar="MM", help="No drum is darker, Pfund millimetres.")
@click.option("--seconds", default="10", metavar="S", help="Look for so long at most; else 10.")
@click.pass_obj
def bottling(
    desk: Desk,
    product: str,
    jars: str,
    moisture: str | None,
    lightest: str | None,
    darkest: str | None,
    seconds: str,
) -> None:
    """Propose which drums to fill PRODUCT from, so that a recall stays small.

    Drums that its label would refuse stay out; the last drum may be left in part.

    \b
    Example: honeyledger plan bottling "Clover 500 g" --jars 1200 --darkest 50
    """
    count = parse_count(jars, "jars", least=1, field="jars")
    limit_s = parse_count(seconds, "seconds", least=1, field="seconds")
    now_ms = desk.house.clock()
    about, page = desk.ask(lambda view: bottling_and_drums(view, now_ms, product, count))
    asked = replace(
        about,
        moisture_most=None if moisture is None else parse_moisture(moisture),
        lightest=None if lightest is None else parse_colour(lightest, field="lightest"),
        darkest=None if darkest is None else parse_colour(darkest, field="darkest"),
    )
    with progress.bar("Looking for drums") as step:
        found = plan_bottling(page, asked, SolverPlanner(), limit_s, lambda *_: not step(0, 1))
    value = {**_json(found), **({"note": str(asked.told)} if asked.told else {})}
    desk.answer(value, lambda: _show(desk, found, "Bottling", str(asked.told)))


@plan.command("runs", cls=Asking)
@click.option("--most", required=True, metavar="WEIGHT", help="Honey in one run at most.")
@click.option("--runs", default="4", metavar="N", help="At most so many runs; else 4.")
@click.option("--moisture", metavar="PERCENT", help="Each run's moisture at most.")
@click.option("--first", "firsts", multiple=True, metavar="CODE", help="Must be in the first run.")
@click.option("--order", metavar="A,B/C", help="Your own runs, to compare: A and B, then C.")
@click.option("--seconds", default="10", metavar="S", help="Look for so long at most; else 10.")
@click.pass_obj
def runs(
    desk: Desk,
    most: str,
    runs: str,
    moisture: str | None,
    firsts: Sequence[str],
    order: str | None,
    seconds: str,
) -> None:
    """Propose which waiting pallets to run together, washed between, so a recall stays small.

    \b
    Example: honeyledger plan runs --most 1500 --runs 3 --moisture 18.5
    """
    asked = Runs(
        desk.the_mass(most, "most"),
        parse_count(runs, "runs", least=1, field="runs"),
        None if moisture is None else parse_moisture(moisture),
        tuple((code.strip().upper(), 0) for code in firsts),
    )
    own = [
        [code.strip().upper() for code in run.split(",") if code.strip()]
        for run in (order or "").split("/")
        if run.strip()
    ]
    limit_s = parse_count(seconds, "seconds", least=1, field="seconds")
    now_ms = desk.house.clock()
    page = desk.ask(lambda view: hot_room_page(view, now_ms))
    with progress.bar("Putting runs together") as step:
        found = plan_runs(page, asked, SolverPlanner(), limit_s, lambda *_: not step(0, 1), own)
    desk.answer(_json(found), lambda: _show(desk, found, "Run"))


def _json(found: Plan) -> Mapping[str, object]:
    return {**asdict(found), "left_out": dict(found.left_out), "says": PROPOSED}


def _show(desk: Desk, found: Plan, noun: str, told: str = "") -> None:
    columns = [
        Column(noun),
        Column("net", right=True),
        Column("moisture", right=True),
        Column("sources", right=True),
        Column("goes in", wraps=True),
    ]
    rows = [
        [
            str(at),
            desk.shown(lot.grams),
            "not read" if lot.moisture is None else format_moisture(lot.moisture, 2),
            format_number(len(lot.sources)),
            ", ".join(lot.codes),
        ]
        for at, lot in enumerate(found.lots, 1)
    ]
    output.table(columns, rows)
    if told:
        output.say(told)
    output.say(
        f"Recall to expect, were one source of all that was looked at bad: "
        f"{desk.shown(found.expected_g)}."
    )
    for line in compared(desk, found):
        output.say(line)
    if found.left_out:
        out = Counter(found.left_out.values())
        output.say(f"Left out: {', '.join(f'{n} {why}' for why, n in sorted(out.items()))}.")
    output.say(PROPOSED)


def compared(desk: Desk, found: Plan) -> list[str]:
    """The proposal against the oldest first, a person's own order, and what can be at best."""
    lines = []
    if found.by_age_g is not None:
        fits = "" if found.by_age_fits else ", which would not keep what was asked"
        lines.append(f"Oldest first{fits}: {desk.shown(found.by_age_g)}.")
    else:
        lines.append("Oldest first does not come out as asked.")
    if found.own_g is not None:
        lines.append(f"Your order: {desk.shown(found.own_g)}.")
    if found.best_g is not None and found.expected_g > found.best_g:
        gap = (found.expected_g - found.best_g) / found.expected_g
        lines.append(
            f"At best it could be {desk.shown(max(0, found.best_g))}, {format_share(gap)} less."
        )
    lines.append(_STOPPED[found.stopped])
    return lines
