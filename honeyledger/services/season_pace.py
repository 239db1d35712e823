"""How fast the season goes: supers, frames and kilograms a day, and when it ends at this pace.

The end is arithmetic, no forecast: what still waits and what is still on the hives by the books,
at the supers a day of the last fortnight, idle days counted; and at the earliest, if every day
from tomorrow on were a run day like the middle one. What it takes is told in hours, drums and
hours of work of as many people as usual. Weather and machines are not in it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import DRUM, PALLET, VESSEL, class_of, key_of
from honeyledger.services.floor import opened_in
from honeyledger.services.floor_pace import FRAMES_A_LOAD, BoxFrames, scanned_pace
from honeyledger.services.season_books import RUN_KINDS, SeasonBooks, number_of, pieces_of
from honeyledger.services.season_yields import Yields

FORTNIGHT = 14
_HOUR_MS = 3_600_000
FURTHEST_DAYS = 366  # an end that is further off than a year is none


@dataclass(frozen=True, slots=True)
class DayPace:
    """A day: supers in and through, frames by the boxes' records, grams into drums.

    Args:
        received_g, loaded_g: estimates.
        frames_an_hour: of all runs of the day, over the pallets whose end was scanned.
        minutes: from the first to the last scan of its runs; up to now while one is open today.
    """

    day: date
    received: int = 0
    received_g: int = 0
    supers: int = 0
    frames: int = 0
    loaded_g: int = 0
    drummed_g: int = 0
    minutes: int = 0
    frames_an_hour: int = 0
    is_open: bool = False

    @property
    def loads(self) -> int:
        """Loads of a medium radial extractor: common practice, no source."""
        return -(-self.frames // FRAMES_A_LOAD)


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is still to come of a season that is going on; masses are estimated grams.

    Args:
        waiting, waiting_g: supers on pallets in the house.
        out: supers on the hives by the books, over the yards where somebody said.
        unsaid: yards with colonies where nobody said how many supers went on.
        run_day: supers of the middle one of the last run days; 0 without any.
        fortnight: supers put through in the last fortnight, today left out.
        a_super_g: what a super came in with this season, at the mean.
        pulled_g, crop_g: pulled so far; the same and what is out at that mean.
        ends: the day of the last super at the fortnight's pace; None where there is no pace.
        soonest: the same if every day were a run day.
        minutes: of extracting what is left, at the middle one of the last days' pace; 0 without.
        drums: that what is left will fill, as full as this season's; 0 where none was filled.
        people: of the middle one of the last runs, by their crews; 0 where nobody said.
    """

    waiting: int
    waiting_g: int
    out: int
    unsaid: int
    run_day: int
    fortnight: int
    a_super_g: int
    pulled_g: int
    crop_g: int
    ends: date | None
    soonest: date | None
    minutes: int = 0
    drums: int = 0
    people: int = 0

    @property
    def work_minutes(self) -> int:
        """Of all who extract what is left, with as many as it usually takes."""
        return self.minutes * self.people

    @property
    def left(self) -> int:
        """Supers still to be put through."""
        return self.waiting + self.out


@dataclass
class _Sums:
    """A day while it is added up."""

    received: int = 0
    received_g: int = 0
    supers: int = 0
    frames: int = 0
    loaded_g: int = 0
    drummed_g: int = 0
    times: list[int] = field(default_factory=list)
    runs: dict[str, list[Entry]] = field(default_factory=dict)


def day_paces(books: SeasonBooks) -> tuple[DayPace, ...]:
    """Every day on which supers came in or went through, or drums were filled, oldest first."""
    sums: dict[date, _Sums] = {}
    frames = BoxFrames(books.view)
    loads = {entry.id: day for day, entry in books.of("load")}
    for day, entry in books.entries:
        of_day = sums.setdefault(day, _Sums())
        if entry.act.run and entry.kind in RUN_KINDS:
            of_day.times.append(entry.act.happened.at_ms)
            of_day.runs.setdefault(entry.act.run, []).append(entry)
        if entry.kind == "receive":
            of_day.received += sum(number_of(lot.attributes, "count") for lot in entry.lots)
            of_day.received_g += sum(lot.made_g for lot in entry.lots)
        elif entry.kind == "load":
            _add_load(of_day, entry, frames)
        elif entry.kind == "set aside":
            _take_off(sums, entry, loads, frames)
        elif entry.kind in ("fill", "bung"):
            # What only changes its lot in a drum is no gain.
            rows = [row.grams for row in entry.postings if class_of(row.place) == DRUM]
            of_day.drummed_g += max(0, sum(rows))
    begun = books.view.marked_without("opened", "closed", "run/")
    still_open = {key_of(mark.subject) for mark in begun}
    made = [_day(day, one, books, still_open) for day, one in sorted(sums.items())]
    return tuple(one for one in made if one.received or one.supers or one.drummed_g)


def _add_load(of_day: _Sums, entry: Entry, frames: BoxFrames) -> None:
    of_day.supers += pieces_of(entry)
    for _, lot, count in rows_of(entry, "pieces"):
        of_day.frames -= int(str(count)) * frames.of(int(str(lot)))
    into = [row for row in entry.postings if class_of(row.place) == VESSEL]
    of_day.loaded_g += sum(row.grams for row in into if row.grams > 0)


