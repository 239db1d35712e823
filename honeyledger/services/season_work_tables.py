"""How the line worked as a report's tables: each day's pace, each stop that was said."""

from honeyledger.domain.moments import format_day, format_moment, moment_at
from honeyledger.domain.units import MassUnit, format_number, format_weight
from honeyledger.services.report_tables import (
    Report,
    ReportTable,
    cells,
    figure,
    name,
)
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_tables import season_report
from honeyledger.services.season_work import MACHINE_TENTHS, SeasonWork, Stood, WorkDay

NO_WORK = "Nothing was extracted in this season yet."


def work_report(page: SeasonPage) -> Report:
    """All days, and all stops with their reasons."""
    tables = (days_table(page.work.days, page.unit), _stops(page))
    return season_report(page, f"Pace {page.season}", work_says(page.work), tables)


def days_table(days: tuple[WorkDay, ...], unit: MassUnit) -> ReportTable:
    """A row a day."""

    def row(day: WorkDay) -> tuple[str, ...]:
        pace = day.pace
        return (
            format_day(pace.day) + (" so far" if pace.is_open else ""),
            format_number(pace.supers),
            f"{day.supers_an_hour_tenths / 10:.1f}" if pace.minutes else "",
            format_number(pace.frames_an_hour) if pace.frames_an_hour else "",
            f"{day.tenths_a_load / 10:.1f}" if day.tenths_a_load else "",
            format_weight(day.g_an_hour, unit) if day.g_an_hour else "",
            span(day.stood_minutes),
            span(day.gap_minutes),
            "not said" if day.crew_minutes is None else span(day.crew_minutes),
        )

    columns = (
        *(
            name("day", 3.4),
            figure("supers", 1.4),
            figure("supers/h", 1.6),
            figure("frames/h", 1.7),
        ),
        *(figure("min a load", 2), figure("in drums/h", 2.2), figure("stood", 1.9)),
        *(figure("gaps", 1.9), figure("crew", 2.4)),
    )
    return ReportTable("days", "Day by day", columns, cells(days, row), none=NO_WORK)


def _stops(page: SeasonPage) -> ReportTable:
    def row(one: Stood) -> tuple[str, ...]:
        until = format_moment(moment_at(one.until_ms, page.zone))
        return until, span(one.minutes), str(one.words), one.why

    stood = [one for day in page.work.days for one in day.stood]
    columns = (name("until", 3.4), figure("stood", 1.9), name("for", 3), name("more of it", 6))
    none = "No stop was said."
    return ReportTable("stops", "What the line stood for", columns, cells(stood, row), none=none)


def work_says(work: SeasonWork) -> tuple[str, ...]:
    """The pace against a machine's own, what it stood for, and the gaps nobody explained."""
    said = []
    if an_hour := work.frames_an_hour:
        said.append(
            f"On the middle day {format_number(an_hour)} frames an hour; a machine that never "
            f"waits takes {MACHINE_TENTHS / 10:.1f} min a load, 360 frames an hour."
        )
    for one in work.waited:
        times = "once" if one.times == 1 else f"{one.times} times"
        said.append(f"Stood for {one.words}: {times}, {span(one.minutes)}.")
    if gaps := work.gap_minutes:
        said.append(f"Gaps in the scans that nobody explained: {span(gaps)}. `stop` says why.")
    return tuple(said)


def span(minutes: int) -> str:
    """Hours and minutes; "" for none."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min" if rest else ""
    return f"{hours} h {rest:02} min"
