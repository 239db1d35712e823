"""What the yards gave, drawn: a colony of each yard, and week by week."""

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
from honeyledger.domain.units import MassUnit, format_mass, format_number, format_temperature
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_plan import DAYS_A_WEEK
from honeyledger.services.season_yields import Gave, WeekYield, YardYield
from honeyledger.services.weather import WeatherNote


def no_pulls() -> str:
    """What is said where nothing was pulled yet."""
    return tr("Nothing was pulled this season yet. Supers come in at the dock (Ctrl+2).")


# A colony of each yard.


def first_heads(name: str, given: str, unit: MassUnit, *, had: bool) -> tuple[ChartHead, ...]:
    """What a row is of, what that gave, and what it gave in the season before, where one was."""
    before = (ChartHead(tr("Before"), unit, estimated=True),) if had else ()
    return ChartHead(name, is_number=False), ChartHead(given, unit, estimated=True), *before


def yield_chart(page: SeasonPage) -> Chart:
    """A colony of each yard, the best first, with what earlier seasons gave behind it."""
    unit, given = page.unit, page.yields
    rows = [row for row in given.yards if row.now.supers or row.now.colonies]
    had = any(row.earlier for row in rows)
    a_colony = given.in_all.a_colony
    levels: tuple[Level, ...] = ()
    if a_colony:
        words = tr("all yards {mass}").format(mass=about_mass(a_colony, unit))
        levels = (Level(drawn_mass(a_colony, unit), words),)
    heads = [
        *first_heads(tr("Yard"), tr("A colony"), unit, had=had),
        ChartHead(tr("Colonies"), from_width=520),
        ChartHead(tr("Supers"), from_width=440),
        ChartHead(tr("Honey"), unit, estimated=True),
    ]
    before = [""] if had else []
    in_all = given.in_all
    return Chart(
        ChartForm.BARS,
        tr("Honey a colony by yard, {season}").format(season=page.season),
        tr("Honey a colony"),
        unit,
        tuple(heads),
        tuple(_yard_item(row, unit, had) for row in rows) if in_all.supers else (),
        levels=levels,
        behind=_behind(given.seasons, page.season) if had else "",
        empty=no_pulls(),
        totals=(
            tr("All yards"),
            bare(a_colony, unit, 1) if a_colony else "",
            *before,
            format_number(in_all.colonies),
            format_number(in_all.supers),
            bare(in_all.grams, unit),
        )
        if in_all.supers
        else (),
    )


def _behind(seasons: tuple[int, ...], season: int) -> str:
    """Which seasons the band behind is of."""
    earlier = [one for one in seasons if one < season]
    if len(earlier) == 1:
        return str(earlier[0])
    return tr("{first} to {last}").format(first=min(earlier), last=max(earlier))


def _yard_item(row: YardYield, unit: MassUnit, had: bool) -> ChartItem:
    now, each = row.now, row.now.a_colony
    others = [drawn_mass(one.a_colony, unit) for one in row.earlier if one.a_colony]
    last = row.earlier[0].a_colony if row.earlier else None
    return ChartItem(
        key=row.code,
        name=row.name,
        spoken=_yard_words(row, unit),
        cells=(
            row.name,
            bare(each, unit, 1) if each else "",
            *([bare(last, unit, 1) if last else ""] if had else []),
            format_number(now.colonies) if now.colonies else "",
            format_number(now.supers) if now.supers else "",
            bare(now.grams, unit) if now.grams else "",
        ),
        parts=(Part(0, drawn_mass(each, unit)),) if each else (),
        words=about_mass(each, unit) if each else _no_figure(now),
        behind=(min(others), max(others)) if others else None,
        opens=row.code,
    )


def _no_figure(now: Gave) -> str:
    return tr("colonies not said") if now.supers else tr("nothing yet")


def _yard_words(row: YardYield, unit: MassUnit) -> str:
    now = row.now
    parts = [_no_figure(now)]
    if now.a_colony:
        words = tr("about {mass} a colony, {colonies}, {supers}")
        parts = [
            words.format(
                mass=format_mass(now.a_colony, unit, 1),
                colonies=counted(now.colonies, tr("1 colony"), tr("{n} colonies")),
                supers=counted(now.supers, tr("1 super"), tr("{n} supers")),
            )
        ]
    for one in row.earlier[:2]:
        if one.a_colony:
            words = tr("{season}: {mass}")
            parts.append(words.format(season=one.season, mass=format_mass(one.a_colony, unit, 1)))
    if row.out:
        parts.append(counted(row.out, tr("1 super still out"), tr("{n} supers still out")))
    return f"{row.name}: {'; '.join(parts)}"


def yield_answer(page: SeasonPage) -> str:
    """What a colony gave, and how many yards that is of."""
    given = page.yields
    in_all, unit = given.in_all, page.unit
    if not in_all.supers:
        return no_pulls()
    pulled = sum(row.now.supers > 0 for row in given.yards)
    yards = counted(pulled, tr("one yard"), tr("{n} yards"))
    words = tr("≈ {mass} from {yards}.").format(mass=mass(in_all.grams, unit), yards=yards)
    if in_all.a_colony:
        lead = tr("≈ {each} a colony: {mass} from {yards}.")
        each = format_mass(in_all.a_colony, unit, 1)
        words = lead.format(each=each, mass=mass(in_all.grams, unit), yards=yards)
    if given.not_pulled and page.is_now:
        words += " " + counted(
            given.not_pulled, tr("One gave nothing yet."), tr("{n} gave nothing yet.")
        )
    return words


