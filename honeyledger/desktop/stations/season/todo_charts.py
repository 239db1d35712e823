"""What there is to do today, drawn: how much of it is where, and each thing in its row."""

from honeyledger.desktop.language import say
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Part
from honeyledger.desktop.models.days import format_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import counted, tr
from honeyledger.domain.units import format_number
from honeyledger.services.day_sheet import OVERDUE, SOON, TODAY, WHEN, DaySheet, ToDo
from honeyledger.services.season_page import SeasonPage

_FEW = 3


def nothing_to_do() -> str:
    """What is said in a house that is in order."""
    return tr("Nothing is due today, by what is recorded.")


def todo_chart(page: SeasonPage) -> Chart:
    """A line a thing, with what is overdue in its own series."""
    sheet = page.today_sheet
    rows = sheet.rows if sheet is not None else ()
    title = tr("To do")
    if sheet is not None:
        title = tr("To do, {day}").format(day=format_day(sheet.day))
    return Chart(
        ChartForm.BARS,
        title,
        tr("What there is to do"),
        "",
        (
            ChartHead(tr("What"), is_number=False),
            ChartHead(tr("Station"), is_number=False, under=True),
            ChartHead(tr("When"), is_number=False, under=True),
            ChartHead(tr("Of"), is_number=False, under=True),
        ),
        tuple(_item(at, row) for at, row in enumerate(rows)),
        series=tuple(say(word) for word in WHEN) if rows else (),
        counted=False,
        empty=nothing_to_do(),
    )


def _item(at: int, row: ToDo) -> ChartItem:
    station, when, what = say(row.station), say(WHEN[row.when]), say(row.what)
    return ChartItem(
        key=f"{at} {row.what}",
        name=station,
        spoken=f"{station}, {when}: {what}" + (f" ({_of(row)})" if row.codes else ""),
        cells=(what, station, when, _of(row)),
        parts=(Part(row.when, 1.0),),
        words=what,
        opens=row.codes[0] if row.codes else "",
    )


def _of(row: ToDo) -> str:
    codes = ", ".join(row.codes[:_FEW])
    more = len(row.codes) - _FEW
    if more <= 0:
        return codes
    return tr("{codes} and {n} more").format(codes=codes, n=format_number(more))


def todo_answer(page: SeasonPage) -> str:
    """How much there is, and how much of it is overdue."""
    sheet = page.today_sheet
    if sheet is None or not sheet.rows:
        return nothing_to_do()
    things = counted(len(sheet.rows), tr("One thing to do today"), tr("{n} things to do today"))
    if not sheet.overdue:
        return tr("{things}, none of them overdue.").format(things=things)
    words = tr("{things}, {n} of them overdue.")
    return words.format(things=things, n=format_number(sheet.overdue))


def todo_figures(page: SeasonPage) -> list[KeyFigure]:
    """How much is overdue, for today and soon."""
    sheet = page.today_sheet
    if sheet is None:
        return []
    return [
        KeyFigure(format_number(_count(sheet, when)), say(WHEN[when]))
        for when in (OVERDUE, TODAY, SOON)
        if _count(sheet, when)
    ]


def _count(sheet: DaySheet, when: int) -> int:
    return sum(row.when == when for row in sheet.rows)
