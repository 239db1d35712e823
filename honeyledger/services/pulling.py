"""Which yards to pull next, in which order to drive, and what keeps the others.

Day by day a truck goes out for what the hot room has room for: first the yard whose supers have
been on longest among those that are ready and not wet, then the nearest ones beside it, as long as
they fit; wet and fresh yards come last. A yard that is on its withholding days is not on a truck
before its day. What the line puts through makes room for the next day. The order on the road is
the shortest round that was found. A plan books nothing, and a look under the lid decides.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from honeyledger.domain.distances import Spot, road_km
from honeyledger.domain.moments import house_day, say_day
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import PALLET
from honeyledger.services.holding import name_in
from honeyledger.services.labelling import head_text
from honeyledger.services.pulling_usual import fullest, home_of, run_day, usual_truck
from honeyledger.services.pulling_yards import NEVER, YardToPull, yards_to_pull
from honeyledger.services.routing import Router
from honeyledger.services.season_books import SeasonBooks, season_books
from honeyledger.services.season_pace import day_paces
from honeyledger.services.season_pulls import pulls_of, yard_records
from honeyledger.services.season_yields import yields
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View
from honeyledger.services.weather import weather_notes

WET_WEATHER = ("rain", "storm")
LIMIT_S = 5.0
_FEW = 4
_MOST_RISK = 2
MOST_DAYS = 60

NO_SUCH_YARD = Sentence(
    "pulling-no-such-yard", "{text} is no yard of this house. Name it as its record does."
)
FIRST_DAY_GONE = Sentence(
    "pulling-day-gone", "{day} is over. Type a day from today on, or leave it out."
)
NO_TRUCK = Sentence(
    "pulling-no-truck", "A truck that takes {count} supers pulls nothing. Type what fits on it."
)
NO_DAYS = Sentence(
    "pulling-no-days", "Type a number of days from 1 to {most}: {count} is no plan."
)
NO_ROOM = Sentence(
    "pulling-no-room",
    "The hot room cannot take {count} supers. Type how many stand there when it is full.",
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What a plan is made for; what is None comes from the ledger.

    Args:
        truck: supers on one load; `room` those in the hot room when it is full.
        first: the first day, today where none is said.
        home: where the truck starts; else where the house stands by its record.
        yards: only these, by code or name; all where none is named.
    """

    days: int = 3
    truck: int | None = None
    room: int | None = None
    first: date | None = None
    home: Spot | None = None
    yards: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stop:
    """A yard on a trip: how many of its supers come along, and how far it is from the one before.

    Args:
        tenths_km: about, by road; None where one of the two has no coordinates.
    """

    yard: YardToPull
    supers: int
    tenths_km: int | None = None


