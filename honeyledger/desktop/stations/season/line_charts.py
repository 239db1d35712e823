"""How the line worked, drawn: minutes a load each day against the machine's own, and its stops."""

from honeyledger.desktop.language import say
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
from honeyledger.domain.units import MassUnit, format_number
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_work import MACHINE_TENTHS, WorkDay


def line_chart(page: SeasonPage) -> Chart:
    """Minutes a load of 30 frames each day; the line is what a machine takes that never waits."""
    machine = MACHINE_TENTHS / 10
    words = tr("the machine’s own, {n}").format(n=f"{machine:.1f}")
    return Chart(
        ChartForm.COLUMNS,
        tr("Minutes a load of 30 frames, {season}").format(season=page.season),
        tr("Minutes a load of 30 frames"),
        "",
        (
            ChartHead(tr("Day"), is_number=False),
            ChartHead(tr("A load"), tr("min")),
            ChartHead(tr("Supers"), tr("an hour"), from_width=580),
            ChartHead(tr("In drums"), tr("{unit}/h").format(unit=page.unit)),
            ChartHead(tr("Stood"), tr("min")),
            ChartHead(tr("Gaps"), tr("min"), from_width=440),
            ChartHead(tr("Crew"), tr("h"), from_width=520),
        ),
        tuple(_item(day, page.unit) for day in page.work.days),
        levels=(Level(machine, words, f"{machine:.1f}"),),
        empty=tr("Nothing was extracted yet. Runs are opened on the floor (Ctrl+4)."),
    )


def _item(day: WorkDay, unit: MassUnit) -> ChartItem:
    name, load = short_day(day.pace.day), f"{day.tenths_a_load / 10:.1f}"
    words = tr("{day}: {n} min a load") if day.tenths_a_load else tr("{day}: no load was timed")
    said = [words.format(day=name, n=load)]
    if day.stood_minutes:
        reasons = ", ".join(dict.fromkeys(say(one.words) for one in day.stood))
        stood = tr("stood {n} min ({reasons})")
        said.append(stood.format(n=format_number(day.stood_minutes), reasons=reasons))
    if day.gap_minutes:
        gaps = tr("{n} min of gaps that nobody explained")
        said.append(gaps.format(n=format_number(day.gap_minutes)))
    crew = "" if day.crew_minutes is None else f"{day.crew_minutes / 60:.1f}"
    return ChartItem(
        key=day.pace.day.isoformat(),
        name=name,
        spoken=", ".join(said),
        cells=(
            name,
            load if day.tenths_a_load else "",
            f"{day.supers_an_hour_tenths / 10:.1f}",
            bare(day.g_an_hour, unit) if day.g_an_hour else "",
            format_number(day.stood_minutes) if day.stood_minutes else "",
            format_number(day.gap_minutes) if day.gap_minutes else "",
            crew,
        ),
        parts=(Part(0, day.tenths_a_load / 10),) if day.tenths_a_load else (),
        at=float(day.pace.day.toordinal()),
        is_open=day.pace.is_open,
    )


def line_answer(page: SeasonPage) -> str:
    """The middle day's pace, and what the line stood for most."""
    work = page.work
    if not work.days:
        return tr("Nothing was extracted in {season}.").format(season=page.season)
    said = []
    if an_hour := work.frames_an_hour:
        words = tr("On the middle day {n} frames an hour, where the machine itself does 360.")
        said.append(words.format(n=format_number(an_hour)))
    else:
        said.append(tr("No load was timed: a pace needs two scans of pallets."))
    if work.waited:
        first = work.waited[0]
        words = tr("It stood longest for: {reason}.")
        said.append(words.format(reason=say(first.words)))
    return " ".join(said)


def line_figures(page: SeasonPage) -> list[KeyFigure]:
    """How long it stood, as it was said and as nobody said."""
    said = sum(one.minutes for one in page.work.waited)
    on_line = sum(day.pace.minutes for day in page.work.days)
    figures = [KeyFigure(_hours(on_line), tr("on the line"))] if page.work.days else []
    if said:
        part = format_number(round(100 * said / max(1, on_line)))
        figures.append(KeyFigure(_hours(said), tr("stood, {n} % of that").format(n=part)))
    if page.work.gap_minutes:
        figures.append(KeyFigure(_hours(page.work.gap_minutes), tr("gaps in scans")))
    return figures


def _hours(minutes: int) -> str:
    return tr("{n} h").format(n=f"{minutes / 60:.1f}")


def line_notes(page: SeasonPage) -> list[Message]:
    """Each reason with its time; how a stop is said, where none was."""
    work = page.work
    if not work.waited:
        text = tr("is said on the floor, under Skim, comb…; its minutes are taken off the pace.")
        return [Message(Mark.NOTE, tr("Why the line stands"), text)]
    parts = [
        tr("{reason} {n} min").format(reason=say(one.words), n=format_number(one.minutes))
        for one in work.waited
    ]
    times = sum(one.times for one in work.waited)
    lead = counted(times, tr("1 stop:"), tr("{n} stops:"))
    return [Message(Mark.NOTE, lead, f"{', '.join(parts)}.")]
