"""The pace, drawn: supers a day; and what is left, said with what it rests on."""

from datetime import date

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
from honeyledger.desktop.stations.season.words import bare, counted, mass, span, tr
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.season_pace import DayPace, Outlook
from honeyledger.services.season_page import SeasonPage


def pace_chart(page: SeasonPage) -> Chart:
    """Supers that went through each day; a day that still goes on is an outline."""
    days = [day for day in page.days if day.supers or day.drummed_g]
    levels: tuple[Level, ...] = ()
    if page.outlook is not None and page.outlook.run_day:
        count = page.outlook.run_day
        words = tr("a usual run day, {n}").format(n=format_number(count))
        levels = (Level(float(count), words, format_number(count)),)
    return Chart(
        ChartForm.COLUMNS,
        tr("Supers through the house a day, {season}").format(season=page.season),
        tr("Supers extracted a day"),
        "",
        (
            ChartHead(tr("Day"), is_number=False),
            ChartHead(tr("Supers")),
            ChartHead(tr("Frames"), tr("an hour")),
            ChartHead(tr("In drums"), page.unit),
            ChartHead(tr("Came in"), tr("supers"), from_width=440),
        ),
        tuple(_day_item(day, page.unit) for day in days),
        levels=levels,
        empty=tr("Nothing was extracted yet. Runs are opened on the floor (Ctrl+4)."),
        totals=(
            tr("In all"),
            format_number(sum(day.supers for day in days)),
            "",
            bare(sum(day.drummed_g for day in days), page.unit),
            format_number(sum(day.received for day in page.days)),
        )
        if days
        else (),
    )


def _day_item(day: DayPace, unit: MassUnit) -> ChartItem:
    name = short_day(day.day)
    return ChartItem(
        key=day.day.isoformat(),
        name=name,
        spoken=_day_words(day, unit),
        cells=(
            name,
            format_number(day.supers) if day.supers else "",
            format_number(day.frames_an_hour) if day.frames_an_hour else "",
            bare(day.drummed_g, unit) if day.drummed_g else "",
            format_number(day.received) if day.received else "",
        ),
        parts=(Part(0, float(day.supers)),) if day.supers > 0 else (),
        at=float(day.day.toordinal()),
        is_open=day.is_open,
    )


def _day_words(day: DayPace, unit: MassUnit) -> str:
    lead = tr("{day} so far") if day.is_open else "{day}"
    said = [counted(day.supers, tr("1 super"), tr("{n} supers"))]
    if day.minutes:
        words = tr("{frames} frames in {hours} h {minutes} min")
        hours, minutes = divmod(day.minutes, 60)
        frames = format_number(day.frames)
        said.append(words.format(frames=frames, hours=hours, minutes=minutes))
    if day.frames_an_hour:
        said.append(tr("{pace} an hour").format(pace=format_number(day.frames_an_hour)))
    drums = tr("{mass} into drums").format(mass=format_mass(day.drummed_g, unit, 0))
    said.append(drums)
    return f"{lead.format(day=short_day(day.day))}: {', '.join(said)}"


def pace_answer(page: SeasonPage) -> str:
    """What is left and when it ends; of a season that is over, what it took."""
    ran = [day for day in page.days if day.supers]
    if page.outlook is None or not (ran or page.outlook.left):
        if not ran:
            return tr("Nothing was extracted in {season}.").format(season=page.season)
        words = tr("{supers} went through on {days}, from {first} to {last}.")
        return words.format(
            supers=counted(sum(day.supers for day in ran), tr("1 super"), tr("{n} supers")),
            days=counted(len(ran), tr("one day"), tr("{n} days")),
            first=span(ran[0].day, page.season),
            last=span(ran[-1].day, page.season),
        )
    return outlook_words(page.outlook, page.season)


def outlook_words(outlook: Outlook, season: int) -> str:
    """How many supers are left, and the two ends of the arithmetic."""
    if not outlook.left:
        return tr("The crop is in: by the books no super waits, and none is out.")
    left = counted(outlook.left, tr("1 super is left"), tr("{n} supers are left"))
    if outlook.ends is None and outlook.soonest is None:
        return tr("{left}. No run yet, so no end can be told.").format(left=left)
    if outlook.ends is None:
        words = tr("{left}. No run in the last fortnight; with a run every day, on {soonest}.")
    else:
        words = tr(
            "{left}. At the last fortnight’s pace the last goes through on {ends}; "
            "with a run every day, on {soonest}."
        )
    return words.format(
        left=left, ends=_day(outlook.ends, season), soonest=_day(outlook.soonest, season)
    )


def _day(day: date | None, season: int) -> str:
    return span(day, season) if day is not None else tr("not to be told")


def pace_figures(page: SeasonPage) -> list[KeyFigure]:
    """Today, where it goes on; what the crop comes to; what waits and what is out."""
    figures = []
    today = next((day for day in page.days if day.day == page.today), None)
    if today is not None and today.is_open and today.frames_an_hour:
        pace = tr("{n}/h").format(n=format_number(today.frames_an_hour))
        words = tr("frames today")
        if usual := page.work.frames_an_hour:
            words = tr("frames, usual {n}").format(n=format_number(usual))
        figures.append(KeyFigure(pace, words))
    outlook = page.outlook
    if outlook is not None and outlook.pulled_g:
        figures.append(KeyFigure(f"≈\u202f{mass(outlook.crop_g, page.unit)}", tr("crop in all")))
        left = tr("{here} + {out}").format(
            here=format_number(outlook.waiting), out=format_number(outlook.out)
        )
        figures.append(KeyFigure(left, tr("here, on hives")))
    return figures


def pace_notes(page: SeasonPage) -> list[Message]:
    """What the end leaves out."""
    outlook = page.outlook
    if outlook is None:
        return []
    if outlook.unsaid:
        lead = counted(outlook.unsaid, tr("Of 1 yard"), tr("Of {n} yards"))
        text = tr("nobody said how many supers went on: what is out there is not counted.")
        return [Message(Mark.WARNING, lead, text)]
    if outlook.left:
        return [Message(Mark.NOTE, tr("By counting alone:"), f"{needed_words(outlook)}.")]
    return []


def needed_words(outlook: Outlook) -> str:
    """What the rest still takes, as far as it can be told; and what is not in it."""
    said = []
    if outlook.minutes:
        hours = max(1, round(outlook.minutes / 60))
        said.append(counted(hours, tr("≈ 1 hour of extracting"), tr("≈ {n} hours of extracting")))
    if outlook.work_minutes:
        hours = max(1, round(outlook.work_minutes / 60))
        work = tr("≈ {hours} h of work by {people} people")
        said.append(work.format(hours=format_number(hours), people=format_number(outlook.people)))
    if outlook.drums:
        said.append(counted(outlook.drums, tr("≈ 1 more drum"), tr("≈ {n} more drums")))
    return "; ".join([*([", ".join(said)] if said else []), tr("weather is not in it")])
