"""Where each run's honey went, drawn; where a season's losses stand in words."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartHead, ChartItem, Part
from honeyledger.desktop.models.days import short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import bare, counted, mass, percent, tr
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.season_losses import Losses, RunLoss, share_of
from honeyledger.services.season_page import SeasonPage


def _parts(run: RunLoss) -> list[int]:
    """The parts in the order they are stacked in, grams; the difference comes last."""
    return [
        run.cappings_g,
        run.wet_g or 0,
        run.foam_g,
        run.spilled_g + run.dried_g,
        run.difference_g,
    ]


def _series() -> tuple[str, ...]:
    return (
        tr("cappings and wax"),
        tr("in wet supers"),
        tr("foam"),
        tr("spilled, dried"),
        tr("difference"),
    )


def _none() -> str:
    return tr("No run was closed yet. Runs are opened on the floor (Ctrl+4).")


def losses_chart(page: SeasonPage) -> Chart:
    """Of what went into each closed run, what did not come out as honey in drums."""
    runs, unit = page.losses.closed, page.unit
    return Chart(
        ChartForm.COLUMNS,
        tr("Losses by run, {season}").format(season=page.season),
        tr("Of what went in"),
        "%",
        (
            ChartHead(tr("Day"), is_number=False),
            ChartHead(tr("Run"), is_number=False, from_width=560),
            ChartHead(tr("Went in"), unit, estimated=True),
            ChartHead(tr("Cappings"), "%"),
            ChartHead(tr("Wet"), "%", from_width=420),
            ChartHead(tr("Foam"), "%", from_width=480),
            ChartHead(tr("Diff."), "%"),
        ),
        tuple(_run_item(run, unit) for run in runs),
        series=_series(),
        empty=_none(),
        totals=_totals(page.losses, unit) if runs else (),
    )


def _totals(losses: Losses, unit: MassUnit) -> tuple[str, ...]:
    in_g = losses.total("in_g")
    names = ("cappings_g", "wet_g", "foam_g", "difference_g")
    shares = [percent(share_of(losses.total(name), in_g)) for name in names]
    return tr("All closed runs"), "", bare(in_g, unit), *shares


def _run_item(run: RunLoss, unit: MassUnit) -> ChartItem:
    wet = percent(run.share(run.wet_g)) if run.wet_g is not None else ""
    return ChartItem(
        key=run.code,
        name=short_day(run.day),
        spoken=_run_words(run, unit),
        cells=(
            short_day(run.day),
            run.code,
            bare(run.in_g, unit),
            percent(run.share(run.cappings_g)),
            wet,
            percent(run.share(run.foam_g)),
            percent(run.share(run.difference_g)),
        ),
        parts=tuple(
            Part(series, (run.share(grams) or 0) / 100)
            for series, grams in enumerate(_parts(run))
            if grams
        ),
        opens=run.code,
    )


def _by_line(page: SeasonPage) -> dict[str, Losses]:
    """The closed runs of each line."""
    closed = page.losses.closed
    lines = sorted({run.line for run in closed}, key=str.casefold)
    return {line: Losses(tuple(run for run in closed if run.line == line)) for line in lines}


def machines_chart(page: SeasonPage) -> Chart:
    """The same for each line: all of its closed runs together."""
    by_line = _by_line(page)
    return Chart(
        ChartForm.COLUMNS,
        tr("Losses by machine, {season}").format(season=page.season),
        tr("Of what went in"),
        "%",
        (
            ChartHead(tr("Line"), is_number=False),
            ChartHead(tr("Runs")),
            ChartHead(tr("Went in"), page.unit, estimated=True),
            ChartHead(tr("Cappings"), "%"),
            ChartHead(tr("Wet"), "%", from_width=420),
            ChartHead(tr("Foam"), "%", from_width=480),
            ChartHead(tr("Diff."), "%"),
        ),
        tuple(_line_item(line, losses, page.unit) for line, losses in by_line.items()),
        series=_series() if by_line else (),
        empty=_none(),
    )


def _line_item(line: str, losses: Losses, unit: MassUnit) -> ChartItem:
    in_g = losses.total("in_g")
    spilled = losses.total("spilled_g") + losses.total("dried_g")
    cappings, wet, foam, gone = (
        losses.total(name) for name in ("cappings_g", "wet_g", "foam_g", "difference_g")
    )
    shares = [percent(share_of(grams, in_g)) for grams in (cappings, wet, foam, gone)]
    runs = counted(len(losses.runs), tr("1 run"), tr("{n} runs"))
    words = tr(
        "{line}, {runs}: cappings {cappings} %, wet {wet} %, foam {foam} %, difference {gone} %"
    )
    return ChartItem(
        key=line,
        name=line,
        spoken=words.format(
            line=line, runs=runs, cappings=shares[0], wet=shares[1], foam=shares[2], gone=shares[3]
        ),
        cells=(line, format_number(len(losses.runs)), bare(in_g, unit), *shares),
        parts=tuple(
            Part(series, (share_of(grams, in_g) or 0) / 100)
            for series, grams in enumerate((cappings, wet, foam, spilled, gone))
            if grams
        ),
    )


def machines_answer(page: SeasonPage) -> str:
    """Which line's difference is furthest from nothing."""
    by_line = _by_line(page)
    if not by_line:
        return tr("No run was closed in {season}.").format(season=page.season)
    gone = {
        line: share_of(one.total("difference_g"), one.total("in_g")) or 0
        for line, one in by_line.items()
    }
    if len(gone) == 1:
        words = tr("One line alone, {line}: {gone} % of what went in is weighing difference.")
    else:
        words = tr("Furthest off is {line}: {gone} % of what went in is weighing difference.")
    line = max(gone, key=lambda one: abs(gone[one]))
    return words.format(line=line, gone=percent(gone[line]))


