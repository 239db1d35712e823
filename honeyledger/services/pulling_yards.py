"""The yards as a plan of pulls looks at them: what is on the hives, how wet, and from when on.

Where nobody said how many supers went on, they are guessed by the colonies: as many a colony as
the yards pulled this season gave, else two (common practice, no source). A yard's honey is called
wet where its latest reading is; supers that are on for less than ten days are called fresh (common
practice, no source): what is not capped yet is wet.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from honeyledger.domain.distances import Spot
from honeyledger.domain.moments import say_day
from honeyledger.domain.phrases import phrase
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import YARD, place
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.ledger.yard_log import SUPERS_ON, TREATED, flag_of, noted, told
from honeyledger.services.holding import reading
from honeyledger.services.season_books import number_of
from honeyledger.services.season_pulls import Pull
from honeyledger.services.season_yields import YardYield, Yields
from honeyledger.services.store import View

A_COLONY = 2
FRESH_DAYS = 10
NEVER = date.max


@dataclass(frozen=True, slots=True)
class YardToPull:
    """A yard with supers on it.

    Args:
        supers: still on its hives; `guessed` where nobody said how many went on.
        moisture: of its latest pull that was read, hundredths of a percent; None where none was.
        risk: 2 where that was wet, 1 where supers are fresh, 0 else.
        ready: the first day on which it may be pulled; `NEVER` where nobody knows it.
        why: what keeps it until then, in words.
        on_since: since when its latest supers are on; None where nobody said.
    """

    code: str
    name: str
    place: str
    supers: int
    guessed: bool
    grams: int
    moisture: int | None
    risk: int
    ready: date
    why: str
    on_since: date | None
    spot: Spot | None


def yards_to_pull(
    view: View, given: Yields, pulls: Sequence[Pull], today: date
) -> tuple[YardToPull, ...]:
    """Every yard with supers on it or, where nobody said, with colonies not pulled yet."""
    in_all = given.in_all
    a_super_g = in_all.grams // in_all.supers if in_all.supers else 0
    a_colony = in_all.supers / in_all.colonies if in_all.colonies else A_COLONY
    read = _latest_read(view, pulls, given.season)
    made = []
    for row in given.yards:
        supers, guessed = row.out, row.out is None
        if supers is None:
            supers = max(0, round(row.now.colonies * a_colony) - row.now.supers)
        if supers:
            size = supers, guessed, supers * a_super_g
            made.append(_yard(view, row, size, read.get(row.code), today))
    return tuple(made)


def _yard(
    view: View, row: YardYield, size: tuple[int, bool, int], moisture: int | None, today: date
) -> YardToPull:
    subject = place(YARD, row.code)
    mark = view.mark(subject, "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    since = [told(one, "day") for one in noted(view, subject, SUPERS_ON)]
    on_since = date.fromisoformat(max(since)) if any(since) else None
    is_fresh = on_since is not None and (today - on_since).days < FRESH_DAYS
    is_wet = moisture is not None and moisture > dry_first_over(view)
    ready, why = ready_on(view, subject, today)
    supers, guessed, grams = size
    return YardToPull(
        code=row.code,
        name=row.name,
        place=str(record.get("place", "")),
        supers=supers,
        guessed=guessed,
        grams=grams,
        moisture=moisture,
        risk=2 if is_wet else 1 if is_fresh else 0,
        ready=ready,
        why=why,
        on_since=on_since,
        spot=_spot(record),
    )


def _spot(record: Mapping[str, Json]) -> Spot | None:
    if not all(isinstance(record.get(axis), int) for axis in ("latitude", "longitude")):
        return None
    return Spot(number_of(record, "latitude"), number_of(record, "longitude"))


def ready_on(view: View, yard: str, today: date) -> tuple[date, str]:
    """From when on a yard may be pulled, and what keeps it until then: the label's day decides."""
    flag = flag_of(view, yard)
    if flag is not None:
        words = phrase(
            "flagged for {name}: by itself, and as your local code says", name=told(flag, "name")
        )
        return NEVER, words
    ready, why = today, ""
    for mark in noted(view, yard, TREATED):
        clear, product = told(mark, "clear_day"), told(mark, "product")
        if not clear and not told(mark, "last_day"):
            return NEVER, phrase("{product} is not out yet", product=product)
        if clear and date.fromisoformat(clear) > ready:
            ready = date.fromisoformat(clear)
            day = say_day(clear)
            why = phrase("{product}: not clear until {day}", product=product, day=day)
    return ready, why


def _latest_read(view: View, pulls: Sequence[Pull], season: int) -> Mapping[str, int]:
    """The moisture of each yard's latest pull of a season that was read, by the yard's code."""
    found: dict[str, tuple[date, int]] = {}
    for pull in pulls:
        value = reading(view, pull.code, "moisture") if pull.season == season else None
        code = pull.yard.partition("/")[2]
        if value is not None and (pull.day, value) >= found.get(code, (date.min, 0)):
            found[code] = pull.day, value
    return {code: value for code, (_, value) in found.items()}


def days_from(first: date, count: int) -> list[date]:
    """So many days, one after the other."""
    return [first + timedelta(days=at) for at in range(count)]
