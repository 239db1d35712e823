"""A season's plan, drawn: the band day by day, what holds it up, and what more buys."""

from datetime import date, timedelta
from itertools import pairwise

from honeyledger.desktop.language import say
from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Level,
    Part,
    Spread,
)
from honeyledger.desktop.models.days import format_day, short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import counted, tr
from honeyledger.domain.units import format_number
from honeyledger.services.season_forecast import WAITS, Band, Forecast, Gain
from honeyledger.services.season_needs import PARTS
from honeyledger.services.season_words import CHANGE_WORDS, PART_WORDS, WAIT_WORDS

MOST_POINTS = 45
BY_DAY, PARTS_OF_IT, MORE, WAITING = "by day", "parts", "more", "waiting"


def plan_chart(made: Forecast, which: str) -> Chart:
    """One of the pictures of a plan."""
    draw = {BY_DAY: _by_day, PARTS_OF_IT: _parts, MORE: _more, WAITING: _waiting}
    return draw[which](made)


def _by_day(made: Forecast) -> Chart:
    """Supers that are through at the end of each day: the middle, and four of five seasons."""
    supers = made.needs.supers or 0
    frames = max(1, made.needs.frames or 1)
    days = [
        Band(*(round(part * supers / frames) for part in (one.low, one.middle, one.high)))
        for one in made.curve
    ]
    first = made.plan.begins
    # As many points as the eye tells apart; the last day is always one of them.
    step = -(-len(days) // MOST_POINTS) or 1
    shown = [at for at in range(len(days)) if (len(days) - 1 - at) % step == 0]
    return Chart(
        ChartForm.DOTS,
        tr("Supers that are through, day by day"),
        tr("Supers that are through"),
        "",
        _heads(tr("Day")),
        tuple(_day(first + timedelta(days=at), days[at]) for at in shown),
        spreads=tuple(
            _spread(first.toordinal() + at, days[at], at - before)
            for before, at in pairwise([-step, *shown])
        ),
        levels=(Level(float(supers), tr("all of them"), format_number(supers)),) if supers else (),
        joined=True,
        spread=tr("four of five seasons"),
        empty=tr("Nothing was simulated yet."),
    )


def _spread(day: int, band: Band, wide: int) -> Spread:
    """The band of some days around one."""
    low, middle, high = float(band.low), float(band.middle), float(band.high)
    return Spread(day - wide / 2, day + wide / 2, low, middle, high)


def _heads(name: str) -> tuple[ChartHead, ...]:
    return (
        ChartHead(name, is_number=False),
        ChartHead(tr("Middle")),
        ChartHead(tr("From")),
        ChartHead(tr("To")),
    )


def _day(day: date, band: Band) -> ChartItem:
    words = tr("{day}: {middle} supers are through, {low} to {high} in four seasons of five")
    shown = [format_number(part) for part in (band.middle, band.low, band.high)]
    return ChartItem(
        key=day.isoformat(),
        name=short_day(day),
        spoken=words.format(day=short_day(day), middle=shown[0], low=shown[1], high=shown[2]),
        cells=(short_day(day), *shown),
        parts=(Part(0, float(band.middle)),),
        at=float(day.toordinal()),
    )


def _parts(made: Forecast) -> Chart:
    """Days each part of the house would take, if it alone held the season up."""
    known = made.needs.part_days
    return Chart(
        ChartForm.BARS,
        tr("Days each part would take alone"),
        tr("Days alone"),
        "",
        (ChartHead(tr("Part"), is_number=False), ChartHead(tr("Days alone"))),
        tuple(
            _part(part, known[part], is_longest=part == made.needs.bottleneck)
            for part in PARTS
            if part in known
        ),
        empty=tr("None of it can be told: look at the figures."),
    )


def _part(part: str, days: float, *, is_longest: bool) -> ChartItem:
    name, shown = say(PART_WORDS[part]), format_number(round(days))
    words = tr("{part}: {days} alone")
    if is_longest:
        words = tr("{part}: {days} alone, the longest: it holds the season up")
    end = counted(round(days), tr("1 day"), tr("{n} days"))
    return ChartItem(
        key=part,
        name=name,
        spoken=words.format(part=name, days=end),
        cells=(name, shown),
        parts=(Part(0, days),),
        words=tr("{days}, the longest").format(days=end) if is_longest else end,
    )


def _more(made: Forecast) -> Chart:
    """Days by which the season ends sooner with one more of something."""
    return Chart(
        ChartForm.BARS,
        tr("Days sooner with one more"),
        tr("Days sooner"),
        "",
        _heads(tr("One more")),
        tuple(_gain(gain) for gain in made.gains),
        behind=tr("four of five seasons"),
        empty=tr("Nothing was simulated yet."),
    )


def _gain(gain: Gain) -> ChartItem:
    name = say(CHANGE_WORDS[gain.what])
    low, middle, high = (
        format_number(part) for part in (gain.days.low, gain.days.middle, gain.days.high)
    )
    words = tr("{more}: {middle} days sooner, {low} to {high} in four seasons of five")
    return ChartItem(
        key=gain.what,
        name=name,
        spoken=words.format(more=name, middle=middle, low=low, high=high),
        cells=(name, middle, low, high),
        parts=(Part(0, float(gain.days.middle)),),
        words=counted(gain.days.middle, tr("1 day"), tr("{n} days")),
        behind=(float(gain.days.low), float(gain.days.high)),
    )


def _waiting(made: Forecast) -> Chart:
    """Of a machine's hours, what it waits for."""
    return Chart(
        ChartForm.BARS,
        tr("What machines wait for, of their hours"),
        tr("Of their hours"),
        "%",
        (ChartHead(tr("What"), is_number=False), ChartHead(tr("Of their hours"), "%")),
        tuple(_wait(what, part) for what, part in zip(WAITS, made.waits, strict=bool(made.waits))),
        empty=tr("Nothing was simulated yet."),
    )


def _wait(what: str, permille: int) -> ChartItem:
    name, shown = say(WAIT_WORDS[what]), format_number(round(permille / 10))
    return ChartItem(
        key=what,
        name=name,
        spoken=tr("{what}: {n} % of its hours").format(what=name, n=shown),
        cells=(name, shown),
        parts=(Part(0, permille / 10),),
        words=f"{shown} %",
    )


def plan_answer(made: Forecast) -> str:
    """When it ends, and what holds it up."""
    part = say(PART_WORDS[made.needs.bottleneck]) if made.needs.bottleneck else ""
    if made.wrong:
        if not part:
            return tr("As it stands it cannot be planned: the marked figures say why.")
        return tr("No end can be told. Longest of the rest: {part}.").format(part=part)
    if made.ends is None:
        return tr("Nothing was simulated yet.")
    if made.late * 2 >= made.seasons:
        return tr("It does not end within a year. What holds it up: {part}.").format(part=part)
    low, middle, high = (format_day(day) for day in made.ends)
    words = tr(
        "Ends on {middle}; four seasons of five from {low} to {high}. What holds it up: {part}."
    )
    return words.format(middle=middle, low=low, high=high, part=part)


def plan_figures(made: Forecast) -> list[KeyFigure]:
    """What it comes to, beside what there is of it."""
    need, plan = made.needs, made.plan
    drums = tr("drums")
    if plan.empties >= 0:
        drums = tr("drums, {n} empty").format(n=format_number(plan.empties))
    places = tr("of {n} warm places").format(n=format_number(plan.places))
    rows = (
        (made.days.middle if made.days else None, tr("days")),
        (made.hours.middle if made.hours else None, tr("hours of the line")),
        (made.drums.middle if made.drums else need.drums, drums),
        (made.pallets.middle if made.pallets else need.pallets, places),
        (need.supers, tr("supers")),
        (need.frames, tr("frames")),
        (made.jars.middle if made.jars else need.jars, tr("jars")),
    )
    return [KeyFigure(format_number(value), words) for value, words in rows if value is not None]
