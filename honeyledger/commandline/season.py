"""A season on the terminal: what it gave, how fast it goes, what it lost, what stands in drums."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from datetime import date
from typing import Any

import click

from honeyledger.commandline import output
from honeyledger.commandline.desk import Desk
from honeyledger.commandline.options import Asking
from honeyledger.commandline.output import Column
from honeyledger.domain.moments import format_day
from honeyledger.domain.units import format_colour, format_moisture, format_number, parse_count
from honeyledger.services.season_pace import Outlook
from honeyledger.services.season_page import SeasonPage, season_page
from honeyledger.services.season_readings import ReadThrough

Rows = tuple[Sequence[Column], list[list[str]], str]
"""A table's columns and rows, and what is said where there are none."""


@click.command(cls=Asking)
@click.argument("what", required=False, default="pace")
@click.option("--year", metavar="YEAR", help="The season of another year; else this one's.")
@click.pass_obj
def season(desk: Desk, what: str, year: str | None) -> None:
    """Show a season: pace, today, yards, weeks, moisture, colour, losses or drums.

    Pace says what is left and when it ends at the last fortnight's pace; weather is not in it.
    Figures of pulls are estimates. With --json it is all of the season at once.

    \b
    Example: honeyledger season yards --year 2026
    """
    tell = _TABLES.get(what)
    if tell is None:
        raise click.UsageError(f"{what} is none of {', '.join(_TABLES)}.")
    wanted = 0 if year is None else parse_count(year, "a year", field="year")
    now_ms = desk.house.clock()
    page = desk.ask(lambda view: season_page(view, now_ms, wanted))
    desk.answer(season_json(page), lambda: _show(desk, page, tell))


def _show(desk: Desk, page: SeasonPage, tell: Callable[[Desk, SeasonPage], Rows]) -> None:
    columns, rows, empty = tell(desk, page)
    if rows:
        output.table(columns, rows)
    else:
        output.say(empty)
    if tell is _pace and page.outlook is not None:
        for line in outlook_lines(desk, page):
            output.say(line)


def season_json(page: SeasonPage) -> Any:
    """All of it as plain values: days as ISO, masses in grams, shares in hundredths of a percent.

    What is worked out of two figures stands beside them: grams a colony, shares of a run.
    """
    value = _plain(asdict(page))
    for made, row in zip(value["yields"]["yards"], page.yields.yards, strict=True):
        made["now"]["a_colony"] = row.now.a_colony
        for one, earlier in zip(made["earlier"], row.earlier, strict=True):
            one["a_colony"] = earlier.a_colony
    value["yields"]["in_all"]["a_colony"] = page.yields.in_all.a_colony
    for made, run in zip(value["losses"]["runs"], page.losses.runs, strict=True):
        made["difference_share"] = run.share(run.difference_g)
    return value


def _plain(value: object) -> Any:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): _plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    return value


def outlook_lines(desk: Desk, page: SeasonPage) -> list[str]:
    """What is left, when it ends, and what the crop comes to."""
    outlook = page.outlook
    assert outlook is not None
    lines = [
        f"Left: {_count(outlook.waiting)} supers in the house, {_count(outlook.out)} on the hives."
    ]
    if outlook.unsaid:
        yards = "1 yard" if outlook.unsaid == 1 else f"{outlook.unsaid} yards"
        lines.append(f"Of {yards} nobody said how many supers went on: not counted.")
    if outlook.left:
        ends = _day(outlook.ends, "nobody can tell: no run in the last fortnight")
        soonest = _day(outlook.soonest, "nobody can tell: no run yet")
        lines.append(f"The last one goes through at the last fortnight's pace: {ends}.")
        lines.append(f"With a run every day: {soonest}. Weather is not in it.")
        lines += _needed(outlook)
    lines.append(f"Crop in all, about: {desk.shown(outlook.crop_g)}.")
    return lines


def _needed(outlook: Outlook) -> list[str]:
    """Hours, drums and people for what is left, as far as they can be told."""
    said = []
    if outlook.minutes:
        said.append(f"{_count(max(1, round(outlook.minutes / 60)))} h of extracting")
    if outlook.work_minutes:
        hours = _count(max(1, round(outlook.work_minutes / 60)))
        said.append(f"{hours} h of work by {_count(outlook.people)} people")
    if outlook.drums:
        said.append(f"drums {_count(outlook.drums)}")
    return [f"It still takes, about: {', '.join(said)}."] if said else []


def _day(day: date | None, otherwise: str) -> str:
    return format_day(day) if day is not None else otherwise


def _count(value: int) -> str:
    return format_number(value)


