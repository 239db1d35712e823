"""How the line worked, on the terminal: pace by day, what it stood for; and a stop is booked."""

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date
from typing import Any

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Printing, Recording
from honeyledger.commandline.report import show_table, write_report
from honeyledger.domain.moments import house_day
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.stops import Stop
from honeyledger.services.printed import PACE_REPORT
from honeyledger.services.season_books import season_books
from honeyledger.services.season_page import season_page
from honeyledger.services.season_work import SeasonWork, WorkDay, season_work
from honeyledger.services.season_work_tables import days_table, work_report, work_says


@click.command(cls=Printing)
@click.option("--year", metavar="YEAR", help="The season of another year; else this one's.")
@click.option("--days", metavar="N", help="The last so many days of work; else all.")
@click.option("-o", "--output", "file", metavar="FILE.pdf", help="Write all of it there.")
@click.option("--paper", default="", help="a4 or letter.")
@click.option("--copies", default="1", metavar="N", help="How many, one behind the other.")
@click.pass_obj
def pace(
    desk: Desk,
    year: str | None,
    days: str | None,
    file: str | None,
    paper: str,
    copies: str,
) -> None:
    """Show how the line worked each day, and what it stood for.

    Minutes a load are those of 30 frames, over the pallets whose end was scanned; a medium radial
    extractor spins one in 5. Gaps are stretches between scans in which nobody can have worked.

    \b
    Example: honeyledger pace --days 14
    """
    now_ms = desk.house.clock()
    season = (
        parse_count(year, "a year", field="year") if year else house_day(now_ms, desk.zone).year
    )
    if file is not None:
        page = desk.ask(lambda view: season_page(view, now_ms, season))
        named = (PACE_REPORT, str(season))
        write_report(desk, work_report(page), named, (file, paper, copies))
        return
    last = None if days is None else parse_count(days, "a number of days", least=1, field="days")
    work = desk.ask(lambda view: season_work(season_books(view, season, now_ms)))
    shown = work.days if last is None else work.days[-last:]
    desk.answer(_json(work), lambda: _show(desk, work, shown))


def _json(work: SeasonWork) -> Any:
    value = _plain(asdict(work))
    for made, day in zip(value["days"], work.days, strict=True):
        made["tenths_a_load"], made["g_an_hour"] = day.tenths_a_load, day.g_an_hour
        made["supers_an_hour_tenths"] = day.supers_an_hour_tenths
    value["gap_minutes"], value["frames_an_hour"] = work.gap_minutes, work.frames_an_hour
    return value


def _plain(value: object) -> Any:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): _plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    return value


def _show(desk: Desk, work: SeasonWork, days: tuple[WorkDay, ...]) -> None:
    show_table(days_table(days, desk.unit))
    if days:
        for words in work_says(work):
            output.say(words)


@click.command(cls=Recording)
@click.argument("line")
@click.argument("reason")
@click.option("--minutes", required=True, metavar="MINUTES", help="How long it stood.")
@click.option("--why", default="", help="Anything worth knowing, such as what broke.")
@click.pass_obj
def stop(desk: Desk, line: str, reason: str, minutes: str, why: str) -> None:
    """The line stood still: for how long, and why.

    It stood until now, or until --at. REASON is one of uncapping, extractor, pump, settling,
    drums, supers, people, break, power, washing, other.

    \b
    Example: honeyledger stop "Line A" pump --minutes 25 --why "the seal" --at 10:40
    Undo: reverse the entry.
    """
    length = parse_count(minutes, "a number of minutes", field="minutes")
    desk.record(Stop(line, reason.strip().lower(), length, why))