def _run_words(run: RunLoss, unit: MassUnit) -> str:
    cappings, wet, foam, spilled, difference = _parts(run)
    words = tr("{run}, {day}: about {mass} in; cappings {share}")
    said = [
        words.format(
            run=run.code,
            day=short_day(run.day),
            mass=format_mass(run.in_g, unit, 0),
            share=_share(run, cappings),
        )
    ]
    if run.wet_g is not None:
        said.append(tr("wet {share}").format(share=_share(run, wet)))
    else:
        said.append(tr("wet not weighed"))
    said.append(tr("foam {share}").format(share=_share(run, foam)))
    if spilled:
        said.append(tr("spilled or dried {share}").format(share=_share(run, spilled)))
    words = tr("difference {share}, {mass}")
    said.append(words.format(share=_share(run, difference), mass=format_mass(difference, unit, 1)))
    return ", ".join(said)


def _share(run: RunLoss, grams: int) -> str:
    return f"{percent(run.share(grams))} %"


def losses_answer(page: SeasonPage) -> str:
    """How much of what went in was missing, and the rest of where it went."""
    losses = page.losses
    if not losses.closed:
        return tr("No run was closed in {season}.").format(season=page.season)
    in_g, gone = losses.total("in_g"), losses.total("difference_g")
    words = tr(
        "{runs} took in ≈ {mass}: {cappings} % is cappings, {wet} % in wet supers; "
        "{gone} % is weighing difference."
    )
    return words.format(
        runs=counted(len(losses.closed), tr("One run"), tr("{n} runs")),
        mass=mass(in_g, page.unit),
        cappings=percent(share_of(losses.total("cappings_g"), in_g)),
        wet=percent(share_of(losses.total("wet_g"), in_g)),
        gone=percent(share_of(gone, in_g)),
    )


def losses_figures(page: SeasonPage) -> list[KeyFigure]:
    """What is missing in all, and the run that is furthest off."""
    runs = page.losses.closed
    if not runs:
        return []
    furthest = max(runs, key=lambda run: abs(run.share(run.difference_g) or 0))
    gone = page.losses.total("difference_g")
    return [
        KeyFigure(format_mass(gone, page.unit, 0), tr("weighing difference")),
        KeyFigure(
            _share(furthest, furthest.difference_g),
            tr("furthest off, {day}").format(day=short_day(furthest.day)),
        ),
    ]


def losses_notes(page: SeasonPage) -> list[Message]:
    """What the figures do not tell apart."""
    unweighed = sum(run.wet_g is None for run in page.losses.closed)
    notes = []
    if unweighed:
        lead = counted(unweighed, tr("Of 1 run"), tr("Of {n} runs"))
        text = tr("the wet supers were not all weighed: that is in the difference.")
        notes.append(Message(Mark.NOTE, lead, text))
    if any(run.is_open for run in page.losses.runs):
        text = tr("is shown when it is closed.")
        notes.append(Message(Mark.NOTE, tr("An open run"), text))
    return notes
