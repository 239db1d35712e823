"""How the line worked, on the terminal: pace by day, what it stood for; and a stop is booked."""

from collections.abc import Mapping
from dataclasses import asdict
from datetime import date
from typing import Any

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking, Recording
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_day, house_day
from honeyledger.domain.units import format_number, parse_count
from honeyledger.ledger.verbs.stops import Stop
from honeyledger.services.season_books import season_books
from honeyledger.services.season_work import MACHINE_TENTHS, SeasonWork, WorkDay, season_work


@click.command(cls=Asking)
@click.option("--year", metavar="YEAR", help="The season of another year; else this one's.")
@click.option("--days", metavar="N", help="The last so many days of work; else all.")
@click.pass_obj
def pace(desk: Desk, year: str | None, days: str | None) -> None:
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
    if not days:
        output.say("Nothing was extracted in this season yet.")
        return
    heads = ("supers", "supers/h", "frames/h", "min a load", "in drums/h", "stood", "gaps", "crew")
    columns = (Column("day"), *(Column(head, right=True) for head in heads))
    output.table(columns, [_row(desk, day) for day in days])
    usual = f"{MACHINE_TENTHS / 10:.1f}"
    if an_hour := work.frames_an_hour:
        output.say(
            f"On the middle day {format_number(an_hour)} frames an hour; a machine that never "
            f"waits takes {usual} min a load, 360 frames an hour."
        )
    for one in work.waited:
        times = "once" if one.times == 1 else f"{one.times} times"
        output.say(f"Stood for {one.words}: {times}, {_span(one.minutes)}.")
    if gaps := work.gap_minutes:
        output.say(f"Gaps in the scans that nobody explained: {_span(gaps)}. `stop` says why.")


def _row(desk: Desk, day: WorkDay) -> list[str]:
    pace = day.pace
    return [
        format_day(pace.day) + (" so far" if pace.is_open else ""),
        format_number(pace.supers),
        f"{day.supers_an_hour_tenths / 10:.1f}" if pace.minutes else "",
        format_number(pace.frames_an_hour) if pace.frames_an_hour else "",
        f"{day.tenths_a_load / 10:.1f}" if day.tenths_a_load else "",
        desk.shown(day.g_an_hour) if day.g_an_hour else "",
        _span(day.stood_minutes),
        _span(day.gap_minutes),
        "not said" if day.crew_minutes is None else _span(day.crew_minutes),
    ]


def _span(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min" if rest else ""
    return f"{hours} h {rest:02} min"


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
