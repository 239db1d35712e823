"""A season planned on the terminal: what it comes to, what holds it up, and what helps."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, replace
from datetime import date
from typing import Any, TypeVar

import click

from honeyledger.commandline import output, progress, report
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Printing
from honeyledger.domain.units import parse_count
from honeyledger.optimisation.season_runs import HouseSimulator
from honeyledger.services.printed import SEASON_PLAN
from honeyledger.services.report_tables import Report
from honeyledger.services.season_defaults import Defaults, plan_defaults
from honeyledger.services.season_forecast import Forecast, Simulator, forecast
from honeyledger.services.season_plan import HousePlan, PlanYard
from honeyledger.services.season_plan_report import plan_frame, plan_report
from honeyledger.services.season_typed import parse_plan_figure, with_yards

F = TypeVar("F", bound=Callable[..., Any])

# Option, the plan's figure, what the help says.
FIGURES = (
    ("--supers", "supers_hundredths", "Supers a colony."),
    ("--through", "through", "Supers that are through already."),
    ("--frames", "frames", "Frames a super, of every sort of box."),
    ("--pulled", "pulled_a_day", "Supers pulled on a day."),
    ("--no-pulling", "weather_permille", "Percent of work days without pulling: weather."),
    ("--days-a-week", "days_a_week", "Work days a week."),
    ("--places", "places", "Places for pallets in the hot room."),
    ("--on-a-pallet", "supers_a_place", "Supers on a pallet."),
    ("--warm", "warm_hours", "Hours a pallet stays in the hot room."),
    ("--uncappers", "uncappers", "Places to uncap at."),
    ("--uncapped", "uncapped_an_hour", "Frames uncapped an hour at each."),
    ("--extractors", "extractors", "Extractors."),
    ("--load", "frames_a_load", "Frames a load."),
    ("--spin", "spin_tenths", "Minutes a spin."),
    ("--loading", "load_tenths", "Minutes to load and unload."),
    ("--tanks", "tanks", "Settling tanks."),
    ("--settle", "settle_hours", "Hours honey rests in a full tank; 0 for none."),
    ("--crew", "crew", "People at work at the same time."),
    ("--shifts", "shifts", "Shifts a day."),
    ("--hours", "shift_tenths", "Hours a shift."),
    ("--cleaning", "clean_minutes", "Minutes a day for setting up and washing."),
)
MASSES = (
    ("--honey", "honey_g", "Honey a super, of every sort of box."),
    ("--tank", "tank_g", "What a settling tank holds."),
    ("--drum", "drum_g", "Honey a drum."),
)


def _figures(command: F) -> F:
    for flag, name, words in reversed((*FIGURES, *MASSES)):
        kind = "WEIGHT" if name.endswith("_g") else "N"
        command = click.option(flag, name, metavar=kind, help=words)(command)
    return command


@click.command("season", cls=Printing)
@click.option("--begins", metavar="DAY", help="The first day.")
@click.option("--colonies", metavar="N", help="Of all yards; else those on record.")
@click.option("--yard", "yards", multiple=True, metavar="YARD=N", help="A yard's colonies.")
@_figures
@click.option("--whole/--rest", "whole", default=None, help="A whole season, or what is left.")
@click.option("--seasons", default="100", metavar="N", help="Simulate so many; else 100.")
@click.option("--seed", default="1", metavar="N", help="Of chance: the same gives the same.")
@click.option("-o", "--output", "file", metavar="FILE.pdf", help="Write it on paper.")
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def season(
    desk: Desk,
    /,
    yards: Sequence[str],
    whole: bool | None,
    seasons: str,
    seed: str,
    file: str | None,
    paper: str,
    copies: str,
    **typed: str | None,
) -> None:
    """Plan a season's work: supers, frames, hours, drums, when it ends, and what holds it up.

    Begins with what the ledger knows; every option changes a figure of it. Bands are where four of
    five simulated seasons come out. A figure that cannot be is told, and the rest is planned.
    Ctrl+C while it simulates: the bands are of the seasons there are by then.

    \b
    Example: honeyledger plan season --colonies 1200 --extractors 2 --shifts 2
    """
    now_ms = desk.house.clock()
    defaults = desk.ask(lambda view: plan_defaults(view, now_ms, whole))
    plan = with_yards(_typed(desk, defaults.plan, typed), yards)
    count = parse_count(seasons, "a number of seasons", least=1, field="seasons")
    chance = parse_count(seed, "a seed", field="seed")
    made = simulated(plan, HouseSimulator(), count, chance)
    frame = desk.ask(lambda view: plan_frame(view))
    told = plan_report(made, defaults, replace(frame, unit=desk.unit))
    if file is not None:
        named = (SEASON_PLAN, plan.begins.isoformat())
        report.write_report(desk, told, named, (file, paper, copies))
        return
    desk.answer(_json(made, defaults), lambda: _show(told))


def simulated(plan: HousePlan, simulator: Simulator, count: int, seed: int) -> Forecast:
    """The plan looked ahead to, with how far it is; Ctrl+C leaves it at what there is by then."""
    with (
        progress.bar("Simulating seasons; Ctrl+C: enough") as step,
        progress.stoppable() as enough,
    ):

        def go_on(done: int, of: int) -> bool:
            step(done, of)
            return not enough.is_set()

        return forecast(plan, simulator, go_on, count=count, seed=seed)


def _show(told: Report) -> None:
    for caption, words in told.facts:
        output.say(f"{caption}: {words}.")
    # The list of yards is for the paper: here it would push the answer out of sight.
    for table in (one for one in told.tables if one.key != "yards"):
        output.say()
        output.say(f"{table.title}:")
        report.show_table(table)
    output.say()
    for sentence in told.says:
        output.say(sentence)


def _typed(desk: Desk, plan: HousePlan, typed: Mapping[str, str | None]) -> HousePlan:
    """The plan with what was typed."""
    changes: dict[str, Any] = {}
    boxes = plan.boxes
    for name, text in typed.items():
        if text is None:
            continue
        if name == "begins":
            changes[name] = desk.date(text, name)
            continue
        value = parse_plan_figure(name, text, desk.unit)
        if name == "colonies":
            changes["yards"] = (PlanYard("", value),)
        elif name in ("frames", "honey_g"):
            made: dict[str, Any] = {name: value}
            boxes = tuple(replace(box, **made) for box in boxes)
        else:
            changes[name] = value
    return replace(plan, boxes=boxes, **changes)


def _json(made: Forecast, defaults: Defaults) -> Any:
    value = _plain(asdict(replace(made, wrong=())))
    value["wrong"] = [{"field": one.field, "says": one.text} for one in made.wrong]
    value["told"] = sorted(defaults.told)
    value["is_rest"] = defaults.is_rest
    return value


def _plain(value: object) -> Any:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): _plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    return value
