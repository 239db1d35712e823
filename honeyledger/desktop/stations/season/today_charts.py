"""The last run day by the hour, drawn: the pace as it happens."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Level,
    Part,
)
from honeyledger.desktop.models.days import short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import bare, counted, tr
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_today import DayHours, HourPace


def today_chart(page: SeasonPage) -> Chart:
    """Supers an hour; the hour that goes on is an outline."""
    day = page.hours
    title = tr("Supers an hour")
    if day is not None:
        title = tr("Supers an hour, {day}").format(day=short_day(day.day.day))
    return Chart(
        ChartForm.COLUMNS,
        title,
        tr("Supers extracted an hour"),
        "",
        (
            ChartHead(tr("Hour"), is_number=False),
            ChartHead(tr("Supers")),
            ChartHead(tr("In drums"), page.unit),
        ),
        tuple(_item(one, page.unit) for one in day.hours) if day is not None else (),
        levels=_usual(day) if day is not None else (),
        empty=tr("Nothing was extracted yet. Runs are opened on the floor (Ctrl+4)."),
        totals=_totals(day, page.unit) if day is not None else (),
    )


def _usual(day: DayHours) -> tuple[Level, ...]:
    if not day.usual_permille:
        return ()
    usual = day.usual_permille / 1_000
    shown = format_number(round(usual))
    return (Level(usual, tr("a usual hour, {n}").format(n=shown), shown),)


def _item(one: HourPace, unit: MassUnit) -> ChartItem:
    name = f"{one.hour:02}:00"
    supers = counted(one.supers, tr("1 super"), tr("{n} supers"))
    words = tr("{hour}: {supers}, {mass} into drums")
    if one.is_open:
        words = tr("{hour}, so far: {supers}, {mass} into drums")
    return ChartItem(
        key=str(one.hour),
        name=name,
        spoken=words.format(hour=name, supers=supers, mass=format_mass(one.drummed_g, unit, 0)),
        cells=(
            name,
            format_number(one.supers) if one.supers else "",
            bare(one.drummed_g, unit) if one.drummed_g else "",
        ),
        parts=(Part(0, float(one.supers)),) if one.supers else (),
        is_open=one.is_open,
    )


def _totals(day: DayHours, unit: MassUnit) -> tuple[str, ...]:
    supers = sum(one.supers for one in day.hours)
    grams = sum(one.drummed_g for one in day.hours)
    return tr("In all"), format_number(supers), bare(grams, unit)


def today_answer(page: SeasonPage) -> str:
    """How much went through in how long, and how fast."""
    day = page.hours
    if day is None:
        return tr("Nothing was extracted in {season}.").format(season=page.season)
    hours, minutes = divmod(day.day.minutes, 60)
    words = tr("{day}: {supers} in {hours} h {minutes} min.")
    if day.day.is_open:
        words = tr("Today so far {supers} in {hours} h {minutes} min.")
    said = words.format(
        day=short_day(day.day.day),
        supers=counted(day.day.supers, tr("1 super"), tr("{n} supers")),
        hours=hours,
        minutes=minutes,
    )
    if day.day.frames_an_hour:
        pace = tr("{pace} frames an hour, gaps left out.")
        said += " " + pace.format(pace=format_number(day.day.frames_an_hour))
    return said


def today_figures(page: SeasonPage) -> list[KeyFigure]:
    """What went into drums, and the supers of a usual day."""
    day, outlook = page.hours, page.outlook
    if day is None:
        return []
    grams = sum(one.drummed_g for one in day.hours)
    figures = [KeyFigure(format_mass(grams, page.unit, 0), tr("into drums"))]
    if outlook is not None and outlook.run_day:
        figures.append(KeyFigure(format_number(outlook.run_day), tr("usual run day")))
    return figures


def today_notes(page: SeasonPage) -> list[Message]:
    """That a gap in the scans is a gap in the chart."""
    if page.hours is None:
        return []
    text = tr("counts in the hour in which it was scanned.")
    return [Message(Mark.NOTE, tr("A pallet"), text)]
