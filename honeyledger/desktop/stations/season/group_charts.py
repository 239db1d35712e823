"""What crews, forages and seasons gave, drawn; and stacks whose weight lies far off the others."""

from collections.abc import Sequence

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
    about_mass,
    drawn_mass,
)
from honeyledger.desktop.models.days import short_day
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import bare, counted, mass, tr
from honeyledger.desktop.stations.season.yield_charts import first_heads, no_pulls
from honeyledger.domain.outliers import LEAST
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.season_groups import CrewYield, ForageYield
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_slips import Slip
from honeyledger.services.season_yields import Gave

_MOST = 3  # of earlier seasons in a sentence


def _supers(count: int) -> str:
    return counted(count, tr("1 super"), tr("{n} supers"))


def _spread(values: Sequence[float]) -> tuple[float, float] | None:
    return (min(values), max(values)) if values else None


# Crews.


def crews_chart(page: SeasonPage) -> Chart:
    """Honey a super of each crew, the one that brought most first, with earlier seasons behind."""
    unit, crews = page.unit, page.groups.crews
    had = any(crew.before for crew in crews)
    return Chart(
        ChartForm.BARS,
        tr("Honey a super by crew, {season}").format(season=page.season),
        tr("Honey a super"),
        unit,
        (
            *first_heads(tr("Crew"), tr("A super"), unit, had=had),
            ChartHead(tr("Supers")),
            ChartHead(tr("Days"), from_width=520),
            ChartHead(tr("Yards"), from_width=440),
            ChartHead(tr("Honey"), unit, estimated=True),
        ),
        tuple(_crew_item(crew, unit, had) for crew in crews),
        behind=tr("earlier seasons") if had else "",
        empty=no_pulls(),
    )


def _crew_item(crew: CrewYield, unit: MassUnit, had: bool) -> ChartItem:
    name, each = crew.name or tr("nobody said who"), crew.a_super
    words = tr("{crew}: {supers} on {days}, about {mass}")
    said = words.format(
        crew=name,
        supers=_supers(crew.supers),
        days=counted(crew.days, tr("1 day"), tr("{n} days")),
        mass=format_mass(crew.grams, unit, 0),
    )
    if each:
        said += ", " + tr("{mass} a super").format(mass=format_mass(each, unit, 1))
    before = [drawn_mass(grams, unit) for _, grams in crew.before]
    return ChartItem(
        key=crew.name or "-",
        name=name,
        spoken=said,
        cells=(
            name,
            bare(each, unit, 1) if each else "",
            *([bare(crew.before[0][1], unit, 1) if crew.before else ""] if had else []),
            format_number(crew.supers) if crew.supers else "",
            format_number(crew.days),
            format_number(crew.yards),
            bare(crew.grams, unit),
        ),
        parts=(Part(0, drawn_mass(each, unit)),) if each else (),
        words=about_mass(each, unit) if each else "",
        behind=_spread(before),
    )


def crews_answer(page: SeasonPage) -> str:
    """Which crew brought most."""
    named = [crew for crew in page.groups.crews if crew.name]
    if not named:
        return no_pulls() if not page.groups.crews else tr("Nobody said who pulled.")
    words = tr("{crew} brought most: ≈ {mass} in {supers}.")
    first = named[0]
    grams, supers = mass(first.grams, page.unit), _supers(first.supers)
    return words.format(crew=first.name, mass=grams, supers=supers)