@dataclass(frozen=True, slots=True)
class Trip:
    """One day's truck; `tenths_km` the whole way, and back where it is known where it starts."""

    day: date
    stops: tuple[Stop, ...]
    tenths_km: int
    proved: bool

    @property
    def supers(self) -> int:
        """Supers on the truck."""
        return sum(stop.supers for stop in self.stops)

    @property
    def grams(self) -> int:
        """Honey on the truck, by what a super came in with this season."""
        return sum(stop.yard.grams * stop.supers // stop.yard.supers for stop in self.stops)


@dataclass(frozen=True, slots=True)
class NotYet:
    """A yard with supers that are not on a truck in these days, and why."""

    yard: YardToPull
    supers: int
    why: str


@dataclass(frozen=True, slots=True)
class PullingPlan:
    """The plan; `says` are sentences about what was not known.

    Args:
        truck, room: what it was made with; `room` None where nobody knows.
        waiting: supers in the house now; `a_day` what the line puts through on a run day.
    """

    house: str
    head: str
    zone: str
    unit: MassUnit
    truck: int
    room: int | None
    waiting: int
    a_day: int
    trips: tuple[Trip, ...]
    not_yet: tuple[NotYet, ...]
    says: tuple[str, ...]


def pulling_plan(view: View, asked: Asked, router: Router, now_ms: int) -> PullingPlan:
    """Plan the next days' pulls.

    Raises:
        Refusal: no such yard, a day that is over, or a truck, a room or days of nothing.
    """
    today = house_day(now_ms, rules_of(view).zone)
    first = _checked(asked, today)
    books = season_books(view, first.year, now_ms)
    pulls = pulls_of(view, list(yard_records(view)))
    given = yields(view, first.year, pulls)
    yards = _named(yards_to_pull(view, given, pulls, first), view, asked.yards)
    days = day_paces(books)
    waiting = sum(row.pieces for row in view.on_hand([PALLET]))
    truck = asked.truck or usual_truck(days)
    a_day = run_day(days)
    room = asked.room if asked.room is not None else fullest(days, waiting)
    home = asked.home or home_of(view)
    loads, left = _loads(yards, _Frame(first, asked.days, truck, room, waiting, a_day))
    trips = tuple(_driven(day, stops, home, router) for day, stops in loads)
    return PullingPlan(
        house=name_in(view, "house", "Honey house"),
        head=head_text(view),
        zone=books.zone,
        unit=mass_unit(view),
        truck=truck,
        room=room,
        waiting=waiting,
        a_day=a_day,
        trips=trips,
        not_yet=left,
        says=_says(view, books, yards, home, room),
    )


def _checked(asked: Asked, today: date) -> date:
    first = asked.first or today
    if first < today:
        raise Refusal(FIRST_DAY_GONE, field="first", day=say_day(first.isoformat()))
    if asked.truck is not None and asked.truck < 1:
        raise Refusal(NO_TRUCK, field="truck", count=asked.truck)
    if asked.room is not None and asked.room < 1:
        raise Refusal(NO_ROOM, field="room", count=asked.room)
    if not 1 <= asked.days <= MOST_DAYS:
        raise Refusal(NO_DAYS, field="days", most=MOST_DAYS, count=asked.days)
    return first


def _named(
    yards: Sequence[YardToPull], view: View, wanted: Sequence[str]
) -> tuple[YardToPull, ...]:
    if not wanted:
        return tuple(yards)
    known = {
        str(text).casefold(): subject.partition("/")[2]
        for subject, record in yard_records(view).items()
        for text in (record.get("name", ""), subject.partition("/")[2])
    }
    codes = set()
    for text in wanted:
        if text.strip().casefold() not in known:
            raise Refusal(NO_SUCH_YARD, field="yard", text=text.strip())
        codes.add(known[text.strip().casefold()])
    return tuple(yard for yard in yards if yard.code in codes)


# Which yards on which day.


@dataclass(frozen=True, slots=True)
class _Frame:
    """What the days' loads must keep."""

    first: date
    days: int
    truck: int
    room: int | None
    waiting: int
    a_day: int

    def fits(self, at: int, taken: int) -> int:
        """How many supers fit on the truck of a day, and in the room in the evening of it."""
        if self.room is None:
            return self.truck
        stands = max(0, self.waiting + taken - (at + 1) * self.a_day)
        return max(0, min(self.truck, self.room - stands))


def _loads(
    yards: Sequence[YardToPull], frame: _Frame
) -> tuple[list[tuple[date, list[Stop]]], tuple[NotYet, ...]]:
    left = {yard.code: yard.supers for yard in yards}
    by_code = {yard.code: yard for yard in yards}
    loads, taken = [], 0
    for at in range(frame.days):
        day = frame.first + timedelta(days=at)
        able = [by_code[code] for code, supers in left.items() if supers]
        able = [yard for yard in able if yard.ready <= day]
        stops = _load(able, left, frame.fits(at, taken))
        for stop in stops:
            left[stop.yard.code] -= stop.supers
            taken += stop.supers
        if stops:
            loads.append((day, stops))
    last = frame.first + timedelta(days=frame.days - 1)
    rest = [
        NotYet(by_code[code], supers, _why(by_code[code], last))
        for code, supers in left.items()
        if supers
    ]
    return loads, tuple(sorted(rest, key=lambda one: (one.yard.ready, one.yard.name.casefold())))


def _why(yard: YardToPull, last: date) -> str:
    return yard.why if yard.ready > last else phrase("no room in these days")


def _load(able: Sequence[YardToPull], left: Mapping[str, int], fits: int) -> list[Stop]:
    """One truck: the most urgent yard, then what is nearest to those on it.

    A wet yard does not fill up a truck while a dry one waits that was too large for its rest.
    """
    rest, stops, waits = sorted(able, key=_urgency), list[Stop](), _MOST_RISK
    while rest and fits > 0:
        lowest = min(yard.risk for yard in rest)
        if lowest > waits:
            break
        class_of = [yard for yard in rest if yard.risk == lowest]
        yard = class_of[0] if not stops else min(class_of, key=lambda one: _off(one, stops))
        rest.remove(yard)
        supers = left[yard.code]
        # A yard is pulled whole, unless it is more than a truck takes.
        if supers > fits and stops:
            waits = min(waits, yard.risk)
            continue
        stops.append(Stop(yard, min(supers, fits)))
        fits -= stops[-1].supers
    return stops


def _urgency(yard: YardToPull) -> tuple[int, date, int, str]:
    return yard.risk, yard.on_since or date.min, -yard.supers, yard.name.casefold()


def _off(yard: YardToPull, stops: Sequence[Stop]) -> tuple[float, tuple[int, date, int, str]]:
    """How far a yard is from the nearest one on the truck; unknown ones come after known ones."""
    known = [stop.yard.spot for stop in stops if stop.yard.spot is not None]
    if yard.spot is None or not known:
        return float("inf"), _urgency(yard)
    return min(road_km(yard.spot, spot) for spot in known), _urgency(yard)


# The road.


def _driven(day: date, stops: Sequence[Stop], home: Spot | None, router: Router) -> Trip:
    """The stops in the order of the shortest round; those without coordinates come last."""
    placed = [(stop, spot) for stop in stops if (spot := stop.yard.spot) is not None]
    lost = [stop for stop in stops if stop.yard.spot is None]
    spots = [spot for _, spot in placed]
    # Where nobody knows where the truck starts, the way begins and ends at any two yards.
    km = [[road_km(one, other) for other in spots] for one in spots]
    starts = [road_km(home, spot) if home else 0.0 for spot in spots]
    table = [[0.0, *starts], *([start, *row] for start, row in zip(starts, km, strict=True))]
    found = router.round(table, LIMIT_S)
    ordered, before = list[Stop](), 0
    for at in found.order[1:]:
        known = before > 0 or home is not None
        ordered.append(
            replace(placed[at - 1][0], tenths_km=round(10 * table[before][at]) if known else None)
        )
        before = at
    return Trip(day, (*ordered, *lost), round(10 * found.km), found.proved)


def _says(
    view: View,
    books: SeasonBooks,
    yards: Sequence[YardToPull],
    home: Spot | None,
    room: int | None,
) -> tuple[str, ...]:
    said: list[str] = []
    lost = [yard.name for yard in yards if yard.spot is None]
    if lost:
        names = ", ".join(sorted(lost))
        said.append(
            phrase(
                "No coordinates are on record of {yards}: planned last on their trip. Setup "
                "takes them.",
                yards=names,
            )
        )
    if home is None and len(lost) < len(yards):
        said.append(
            phrase(
                "Where the house stands is not on record: the way there is not in it. Setup takes "
                "its latitude and longitude."
            )
        )
    guessed = sorted(yard.name for yard in yards if yard.guessed)
    if len(guessed) > _FEW:
        said.append(
            phrase(
                "Of {n} yards nobody said how many supers are on: guessed by their colonies.",
                n=len(guessed),
            )
        )
    elif guessed:
        said.append(
            phrase(
                "Nobody said how many supers are on {yards}: guessed by their colonies.",
                yards=", ".join(guessed),
            )
        )
    if room is None:
        said.append(phrase("Nobody said how many supers the hot room takes: not looked at."))
    lately = books.today - timedelta(days=2)
    rained = [
        note
        for note in weather_notes(view, books.season)
        if lately <= note.day <= books.today and note.sort in WET_WEATHER
    ]
    if rained:
        said.append(
            phrase(
                "It rained on {day}: read the moisture under the lid before supers come off.",
                day=say_day(rained[-1].day.isoformat()),
            )
        )
    if any(yard.ready == NEVER for yard in yards):
        said.append(phrase("Labels and your local code decide when a treated yard may be pulled."))
    return tuple(said)
