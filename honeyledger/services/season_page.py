"""Everything the season's page shows at one moment: yields, readings, losses, pace, drums."""

from dataclasses import dataclass
from datetime import date

from honeyledger.domain.control import MOST
from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.services.day_sheet import DaySheet
from honeyledger.services.pulling import PullingPlan
from honeyledger.services.season_books import season_books
from honeyledger.services.season_control import PartChart, control_charts
from honeyledger.services.season_drums import ColourStock, drum_stock
from honeyledger.services.season_groups import Groups, groups
from honeyledger.services.season_losses import Losses, last_of, losses
from honeyledger.services.season_pace import DayPace, Outlook, day_paces, outlook
from honeyledger.services.season_pulls import pulls_of, yard_records
from honeyledger.services.season_readings import COLOUR, MOISTURE, ReadThrough, read_through
from honeyledger.services.season_slips import Slip, slips
from honeyledger.services.season_today import DayHours, day_hours
from honeyledger.services.season_wax import Wax, season_wax
from honeyledger.services.season_work import SeasonWork, season_work
from honeyledger.services.season_yields import Yields, yields
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View
from honeyledger.services.weather import WeatherNote, weather_notes

NO_SEASON = Sentence(
    "nothing-pulled-then",
    "Nothing was pulled in {year}, as far as this ledger knows. It has {seasons}.",
)


@dataclass(frozen=True, slots=True)
class SeasonPage:
    """A season of the house.

    Args:
        seasons: those one can look at, this one first.
        hours: of the last run day.
        outlook: only of the season that is going on.
        stock: what stands in drums now, of whatever season.
        house, entries, digest: for the foot of what is printed.
        groups: the yields by crew, by forage and season by season.
        slips: stacks that lie far off the others, to be looked at.
        charts: each line's losses with their control limits.
        weather: what was noted of the season's days.
        work: how the line worked each day, and what it stood for.
        pulling, today_sheet: which yards to pull next, and what there is to do today, where
            somebody asked for them as well.
        dry_first: above this, hundredths of a percent, honey is dried first in this house.
    """

    season: int
    seasons: tuple[int, ...]
    today: date
    zone: str
    unit: MassUnit
    yields: Yields
    moisture: ReadThrough
    colour: ReadThrough
    losses: Losses
    days: tuple[DayPace, ...]
    hours: DayHours | None
    outlook: Outlook | None
    stock: tuple[ColourStock, ...]
    house: str
    entries: int
    digest: str
    dry_first: int
    groups: Groups
    slips: tuple[Slip, ...]
    charts: tuple[PartChart, ...]
    wax: Wax
    weather: tuple[WeatherNote, ...]
    work: SeasonWork
    pulling: PullingPlan | None = None
    today_sheet: DaySheet | None = None

    @property
    def is_now(self) -> bool:
        """Whether it is the season that is going on."""
        return self.season == self.today.year


def season_page(view: View, now_ms: int, season: int = 0) -> SeasonPage:
    """A season, this one where none is named.

    Raises:
        Refusal: nothing was pulled in that year.
    """
    zone = rules_of(view).zone
    today = house_day(now_ms, zone)
    pulls = pulls_of(view, list(yard_records(view)))
    given = yields(view, season or today.year, pulls)
    seasons = tuple(sorted({*given.seasons, today.year}, reverse=True))
    if given.season not in seasons:
        known = ", ".join(str(year) for year in seasons)
        raise Refusal(NO_SEASON, field="year", year=season, seasons=known)
    books = season_books(view, given.season, now_ms)
    days = day_paces(books)
    lost = losses(books)
    before = last_of(view, given.season - 1, zone, MOST)
    head = view.head()
    mark = view.mark("house", "record")
    name = mark.value.get("name", "") if mark and isinstance(mark.value, dict) else ""
    return SeasonPage(
        season=books.season,
        seasons=seasons,
        today=today,
        zone=zone,
        unit=mass_unit(view),
        yields=given,
        moisture=read_through(books, MOISTURE),
        colour=read_through(books, COLOUR),
        losses=lost,
        days=days,
        hours=day_hours(books, days),
        outlook=outlook(books, given, days) if books.is_now else None,
        stock=drum_stock(view),
        house=str(name),
        entries=head.entry,
        digest=head.digest,
        dry_first=dry_first_over(view),
        groups=groups(given, pulls),
        slips=slips(books),
        charts=tuple(control_charts(lost.runs, before)),
        wax=season_wax(books, lost),
        weather=weather_notes(view, given.season),
        work=season_work(books, days),
    )