def _pace(desk: Desk, page: SeasonPage) -> Rows:
    columns = (
        Column("day"),
        Column("supers in", right=True),
        Column("supers through", right=True),
        Column("frames an hour", right=True),
        Column("in drums", right=True),
        Column(""),
    )
    rows = [
        [
            format_day(day.day),
            _count(day.received),
            _count(day.supers),
            _count(day.frames_an_hour),
            desk.shown(day.drummed_g),
            "so far" if day.is_open else "",
        ]
        for day in page.days
    ]
    return columns, rows, "No work this season yet."


def _today(desk: Desk, page: SeasonPage) -> Rows:
    columns = (
        Column("hour"),
        Column("supers through", right=True),
        Column("in drums", right=True),
        Column(""),
    )
    rows = [
        [
            f"{one.hour:02}:00",
            _count(one.supers),
            desk.shown(one.drummed_g),
            "so far" if one.is_open else "",
        ]
        for one in (page.hours.hours if page.hours is not None else ())
    ]
    if page.hours is not None:
        usual = f"{page.hours.usual_permille / 1_000:.0f} in a usual hour"
        rows.append([format_day(page.hours.day.day), _count(page.hours.day.supers), "", usual])
    return columns, rows, "No run this season yet."


def _yards(desk: Desk, page: SeasonPage) -> Rows:
    columns = _columns(
        "yard", "colonies", "supers", "honey, about", "a colony", "the season before"
    )
    rows = []
    for row in page.yields.yards:
        before = row.earlier[0].a_colony if row.earlier else None
        rows.append(
            [
                row.name,
                _count(row.now.colonies),
                _count(row.now.supers),
                desk.shown(row.now.grams),
                _mass(desk, row.now.a_colony),
                _mass(desk, before),
            ]
        )
    in_all = page.yields.in_all
    if rows:
        total = [_count(in_all.colonies), _count(in_all.supers), desk.shown(in_all.grams)]
        rows.append(["all that were pulled", *total, _mass(desk, in_all.a_colony), ""])
    return columns, rows, "There is no yard yet."


def _columns(name: str, *figures: str) -> Sequence[Column]:
    """What a row is about, and its figures."""
    return (Column(name), *(Column(one, right=True) for one in figures))


def _mass(desk: Desk, grams: int | None) -> str:
    return desk.shown(grams) if grams else ""


def _weeks(desk: Desk, page: SeasonPage) -> Rows:
    columns = _columns("week of", "supers", "honey, about", "the season before")
    rows = [
        [
            format_day(week.first),
            _count(week.supers),
            desk.shown(week.grams),
            desk.shown(week.earlier[0][1]) if week.earlier else "",
        ]
        for week in page.yields.weeks
    ]
    return columns, rows, "Nothing was pulled yet."


def _read(read: ReadThrough, shown: Callable[[int], str], empty: str) -> Rows:
    columns = _columns("week of", "read", "lowest", "middle", "highest")
    rows = [
        [
            format_day(week.first),
            _count(week.count),
            shown(week.low),
            shown(week.middle),
            shown(week.high),
        ]
        for week in read.weeks
    ]
    return columns, rows, empty


def _moisture(_desk: Desk, page: SeasonPage) -> Rows:
    return _read(page.moisture, format_moisture, "No moisture was read.")


def _colour(_desk: Desk, page: SeasonPage) -> Rows:
    return _read(page.colour, format_colour, "No colour was read.")


def _losses(desk: Desk, page: SeasonPage) -> Rows:
    columns = (
        Column("run"),
        Column("day"),
        Column("in, about", right=True),
        Column("cappings", right=True),
        Column("wet supers", right=True),
        Column("foam", right=True),
        Column("difference", right=True),
        Column("", right=True),
    )
    rows = []
    for run in page.losses.closed:
        share = run.share(run.difference_g)
        rows.append(
            [
                run.code,
                format_day(run.day),
                desk.shown(run.in_g),
                desk.shown(run.cappings_g),
                "not weighed" if run.wet_g is None else desk.shown(run.wet_g),
                desk.shown(run.foam_g),
                desk.shown(run.difference_g),
                "" if share is None else format_moisture(share),
            ]
        )
    return columns, rows, "No run was closed."


def _drums(desk: Desk, page: SeasonPage) -> Rows:
    columns = _columns("colour", "drums", "honey", "on hold", "wettest")
    rows = [
        [
            one.symbol or "not read",
            _count(one.count),
            desk.shown(one.grams),
            _mass(desk, one.held_g),
            "" if one.wettest is None else format_moisture(one.wettest),
        ]
        for one in page.stock
    ]
    return columns, rows, "No honey stands in drums."


_TABLES: Mapping[str, Callable[[Desk, SeasonPage], Rows]] = {
    "pace": _pace,
    "today": _today,
    "yards": _yards,
    "weeks": _weeks,
    "moisture": _moisture,
    "colour": _colour,
    "losses": _losses,
    "drums": _drums,
}
