"""Each line's losses against their control limits, drawn in standard deviations off the usual."""

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Level, Part
from honeyledger.desktop.models.days import short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import counted, percent, tr
from honeyledger.domain.units import format_number
from honeyledger.services.season_control import (
    PARTS,
    Judged,
    PartChart,
    out_of_usual,
    part_name,
)
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_wax import USUAL_HIGH, USUAL_LOW

_FAR = 8.0  # further off is drawn here: its figure says how far


def control_chart(page: SeasonPage) -> Chart:
    """Every part of every run: how far off its line's usual, with the limits at 3 either way."""
    judged = [chart for chart in page.charts if chart.limits is not None]
    items = [_item(chart, row) for chart in judged for row in chart.rows]
    upper = tr("upper limit")
    return Chart(
        ChartForm.DOTS,
        tr("Losses against their limits, {season}").format(season=page.season),
        tr("Standard deviations off the usual"),
        "",
        (
            ChartHead(tr("Run"), is_number=False),
            ChartHead(tr("Part"), is_number=False, under=True),
            ChartHead(tr("Share"), "%"),
            ChartHead(tr("Usual"), "%"),
            ChartHead(tr("Look first"), is_number=False, under=True),
        ),
        tuple(sorted(items, key=lambda item: (item.at, item.key))),
        series=tuple(say(part_name(part)) for part in PARTS) if items else (),
        levels=(Level(3.0, upper, "3"), Level(0.0, "", "0"), Level(-3.0, tr("lower limit"), "−3"))
        if items
        else (),
        zero=False,
        empty=tr(
            "Limits take eight closed runs of a line; closed so far: {n}. Runs are closed on the "
            "floor (Ctrl+4)."
        ).format(n=format_number(len(page.losses.closed))),
    )


def _item(chart: PartChart, row: Judged) -> ChartItem:
    limits, run = chart.limits, row.run
    assert limits is not None
    off = (row.share - limits.centre) / limits.deviation
    part = say(part_name(chart.part))
    words = tr("{run} on {line}, {day}: {part} {share} %, usual {usual} %")
    said = words.format(
        run=run.code,
        line=chart.line,
        day=short_day(run.day),
        part=part,
        share=percent(row.share),
        usual=percent(round(limits.centre)),
    )
    look = say(row.look) if row.look else ""
    return ChartItem(
        key=f"{run.code} {chart.part}",
        name=run.code,
        spoken=f"{said}. {look}" if look else said,
        cells=(run.code, part, percent(row.share), percent(round(limits.centre)), look),
        parts=(Part(PARTS.index(chart.part), max(-_FAR, min(_FAR, off))),),
        at=float(run.day.toordinal()),
        is_open=row.alarm is not None,
        opens=run.code,
    )


def control_answer(page: SeasonPage) -> str:
    """The latest run that is out of the usual."""
    out = out_of_usual(page.charts)
    if not any(chart.limits is not None for chart in page.charts):
        return tr("Limits take eight closed runs of a line. There are not so many yet.")
    if not out:
        return tr("No run is out of the usual.")
    chart, row = out[0]
    assert chart.limits is not None
    words = tr(
        "Last out of the usual, {day}: {part} of {run}, {share} % where {usual} % is usual."
    )
    return words.format(
        part=say(part_name(chart.part)),
        run=row.run.code,
        day=short_day(row.run.day),
        share=percent(row.share),
        usual=percent(round(chart.limits.centre)),
    )


def control_figures(page: SeasonPage) -> list[KeyFigure]:
    """How many runs were out of the usual, and the wax of the honey."""
    judged = [chart for chart in page.charts if chart.limits is not None]
    wax = page.wax
    figures = []
    if judged:
        out = {row.run.code for _, row in out_of_usual(page.charts)}
        figures.append(KeyFigure(format_number(len(out)), tr("runs out of the usual")))
    if wax.wax_g and wax.share is not None:
        usual = f"{percent(USUAL_LOW, 0)}–{percent(USUAL_HIGH, 0)} %"
        meaning = tr("wax, usual {usual}").format(usual=usual)
        figures.append(KeyFigure(f"{percent(wax.share, 2)} %", meaning))
    if not figures and page.losses.closed:
        closed = format_number(len(page.losses.closed))
        figures.append(KeyFigure(closed, tr("runs closed")))
    return figures


def control_notes(page: SeasonPage) -> list[Message]:
    """Where to look first, what the limits are, and what scrapped comb costs."""
    out = [row for _, row in out_of_usual(page.charts)[:1]]
    warned = [Message(Mark.WARNING, row.run.code, say(row.look)) for row in out]
    text = tr(
        "are three standard deviations by moving ranges (NIST/SEMATECH e-Handbook, 6.3.2.2)."
    )
    notes = [*warned, Message(Mark.NOTE, tr("Limits"), text)]
    if frames := page.wax.frames:
        lead = counted(frames, tr("1 frame of comb"), tr("{n} frames of comb"))
        kilograms = [format_number(round(grams / 1_000)) for grams in page.wax.lost_honey_g]
        words = tr("scrapped: bees use {low} to {high} kg of honey to build that again.")
        notes.append(Message(Mark.NOTE, lead, words.format(low=kilograms[0], high=kilograms[1])))
    return notes