def _take_off(
    sums: Mapping[date, _Sums], entry: Entry, loads: Mapping[int, date], frames: BoxFrames
) -> None:
    """What was set aside at the uncapper never went through: the day of its load is less by it."""
    for _, name, value in rows_of(entry, "marks"):
        day = loads.get(number_of(value, "load")) if name == "set aside" else None
        if day is not None:
            supers = number_of(value, "supers")
            sums[day].supers -= supers
            sums[day].frames -= supers * frames.of(number_of(value, "lot"))
            sums[day].frames -= number_of(value, "frames")
            sums[day].loaded_g -= number_of(value, "grams")


def _day(day: date, one: _Sums, books: SeasonBooks, still_open: set[str]) -> DayPace:
    is_open = day == books.today and bool(one.runs.keys() & still_open)
    end_ms = books.now_ms if is_open else max(one.times, default=0)
    minutes = max(0, end_ms - min(one.times)) * 60 // _HOUR_MS if one.times else 0
    return DayPace(
        day,
        one.received,
        one.received_g,
        one.supers,
        one.frames,
        one.loaded_g,
        one.drummed_g,
        minutes,
        sum(scanned_pace(books.view, entries) for entries in one.runs.values()),
        is_open,
    )


def outlook(books: SeasonBooks, given: Yields, days: Sequence[DayPace]) -> Outlook:
    """What is still to come, and when it ends at this pace."""
    pallets = books.view.on_hand([PALLET])
    waiting = sum(row.pieces for row in pallets)
    out = sum(row.out or 0 for row in given.yards)
    ran = [one.supers for one in days if one.supers > 0]
    last = ran[-FORTNIGHT:]
    run_day = sorted(last)[(len(last) - 1) // 2] if last else 0
    since = books.today - timedelta(days=FORTNIGHT)
    fortnight = sum(one.supers for one in days if since <= one.day < books.today)
    a_super_g = given.in_all.grams // given.in_all.supers if given.in_all.supers else 0
    left = waiting + out
    return Outlook(
        waiting=waiting,
        waiting_g=sum(row.grams for row in pallets),
        out=out,
        unsaid=sum(row.out is None and row.now.colonies > 0 for row in given.yards),
        run_day=run_day,
        fortnight=fortnight,
        a_super_g=a_super_g,
        pulled_g=given.in_all.grams,
        crop_g=given.in_all.grams + out * a_super_g,
        ends=_end(books.today, left * FORTNIGHT, fortnight),
        soonest=_end(books.today, left, run_day),
        minutes=_minutes(days, left),
        drums=_drums(books, days, sum(row.grams for row in pallets) + out * a_super_g),
        people=_people(books),
    )


def _minutes(days: Sequence[DayPace], supers: int) -> int:
    """How long so many supers take, with as many frames in each as this season's had."""
    through, frames = sum(one.supers for one in days), sum(one.frames for one in days)
    paces = sorted([one.frames_an_hour for one in days if one.frames_an_hour][-FORTNIGHT:])
    if not paces or through <= 0:
        return 0
    return supers * frames * 60 // (through * paces[(len(paces) - 1) // 2])


def _people(books: SeasonBooks) -> int:
    """How many work a run, of the middle one of those whose crew was said; a shift by its list."""
    last = sorted(list(crews(books).values())[:FORTNIGHT])
    return last[(len(last) - 1) // 2] if last else 0


def crews(books: SeasonBooks) -> dict[str, int]:
    """How many work each run of the season whose crew was said, the newest first."""
    shifts = {}
    for mark in books.view.marked("record", "shift/"):
        if isinstance(mark.value, Mapping):
            people = str(mark.value.get("people", ""))
            shifts[str(mark.value.get("name", "")).casefold()] = len(_named(people))
    found = {}
    for opened in opened_in(books.view, books.season, books.zone):
        value = opened.value if isinstance(opened.value, Mapping) else {}
        said = str(value.get("crew", "")).strip()
        if said:
            shift = shifts.get(said.casefold(), 0)
            found[key_of(opened.subject)] = shift or len(_named(said))
    return found


def _named(people: str) -> list[str]:
    return [name for name in people.split(",") if name.strip()]


def _drums(books: SeasonBooks, days: Sequence[DayPace], grams: int) -> int:
    """How many drums so much estimated honey fills, as this season's estimates came out."""
    filled = [
        lot.made_g
        for _, entry in books.entries
        if entry.kind in ("fill", "bung")
        for lot in entry.lots
        if lot.kind == "D" and lot.made_g
    ]
    loaded, drummed = sum(one.loaded_g for one in days), sum(one.drummed_g for one in days)
    if not filled or loaded <= 0:
        return 0
    return -(-grams * drummed * len(filled) // (loaded * sum(filled)))


def _end(today: date, supers: int, a_day: int) -> date | None:
    """The day on which the last one goes through, beginning tomorrow; None without a pace."""
    if supers <= 0:
        return today
    days = -(-supers // a_day) if a_day > 0 else FURTHEST_DAYS + 1
    return today + timedelta(days=days) if days <= FURTHEST_DAYS else None