def crews_figures(page: SeasonPage) -> list[KeyFigure]:
    """How many crews there were, and the supers of a crew's day."""
    crews = [crew for crew in page.groups.crews if crew.name] or page.groups.crews
    days = sum(crew.days for crew in crews)
    if not days:
        return []
    supers = sum(crew.supers for crew in crews)
    return [
        KeyFigure(format_number(len(crews)), tr("crews")),
        KeyFigure(format_number(supers // days), tr("supers a crew a day")),
    ]


def crews_notes(_page: SeasonPage) -> list[Message]:
    """That a crew's figure is of its yards, too."""
    text = tr("differ: a crew's figure says as much of the yards it was sent to.")
    return [Message(Mark.NOTE, tr("Yards"), text)]


# Forage.


def forage_chart(page: SeasonPage) -> Chart:
    """Honey a colony of the yards with one forage, the best first."""
    unit, rows = page.unit, page.groups.forages
    had = any(row.earlier for row in rows)
    in_all = page.yields.in_all.a_colony
    levels: tuple[Level, ...] = ()
    if in_all and rows:
        words = tr("all yards {mass}").format(mass=about_mass(in_all, unit))
        levels = (Level(drawn_mass(in_all, unit), words),)
    return Chart(
        ChartForm.BARS,
        tr("Honey a colony by forage, {season}").format(season=page.season),
        tr("Honey a colony"),
        unit,
        (
            *first_heads(tr("Forage"), tr("A colony"), unit, had=had),
            ChartHead(tr("Yards")),
            ChartHead(tr("Colonies"), from_width=440),
            ChartHead(tr("Honey"), unit, estimated=True),
        ),
        tuple(_forage_item(row, unit, had) for row in rows),
        levels=levels,
        behind=tr("earlier seasons") if had else "",
        empty=no_pulls(),
    )


def _forage_item(row: ForageYield, unit: MassUnit, had: bool) -> ChartItem:
    name, each = row.forage or tr("nobody said which"), row.now.a_colony
    yards = counted(row.yards, tr("one yard"), tr("{n} yards"))
    words = tr("{forage}: about {mass} from {yards}")
    said = words.format(forage=name, mass=format_mass(row.now.grams, unit, 0), yards=yards)
    if each:
        said += ", " + tr("{mass} a colony").format(mass=format_mass(each, unit, 1))
    before = [drawn_mass(one.a_colony, unit) for one in row.earlier if one.a_colony]
    last = row.earlier[0].a_colony if row.earlier else None
    return ChartItem(
        key=row.forage or "-",
        name=name,
        spoken=said,
        cells=(
            name,
            bare(each, unit, 1) if each else "",
            *([bare(last, unit, 1) if last else ""] if had else []),
            format_number(row.yards),
            format_number(row.now.colonies) if row.now.colonies else "",
            bare(row.now.grams, unit),
        ),
        parts=(Part(0, drawn_mass(each, unit)),) if each else (),
        words=about_mass(each, unit) if each else tr("colonies not said"),
        behind=_spread(before),
    )


def forage_answer(page: SeasonPage) -> str:
    """Which forage gave most a colony."""
    known = [row for row in page.groups.forages if row.now.a_colony]
    if not known:
        return no_pulls() if not page.groups.forages else tr("No yard says its colonies.")
    best = known[0]
    words = tr("{forage} gave most: ≈ {mass} a colony, from {yards}.")
    return words.format(
        forage=best.forage or tr("Yards without a forage"),
        mass=format_mass(best.now.a_colony or 0, page.unit, 1),
        yards=counted(best.yards, tr("one yard"), tr("{n} yards")),
    )


def forage_figures(page: SeasonPage) -> list[KeyFigure]:
    """How many forages the yards have."""
    rows = page.groups.forages
    return [KeyFigure(format_number(len(rows)), tr("forages"))] if rows else []


# Seasons.


def seasons_chart(page: SeasonPage) -> Chart:
    """Honey a colony season by season, the first one first."""
    unit, rows = page.unit, page.groups.seasons[::-1]
    return Chart(
        ChartForm.COLUMNS,
        tr("Honey a colony by season"),
        tr("Honey a colony"),
        unit,
        (
            ChartHead(tr("Season"), is_number=False),
            ChartHead(tr("A colony"), unit, estimated=True),
            ChartHead(tr("Colonies"), from_width=440),
            ChartHead(tr("Supers")),
            ChartHead(tr("Honey"), unit, estimated=True),
        ),
        tuple(_season_item(one, unit, page) for one in rows),
        empty=no_pulls(),
    )


def _season_item(one: Gave, unit: MassUnit, page: SeasonPage) -> ChartItem:
    each = one.a_colony
    words = tr("{season}: about {mass} in {supers}")
    supers, honey = _supers(one.supers), format_mass(one.grams, unit, 0)
    said = words.format(season=one.season, mass=honey, supers=supers)
    if each:
        said += ", " + tr("{mass} a colony").format(mass=format_mass(each, unit, 1))
    return ChartItem(
        key=str(one.season),
        name=str(one.season),
        spoken=said,
        cells=(
            str(one.season),
            bare(each, unit, 1) if each else "",
            format_number(one.colonies) if one.colonies else "",
            format_number(one.supers),
            bare(one.grams, unit),
        ),
        parts=(Part(0, drawn_mass(each, unit)),) if each else (),
        is_open=page.is_now and one.season == page.season,
    )


def seasons_answer(page: SeasonPage) -> str:
    """This season against those before it."""
    rows = [one for one in page.groups.seasons if one.a_colony]
    here = next((one for one in rows if one.season == page.season), None)
    earlier = [one for one in rows if one.season < page.season]
    if here is None or here.a_colony is None:
        return no_pulls()
    each = format_mass(here.a_colony, page.unit, 1)
    if not earlier:
        words = tr("≈ {each} a colony in {season}; there is no season before it to hold it to.")
        return words.format(each=each, season=page.season)
    mean = sum(one.grams for one in earlier) // sum(one.colonies for one in earlier)
    words = tr("≈ {each} a colony in {season}, ≈ {before} in {seasons} before.")
    seasons = counted(len(earlier), tr("one season"), tr("{n} seasons"))
    before = format_mass(mean, page.unit, 1)
    return words.format(each=each, season=page.season, before=before, seasons=seasons)


def seasons_figures(page: SeasonPage) -> list[KeyFigure]:
    """How many seasons are on record, and the best of them."""
    rows = [one for one in page.groups.seasons if one.a_colony]
    if not rows:
        return []
    best = max(rows, key=lambda one: one.a_colony or 0)
    figure = format_mass(best.a_colony or 0, page.unit, 1)
    return [
        KeyFigure(format_number(len(rows)), tr("seasons on record")),
        KeyFigure(figure, tr("best, {season}").format(season=best.season)),
    ]


# Slips.


def slips_chart(page: SeasonPage) -> Chart:
    """Stacks far off the others: honey a super, with the middle of their box behind."""
    unit = page.unit
    return Chart(
        ChartForm.BARS,
        tr("Stacks to look at again, {season}").format(season=page.season),
        tr("Honey a super"),
        unit,
        (
            ChartHead(tr("Stack"), is_number=False),
            ChartHead(tr("Likely"), is_number=False, under=True),
            ChartHead(tr("A super"), unit),
            ChartHead(tr("Usual"), unit),
            ChartHead(tr("Supers"), from_width=440),
        ),
        tuple(_slip_item(slip, unit) for slip in page.slips),
        behind=tr("nothing to the middle of its box") if page.slips else "",
        empty=tr("No stack is far off the others, where a box has {n} stacks or more.").format(
            n=LEAST
        ),
    )


def _slip_item(slip: Slip, unit: MassUnit) -> ChartItem:
    stack, likely = slip.stack, likely_words(slip)
    words = tr("{stack} of {yards}, {day}: {mass} a super where {usual} is usual; {likely}")
    return ChartItem(
        key=stack.code,
        name=stack.code,
        spoken=words.format(
            stack=stack.code,
            yards=", ".join(stack.yards),
            day=short_day(stack.day),
            mass=format_mass(round(stack.a_super), unit, 1),
            usual=format_mass(slip.usual_g, unit, 1),
            likely=likely,
        ),
        cells=(
            stack.code,
            likely,
            bare(round(stack.a_super), unit, 1),
            bare(slip.usual_g, unit, 1),
            format_number(stack.supers),
        ),
        parts=(Part(0, drawn_mass(round(stack.a_super), unit)),),
        words=likely,
        behind=(0.0, drawn_mass(slip.usual_g, unit)),
        opens=stack.code,
    )


def likely_words(slip: Slip) -> str:
    """The slip that explains it, in the language in use."""
    return say(slip.likely) if slip.likely else tr("no slip explains it: weigh it again")


def slips_answer(page: SeasonPage) -> str:
    """How many stacks are to be looked at."""
    count = len(page.slips)
    if not count:
        return tr("No stack is far off the others, where a box has {n} stacks or more.").format(
            n=LEAST
        )
    one = tr("One stack lies far off the others: look at it before anything is corrected.")
    many = tr("{n} stacks lie far off the others: look at them before anything is corrected.")
    return counted(count, one, many)


def slips_figures(page: SeasonPage) -> list[KeyFigure]:
    """How many there are, and how many a slip explains."""
    if not page.slips:
        return []
    explained = sum(bool(slip.likely) for slip in page.slips)
    return [
        KeyFigure(format_number(len(page.slips)), tr("stacks far off")),
        KeyFigure(format_number(explained), tr("a slip explains")),
    ]


def slips_notes(_page: SeasonPage) -> list[Message]:
    """By which rule."""
    text = tr("is a score over 3.5 by medians (Iglewicz and Hoaglin 1993).")
    return [Message(Mark.NOTE, tr("Far off"), text)]
