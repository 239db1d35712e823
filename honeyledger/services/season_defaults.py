"""What a season is planned with where nobody types anything: what the ledger knows of the house.

While a season goes on, what is left of it is planned, from tomorrow; where little or nothing is
left, the next one, from the day on which this one began, a year on. Colonies and boxes are the
registers', supers and honey a super those of the season, pace and stops those of its days. What
the ledger does not know is what is usual: common practice, no source.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from honeyledger.domain.moments import house_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import DRUM, PALLET, VESSEL
from honeyledger.services.floor_pace import BoxFrames, stretches_of
from honeyledger.services.season_books import SeasonBooks, number_of, season_books
from honeyledger.services.season_fit import DayLog, fitted
from honeyledger.services.season_pace import DayPace, day_paces, outlook
from honeyledger.services.season_plan import LIMITS, HousePlan, PlanBox, PlanYard
from honeyledger.services.season_work import WorkDay, season_work
from honeyledger.services.season_yields import Yields, yields
from honeyledger.services.store import View

USUAL_BOX = PlanBox("medium", 1_000, 9, 14_800)
"""Common practice, no source."""

LITTLE_LEFT_PERCENT = 10  # of a season's supers: below it the next season is planned
_DRUM_LEAST_G = 100_000  # what is smaller is a pail


@dataclass(frozen=True, slots=True)
class Defaults:
    """A plan to begin with.

    Args:
        told: the figures that the ledger told; the others are what is usual.
        is_rest: whether it is the rest of a season that is going on.
        season: whose days told the pace; 0 where there was none.
    """

    plan: HousePlan
    told: frozenset[str]
    is_rest: bool
    season: int


def plan_defaults(view: View, now_ms: int, whole: bool | None = None) -> Defaults:
    """The plan a house begins with.

    Args:
        whole: plan a whole season, or what is left of this one; None for what there is more of.
    """
    today = house_day(now_ms, rules_of(view).zone)
    colonies = _colonies(view)
    given = yields(view, today.year)
    plan = HousePlan(today + timedelta(days=1), colonies, (USUAL_BOX,))
    told = {"colonies"} if colonies else set()
    season = next((year for year in given.seasons if year <= today.year), 0)
    plan, vessels = _vessels(view, plan)
    told |= vessels
    if not season:
        return Defaults(plan, frozenset(told), is_rest=False, season=0)
    if season != today.year:
        given = yields(view, season)
    books = season_books(view, season, now_ms)
    days = day_paces(books)
    ahead = outlook(books, given, days)
    least = 1 if whole is False else given.in_all.supers * LITTLE_LEFT_PERCENT // 100
    rest = season == today.year and ahead.left >= max(1, least) and not whole
    plan, crop = _crop(plan, books, given, days, rest_of=ahead.out if rest else None)
    plan, pace = fitted(plan, day_logs(books, days))
    plan, drums = _containers(books, plan, days)
    told |= crop | pace | drums
    if ahead.people:
        plan, told = replace(plan, crew=ahead.people), told | {"crew"}
    if not rest:
        first = min((day.day for day in days), default=today)
        plan = replace(plan, begins=_next_year(first, today))
    return Defaults(plan, frozenset(told), is_rest=rest, season=season)


def _next_year(first: date, today: date) -> date:
    """The same day of the first year in which it is still to come."""
    begins = first
    while begins <= today:
        begins += timedelta(days=52 * 7)  # the same day of the week
    return begins


def _colonies(view: View) -> tuple[PlanYard, ...]:
    made = []
    for mark in view.marked("record", "yard/"):
        count = number_of(mark.value, "colonies")
        if count > 0 and isinstance(mark.value, Mapping):
            made.append(PlanYard(str(mark.value.get("name", "")), count))
    return tuple(sorted(made, key=lambda yard: yard.name.casefold()))


def _vessels(view: View, plan: HousePlan) -> tuple[HousePlan, set[str]]:
    """Lines and the tanks they feed; empty drums by their records."""
    records = _records(view, f"{VESSEL}/")
    lines = sum(str(one.get("sort", "")) == "line" for one in records.values())
    tanks = [
        number_of(one, "capacity_g")
        for one in records.values()
        if str(one.get("sort", "")) == "tank" and one.get("fed_by")
    ]
    known: dict[str, int] = {}
    if lines:
        known |= {"extractors": lines, "uncappers": lines}
    if tanks and all(tanks):
        known |= {"tanks": len(tanks), "tank_g": sum(tanks) // len(tanks)}
    drums = [
        subject
        for subject, one in _records(view, f"{DRUM}/").items()
        if number_of(one, "usual_g") >= _DRUM_LEAST_G and str(one.get("sort", "")) == "drum"
    ]
    if drums:
        full = {row.place for row in view.on_hand([DRUM]) if row.grams > 0}
        known["empties"] = sum(subject not in full for subject in drums)
    return _with(plan, known)


def _records(view: View, under: str) -> dict[str, Mapping[str, Json]]:
    return {
        mark.subject: mark.value
        for mark in view.marked("record", under)
        if isinstance(mark.value, Mapping)
    }


def _with(plan: HousePlan, known: Mapping[str, int]) -> tuple[HousePlan, set[str]]:
    """The plan with what is known, as far as a plan can take it."""
    fits = {
        name: value
        for name, value in known.items()
        if name not in LIMITS or LIMITS[name].least <= value <= LIMITS[name].most
    }
    changes: dict[str, Any] = fits
    return replace(plan, **changes), set(fits)


def _crop(
    plan: HousePlan,
    books: SeasonBooks,
    given: Yields,
    days: Sequence[DayPace],
    rest_of: int | None,
) -> tuple[HousePlan, set[str]]:
    """Supers a colony, boxes, pallets and room; `rest_of` are supers still out, of the rest."""
    through = sum(day.supers for day in days)
    here = sum(row.pieces for row in books.view.on_hand([PALLET])) if rest_of is not None else 0
    whole = given.in_all.supers if rest_of is None else through + here + rest_of
    known: dict[str, int] = {}
    if plan.colonies and whole:
        # Rounded up, so that none that is on record is left out.
        known["supers_hundredths"] = -(-whole * 100 // plan.colonies)
    if rest_of is not None:
        known |= {"through": through, "here": here}
    on_pallets = [sum(_counts(entry.lots)) for _, entry in books.of("receive")]
    if pallets := [count for count in on_pallets if count > 0]:
        known["supers_a_place"] = round(sum(pallets) / len(pallets))
        stood, most = 0, 0
        for day in days:
            stood += day.received - day.supers
            most = max(most, stood)
        known["places"] = max(1, -(-most // known["supers_a_place"]))
    plan, told = _with(plan, known)
    boxes = _boxes(books)
    return (replace(plan, boxes=boxes), told | {"frames", "honey_g"}) if boxes else (plan, told)


def _counts(lots: Sequence[Lot]) -> list[int]:
    return [number_of(lot.attributes, "count") for lot in lots]


def _boxes(books: SeasonBooks) -> tuple[PlanBox, ...]:
    """Sorts of box by their part of the season's supers, with the honey each came in with."""
    supers: Counter[str] = Counter()
    grams: Counter[str] = Counter()
    for _, entry in books.of("receive"):
        for lot in entry.lots:
            box = str(lot.attributes.get("box", ""))
            supers[box] += number_of(lot.attributes, "count")
            grams[box] += lot.made_g
    whole = supers.total()
    if not whole:
        return ()
    frames = BoxFrames(books.view)
    order = [box for box, count in supers.most_common() if count > 0]
    parts = {box: supers[box] * 1_000 // whole for box in order}
    parts[order[0]] += 1_000 - sum(parts.values())
    return tuple(
        PlanBox(box, parts[box], frames.of_box(box), grams[box] // supers[box]) for box in order
    )


def day_logs(books: SeasonBooks, days: Sequence[DayPace]) -> list[DayLog]:
    """A season's days as a fit takes them; one that still goes on is left out."""
    work = {one.pace.day: one for one in season_work(books, days).days}
    by_day: dict[tuple[date, str], list[Any]] = {}
    for day, entry in books.entries:
        if entry.act.run:
            by_day.setdefault((day, entry.act.run), []).append(entry)
    stretches: dict[date, list[Any]] = {}
    for (day, _), entries in by_day.items():
        stretches.setdefault(day, []).append(stretches_of(books.view, entries))
    return [
        DayLog(
            day.day,
            day.received,
            day.supers,
            day.minutes,
            tuple(one for found in stretches.get(day.day, ()) for one in found.good),
            tuple(one for found in stretches.get(day.day, ()) for one in found.gaps),
            _minutes_stood(work.get(day.day)),
        )
        for day in days
        if not day.is_open
    ]


def _minutes_stood(day: WorkDay | None) -> tuple[int, ...]:
    return tuple(one.minutes for one in day.stood) if day is not None else ()


def _containers(
    books: SeasonBooks, plan: HousePlan, days: Sequence[DayPace]
) -> tuple[HousePlan, set[str]]:
    """How full drums are, what of the estimates comes into them, and what goes into jars."""
    filled = [
        lot.made_g
        for _, entry in books.of("fill", "bung")
        for lot in entry.lots
        if lot.kind == "D" and lot.made_g >= _DRUM_LEAST_G
    ]
    known: dict[str, int] = {}
    if filled:
        known["drum_g"] = sum(filled) // len(filled)
    loaded, drummed = sum(day.loaded_g for day in days), sum(day.drummed_g for day in days)
    if loaded > 0 and drummed > 0:
        known["kept_permille"] = min(1_000, drummed * 1_000 // loaded)
    jars_g = jars = 0
    since_ms = min((entry.act.happened.at_ms for _, entry in books.entries), default=0)
    for entry in books.view.entries(("bottle",), since_ms):
        for lot in entry.lots:
            if lot.kind == "J" and lot.season == books.season:
                jars_g += lot.made_g
                jars += number_of(lot.attributes, "jars")
    if jars and drummed > 0:
        known["jar_g"] = jars_g // jars
        known["jars_percent"] = min(100, round(100 * jars_g / drummed))
    return _with(plan, known)
