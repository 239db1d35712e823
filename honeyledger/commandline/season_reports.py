"""A season's yields and losses on the terminal, and as papers."""

from collections.abc import Callable
from typing import Any

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Printing
from honeyledger.commandline.report import show_table, write_report
from honeyledger.commandline.season import season_json
from honeyledger.domain.units import parse_count
from honeyledger.services.printed import LOSS_REPORT, YIELD_REPORT
from honeyledger.services.report_tables import Report, ReportTable
from honeyledger.services.season_page import SeasonPage, season_page
from honeyledger.services.season_tables import (
    loss_report,
    loss_tables,
    wax_words,
    yield_report,
    yield_tables,
)
from honeyledger.services.season_wax import comb_costs

_YEAR = click.option("--year", metavar="YEAR", help="The season of another year; else this one's.")
_FILE = click.option("-o", "--output", "file", metavar="FILE.pdf", help="Write all of it there.")
_PAPER = click.option("--paper", default="", help="a4 or letter.")
_COPIES = click.option(
    "--copies", default="1", metavar="N", help="How many, one behind the other."
)


@click.command("yields", cls=Printing)
@click.argument("what", required=False, default="yards")
@_YEAR
@_FILE
@_PAPER
@_COPIES
@click.pass_obj
def yields(
    desk: Desk, what: str, year: str | None, file: str | None, paper: str, copies: str
) -> None:
    """Show what a season gave: yards, crews, forages, weeks, seasons, slips or weather.

    Slips are stacks that lie far off the others, with the likeliest reason. Yields are estimates.
    With --json it is all of it at once.

    \b
    Example: honeyledger yields crews --year 2026
    """
    page = _page(desk, year)
    value = {key: season_json(page)[key] for key in ("yields", "groups", "slips", "weather")}
    _answer(
        desk,
        page,
        (yield_tables(page), what),
        (yield_report, YIELD_REPORT, file, paper, copies),
        value,
    )


@click.command("losses", cls=Printing)
@click.argument("what", required=False, default="out")
@_YEAR
@click.option("--comb", metavar="WEIGHT", help="What so much destroyed comb costs in honey.")
@_FILE
@_PAPER
@_COPIES
@click.pass_obj
def losses(
    desk: Desk,
    what: str,
    year: str | None,
    comb: str | None,
    file: str | None,
    paper: str,
    copies: str,
) -> None:
    """Show a season's losses: out (of the usual), runs, machines, limits or wax.

    Each part of a line's losses has control limits, so that a leak or a bad scale shows within
    days. An alarm says where to look first. With --json it is all of it at once.

    \b
    Example: honeyledger losses runs --year 2026
    """
    if comb is not None:
        grams = desk.the_mass(comb, "comb")
        low, high = comb_costs(grams)
        words = f"Bees use {desk.shown(low)} to {desk.shown(high)} of honey to build it again"
        said = f"{words} (common practice, no source)."
        desk.answer({"comb_g": grams, "honey_g": [low, high]}, lambda: output.say(said))
        return
    page = _page(desk, year)
    value = {key: season_json(page)[key] for key in ("losses", "charts", "wax")}
    _answer(
        desk,
        page,
        (loss_tables(page), what),
        (loss_report, LOSS_REPORT, file, paper, copies),
        value,
    )


def _page(desk: Desk, year: str | None) -> SeasonPage:
    wanted = 0 if year is None else parse_count(year, "a year", field="year")
    now_ms = desk.house.clock()
    return desk.ask(lambda view: season_page(view, now_ms, wanted))


def _answer(
    desk: Desk,
    page: SeasonPage,
    shown: tuple[tuple[ReportTable, ...], str],
    onto: tuple[Callable[[SeasonPage], Report], str, str | None, str, str],
    value: Any,
) -> None:
    tables, what = shown
    chosen = {table.key: table for table in tables}.get(what)
    if chosen is None:
        raise click.UsageError(f"{what} is none of {', '.join(table.key for table in tables)}.")
    report, kind, file, paper, copies = onto
    if file is not None:
        write_report(desk, report(page), (kind, str(page.season)), (file, paper, copies))
        return
    desk.answer(value, lambda: _show(page, chosen))


def _show(page: SeasonPage, chosen: ReportTable) -> None:
    show_table(chosen)
    if chosen.key == "wax":
        for line in wax_words(page.wax, page.unit):
            output.say(line)