def yield_figures(page: SeasonPage) -> list[KeyFigure]:
    """The yard in the middle, the best one, and the season before."""
    given, unit = page.yields, page.unit
    figures = []
    if given.middle is not None:
        figures.append(KeyFigure(format_mass(given.middle, unit, 1), tr("middle yard")))
        best = given.yards[0].now.a_colony or 0
        figures.append(KeyFigure(format_mass(best, unit, 1), tr("best yard")))
    earlier = [one for row in given.yards for one in row.earlier if one.colonies]
    for season in sorted({one.season for one in earlier}, reverse=True)[:1]:
        of_then = [one for one in earlier if one.season == season]
        each = sum(one.grams for one in of_then) // sum(one.colonies for one in of_then)
        figures.append(KeyFigure(format_mass(each, unit, 1), str(season)))
    return figures


# Week by week.


def weeks_chart(page: SeasonPage) -> Chart:
    """What was pulled each week, with the same week of earlier seasons behind it."""
    unit, given = page.unit, page.yields
    had = any(week.earlier for week in given.weeks)
    heads = [
        *first_heads(tr("Week of"), tr("Pulled"), unit, had=had),
        ChartHead(tr("Supers")),
        *([ChartHead(tr("Weather"), is_number=False, under=True)] if page.weather else []),
    ]
    in_all = given.in_all
    return Chart(
        ChartForm.COLUMNS,
        tr("Honey pulled by week, {season}").format(season=page.season),
        tr("Honey pulled a week"),
        unit,
        tuple(heads),
        tuple(_week_item(week, page, had) for week in given.weeks),
        behind=_behind(given.seasons, page.season) if had else "",
        empty=no_pulls(),
        totals=(
            tr("In all"),
            bare(in_all.grams, unit),
            *([""] if had else []),
            format_number(in_all.supers),
            *([""] if page.weather else []),
        )
        if in_all.supers
        else (),
    )


def _week_item(week: WeekYield, page: SeasonPage, had: bool) -> ChartItem:
    unit, name = page.unit, short_day(week.first)
    others = [drawn_mass(grams, unit) for _, grams in week.earlier]
    words = tr("Week of {day}: about {mass} from {supers}")
    spoken = words.format(
        day=name,
        mass=format_mass(week.grams, unit, 0),
        supers=counted(week.supers, tr("1 super"), tr("{n} supers")),
    )
    if not week.supers:
        spoken = tr("Week of {day}: nothing was pulled").format(day=name)
    for season, grams in week.earlier[:2]:
        earlier = tr("{season}: {mass}").format(season=season, mass=format_mass(grams, unit, 0))
        spoken = f"{spoken}; {earlier}"
    notes = [note for note in page.weather if 0 <= (note.day - week.first).days < DAYS_A_WEEK]
    weather = "; ".join(dict.fromkeys(_weather_words(note).removesuffix(".") for note in notes))
    if weather:
        spoken = f"{spoken}; {weather}"
    last = week.earlier[0][1] if week.earlier else 0
    return ChartItem(
        key=week.first.isoformat(),
        name=name,
        spoken=spoken,
        cells=(
            name,
            bare(week.grams, unit) if week.grams else "",
            *([bare(last, unit) if last else ""] if had else []),
            format_number(week.supers) if week.supers else "",
            *([weather] if page.weather else []),
        ),
        parts=(Part(0, drawn_mass(week.grams, unit)),) if week.grams else (),
        behind=(min(others), max(others)) if others else None,
    )


def weeks_answer(page: SeasonPage) -> str:
    """The week that gave most."""
    weeks = page.yields.weeks
    if not weeks:
        return no_pulls()
    best = max(weeks, key=lambda week: week.grams)
    words = tr("The week of {day} gave most: ≈ {mass} from {supers}.")
    return words.format(
        day=short_day(best.first),
        mass=format_mass(best.grams, page.unit, 0),
        supers=counted(best.supers, tr("1 super"), tr("{n} supers")),
    )


def weeks_notes(page: SeasonPage) -> list[Message]:
    """What was noted of the weather, the latest first."""
    return [
        Message(Mark.NOTE, short_day(note.day), _weather_words(note))
        for note in page.weather[::-1]
    ]


def _weather_words(note: WeatherNote) -> str:
    sorts = {
        "sun": tr("sun"),
        "heat": tr("heat"),
        "cloud": tr("cloud"),
        "rain": tr("rain"),
        "storm": tr("storm"),
        "wind": tr("wind"),
        "cold": tr("cold"),
        "frost": tr("frost"),
        "drought": tr("drought"),
        "smoke": tr("smoke"),
    }
    parts = [sorts.get(note.sort, ""), note.yard, note.note]
    if note.high is not None:
        parts.insert(1, format_temperature(note.high))
    return ", ".join(part for part in parts if part) + "."


def weeks_figures(page: SeasonPage) -> list[KeyFigure]:
    """How long the season was, and what a week gave at the mean."""
    weeks = [week for week in page.yields.weeks if week.supers]
    if not weeks:
        return []
    supers = sum(week.supers for week in weeks)
    each = page.yields.in_all.grams // len(weeks)
    return [
        KeyFigure(format_number(len(weeks)), tr("weeks with pulls")),
        KeyFigure(f"≈\u202f{format_mass(each, page.unit, 0)}", tr("a week")),
        KeyFigure(format_number(supers // len(weeks)), tr("supers a week")),
    ]
