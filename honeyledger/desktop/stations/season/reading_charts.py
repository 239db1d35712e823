"""Moisture and colour through the season, drawn: a dot a lot, and each week's spread."""

from collections.abc import Sequence

from honeyledger.desktop.colouring import pfund_symbol
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Level,
    Part,
    Spread,
)
from honeyledger.desktop.models.days import short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import counted, percent, tr
from honeyledger.domain.units import format_colour, format_moisture
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_readings import DRUM, PULL, ReadThrough, SeasonReading

# The darkest readings of the classes, tenths of a Pfund millimetre; their lines are in the chart.
_CLASS_ENDS = ((80, "WW"), (170, "XW"), (340, "W"), (500, "XLA"), (850, "LA"), (1140, "A"))


def _kinds(read: ReadThrough) -> tuple[str, ...]:
    """The series there are: drums first, as they are what is sold."""
    names = {DRUM: tr("drums"), PULL: tr("pulls")}
    return tuple(names[kind] for kind in (DRUM, PULL) if read.of(kind))


def _series(read: ReadThrough, kind: str) -> int:
    return 0 if kind == DRUM or not read.of(DRUM) else 1


def _judged(read: ReadThrough) -> list[int]:
    """What the sentence is about: the drums, or the pulls while there are none."""
    return sorted(row.value for row in read.of(DRUM) or read.readings)


def _noun(read: ReadThrough, count: int) -> str:
    if read.of(DRUM):
        return counted(count, tr("1 drum"), tr("{n} drums"))
    return counted(count, tr("1 pull"), tr("{n} pulls"))


def _middle(values: Sequence[int]) -> int:
    return values[(len(values) - 1) // 2]


def _spreads(read: ReadThrough, divisor: float) -> tuple[Spread, ...]:
    return tuple(
        Spread(
            week.first.toordinal(),
            week.first.toordinal() + 6,
            week.low / divisor,
            week.middle / divisor,
            week.high / divisor,
        )
        for week in read.weeks
        if week.count > 1
    )


def _spread_words(read: ReadThrough) -> str:
    return tr("a week, its middle one") if any(week.count > 1 for week in read.weeks) else ""


def _where(row: SeasonReading) -> str:
    return tr("filled {day}") if row.kind == DRUM else tr("pulled {day}")


# Moisture.


def moisture_chart(page: SeasonPage) -> Chart:
    """Every reading of moisture, with the line above which honey is dried first."""
    read, dry_first = page.moisture, page.dry_first
    over = tr("dry first, over {moisture}").format(moisture=format_moisture(dry_first))
    return Chart(
        ChartForm.DOTS,
        tr("Moisture, {season}").format(season=page.season),
        tr("Moisture"),
        "%",
        (
            ChartHead(tr("Lot"), is_number=False),
            ChartHead(tr("Day"), is_number=False),
            ChartHead(tr("Moist."), "%"),
        ),
        tuple(_moisture_item(row, read) for row in read.readings),
        series=_kinds(read),
        spreads=_spreads(read, 100.0),
        levels=(Level(page.dry_first / 100, over, percent(page.dry_first)),)
        if read.readings
        else (),
        zero=False,
        spread=_spread_words(read),
        empty=tr("No moisture was read yet: at the dock (Ctrl+2), or on a drum (Ctrl+5)."),
    )


def _moisture_item(row: SeasonReading, read: ReadThrough) -> ChartItem:
    day = short_day(row.day)
    where = _where(row).format(day=day)
    return ChartItem(
        key=row.code,
        name=row.code,
        spoken=f"{row.code}, {where}: {format_moisture(row.value)}",
        cells=(row.code, day, percent(row.value)),
        parts=(Part(_series(read, row.kind), row.value / 100),),
        at=float(row.day.toordinal()),
        opens=row.code,
    )


def moisture_answer(page: SeasonPage) -> str:
    """The middle of the drums, and how many are too wet."""
    values = _judged(page.moisture)
    if not values:
        return tr("No moisture was read in {season}.").format(season=page.season)
    wet = sum(value > page.dry_first for value in values)
    words = tr("The middle of {lots} is {middle}, from {low} to {high}; {wet} over {limit}.")
    return words.format(
        lots=_noun(page.moisture, len(values)),
        middle=format_moisture(_middle(values)),
        low=format_moisture(values[0]),
        high=format_moisture(values[-1]),
        wet=counted(wet, tr("one is"), tr("{n} are")) if wet else tr("none is"),
        limit=format_moisture(page.dry_first),
    )


def moisture_figures(page: SeasonPage) -> list[KeyFigure]:
    """The middle ones of drums and pulls."""
    names = {DRUM: tr("middle drum"), PULL: tr("middle pull")}
    return [
        KeyFigure(format_moisture(_middle(values)), names[kind])
        for kind in (DRUM, PULL)
        if (values := sorted(row.value for row in page.moisture.of(kind)))
    ]


def moisture_notes(page: SeasonPage) -> list[Message]:
    """Drums of this season that stand here so wet that they may ferment."""
    wet = sum(one.wet for one in page.stock)
    if not wet:
        return []
    lead = counted(wet, tr("1 drum here is too wet:"), tr("{n} drums here are too wet:"))
    words = tr("over {moisture} honey may ferment.").format(
        moisture=format_moisture(page.dry_first)
    )
    return [Message(Mark.WARNING, lead, words)]


# Colour.


def colour_chart(page: SeasonPage) -> Chart:
    """Every reading of colour, drawn as the honey it is, with the classes' limits."""
    read = page.colour
    values = [row.value for row in read.readings]
    darkest, lightest = max(values, default=0), min(values, default=0)
    levels = tuple(
        Level(end / 10, short=tr("{name} to {mm}").format(name=name, mm=end // 10))
        for end, name in _CLASS_ENDS
        if lightest <= end <= darkest
    )
    return Chart(
        ChartForm.DOTS,
        tr("Colour, {season}").format(season=page.season),
        tr("Pfund"),
        "mm",
        (
            ChartHead(tr("Lot"), is_number=False),
            ChartHead(tr("Day"), is_number=False),
            ChartHead(tr("Colour"), "mm"),
            ChartHead(tr("Class"), is_number=False),
        ),
        tuple(_colour_item(row, read) for row in read.readings),
        series=_kinds(read),
        spreads=_spreads(read, 10.0),
        levels=levels,
        zero=False,
        spread=_spread_words(read),
        empty=tr("No colour was read yet: type it on a drum (Ctrl+5)."),
    )


def _colour_item(row: SeasonReading, read: ReadThrough) -> ChartItem:
    day, mm = short_day(row.day), row.value / 10
    where = _where(row).format(day=day)
    shown = format_colour(row.value)
    return ChartItem(
        key=row.code,
        name=row.code,
        spoken=f"{row.code}, {where}: {shown} {pfund_symbol(mm)}",
        cells=(row.code, day, shown.removesuffix(" mm"), pfund_symbol(mm)),
        parts=(Part(_series(read, row.kind), mm),),
        at=float(row.day.toordinal()),
        pfund_mm=mm,
        opens=row.code,
    )


def colour_answer(page: SeasonPage) -> str:
    """From the lightest to the darkest."""
    values = _judged(page.colour)
    if not values:
        return tr("No colour was read in {season}.").format(season=page.season)
    words = tr("{lots} from {low} to {high}; the middle is {middle}.")
    return words.format(
        lots=_noun(page.colour, len(values)),
        low=_named(values[0]),
        high=_named(values[-1]),
        middle=_named(_middle(values)),
    )


def _named(tenths: int) -> str:
    return f"{format_colour(tenths)} {pfund_symbol(tenths / 10)}"


def colour_figures(page: SeasonPage) -> list[KeyFigure]:
    """The middle ones of drums and pulls."""
    names = {DRUM: tr("middle drum"), PULL: tr("middle pull")}
    return [
        KeyFigure(_named(_middle(values)), names[kind])
        for kind in (DRUM, PULL)
        if (values := sorted(row.value for row in page.colour.of(kind)))
    ]


def colour_notes(page: SeasonPage) -> list[Message]:
    """A screen's colour is no reading."""
    return [Message(Mark.NOTE, tr("A screen’s colour is not a reading."))] if page.stock else []
