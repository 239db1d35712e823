"""Everything the hot room shows at once: what waits there, how long, how wet, and in what air."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from honeyledger.domain.air import what_air_does
from honeyledger.domain.beetles import Clock, clock
from honeyledger.domain.moments import Moment, house_day, moment_at
from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import PALLET, ROOM, YARD, key_of
from honeyledger.ledger.state import Standing
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.ledger.whereabouts import STANDS
from honeyledger.services.dock import Choice, choices
from honeyledger.services.drums_page import sources_in_reach
from honeyledger.services.drying import ToDry, moistures_of, to_dry
from honeyledger.services.holding import held_lots, hold_sentence, reading, values_on
from honeyledger.services.hot_room_air import AirReading, air_lately
from honeyledger.services.line import WAITS_TOO_LONG_MS
from honeyledger.services.rooms import spot_words
from honeyledger.services.setup import mass_unit
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

HOUR_MS = 3_600_000


@dataclass(frozen=True, slots=True)
class RoomNow:
    """A room with the last reading of its air, where there is one.

    Args:
        temperature, humidity: tenths of a degree Celsius, hundredths of a percent.
        read: when the humidity, else the temperature, was read last.
    """

    key: str
    name: str
    temperature: int | None
    humidity: int | None
    read: Moment | None


@dataclass(frozen=True, slots=True)
class WaitsRow:
    """A pallet that waits: grams, hours, hundredths of a percent.

    Args:
        state: "hold", "dry first", "waits too long" or "ready".
        air: what the air of its room does to it: "dries", "wets", "holds", "" where nobody knows.
        spot: the room and row where it stands, "" where nobody said.
        held: each hold that reaches it, in words.
        sources: the outside places its honey came from, which a run would tie together.
        to_dry: of one that is too wet, how long it needs yet.
        beetle: how it stands with the small hive beetle, by the air since it waits.
    """

    code: str
    yards: tuple[str, ...]
    state: str
    supers: int
    grams: int
    hours: int
    moisture: int | None
    air: str
    spot: str
    held: tuple[str, ...]
    sources: frozenset[str]
    to_dry: ToDry | None = None
    beetle: Clock | None = None


@dataclass(frozen=True, slots=True)
class HotRoomPage:
    """The hot room at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        air: what was read of each room lately, by its key.
    """

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    rows: tuple[WaitsRow, ...]
    rooms: tuple[RoomNow, ...]
    yards: tuple[Choice, ...]
    air: Mapping[str, tuple[AirReading, ...]] = field(default_factory=dict)

    def row(self, code: str) -> WaitsRow | None:
        """A pallet by its tag."""
        wanted = code.strip().upper()
        return next((row for row in self.rows if row.code == wanted), None)

    def room(self, name: str = "") -> RoomNow | None:
        """A room by its name; the one whose air was read last where none is named."""
        if name.strip():
            wanted = name.strip().casefold()
            return next((one for one in self.rooms if one.name.casefold() == wanted), None)
        read = [one for one in self.rooms if one.read is not None]
        latest = max(read, key=lambda one: one.read.at_ms if one.read else 0, default=None)
        return latest or next(iter(self.rooms), None)


def hot_room_page(view: View, now_ms: int) -> HotRoomPage:
    """The hot room now; what waits longest is first."""
    zone = rules_of(view).zone
    rooms = tuple(_room(view, room, zone) for room in choices(view, ROOM))
    page = HotRoomPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=house_day(now_ms, zone),
        rows=(),
        rooms=rooms,
        yards=choices(view, YARD),
        air=air_lately(view, now_ms),
    )
    return replace(page, rows=_rows(view, now_ms, page))


def _room(view: View, room: Choice, zone: str) -> RoomNow:
    subject = f"{ROOM}/{room.code}"
    marks = {name: view.mark(subject, name) for name in ("temperature", "humidity")}
    values = {
        name: mark.value if mark and isinstance(mark.value, int) else None
        for name, mark in marks.items()
    }
    latest = marks["humidity"] or marks["temperature"]
    read = moment_at(latest.at_ms, zone) if latest else None
    return RoomNow(room.code, room.name, values["temperature"], values["humidity"], read)


def _rows(view: View, now_ms: int, page: HotRoomPage) -> tuple[WaitsRow, ...]:
    """Each pallet once, with all the pulls on it."""
    held, names = held_lots(view), PlaceNames(view)
    places = dict.fromkeys(row.place for row in view.on_hand([PALLET]))
    standing = {where: view.standing(where) for where in places}
    lots = {row.lot.id for rows in standing.values() for row in rows}
    sources = sources_in_reach(view, lots)
    spots = values_on(view, STANDS, [key_of(where) for where in standing])
    wet, dry_first = _Wet(view, standing, now_ms), dry_first_over(view)
    made = []
    for where, rows in standing.items():
        found = frozenset[str]().union(*(sources[row.lot.id] for row in rows))
        spot = spots.get(key_of(where))
        room = str(spot.get("room", "")) if isinstance(spot, Mapping) else ""
        wettest = _wettest(view, rows)
        hours = _waited_ms(rows, now_ms) // HOUR_MS
        holds = dict.fromkeys(
            hold_sentence(view, hold) for row in rows for hold in held.get(row.lot.id, ())
        )
        made.append(
            WaitsRow(
                code=key_of(where),
                yards=tuple(sorted(names[one] for one in found)),
                state="hold" if holds else _state(wettest, _waited_ms(rows, now_ms), dry_first),
                supers=sum(row.pieces for row in rows),
                grams=sum(row.grams for row in rows),
                hours=hours,
                moisture=wettest,
                air=_air(page, room, wettest),
                spot=_spot_words(names, spot),
                held=tuple(holds),
                sources=found,
                to_dry=wet.to_dry(rows, _humidity(page, room)),
                beetle=clock(hours, _humidities(page, room, now_ms - hours * HOUR_MS)),
            )
        )
    return tuple(sorted(made, key=lambda row: (-row.hours, row.code)))


def _wettest(view: View, rows: Sequence[Standing]) -> int | None:
    read = [reading(view, row.lot.code, "moisture") for row in rows]
    return max((one for one in read if one is not None), default=None)


class _Wet:
    """How long what is too wet needs yet; its readings are asked for once for all of it."""

    def __init__(
        self, view: View, standing: Mapping[str, Sequence[Standing]], now_ms: int
    ) -> None:
        self._now_ms, self._dry_first = now_ms, dry_first_over(view)
        rows = [row for rows in standing.values() for row in rows]
        latest = {row.lot.code: reading(view, row.lot.code, "moisture") for row in rows}
        self._latest = {code: value for code, value in latest.items() if value is not None}
        wet = {code for code, value in self._latest.items() if value > self._dry_first}
        since = min((row.since_ms for row in rows if row.lot.code in wet), default=0)
        self._readings = moistures_of(view, wet, since)

    def to_dry(self, rows: Sequence[Standing], humidity: int | None) -> ToDry | None:
        """How long a pallet needs: its wettest pull's time."""
        read = [row.lot.code for row in rows if row.lot.code in self._latest]
        wettest = max(read, key=lambda code: self._latest[code], default="")
        return to_dry(self._readings.get(wettest, []), self._now_ms, humidity, self._dry_first)


def _waited_ms(rows: Sequence[Standing], now_ms: int) -> int:
    return now_ms - min((row.since_ms for row in rows), default=now_ms)


def _state(moisture: int | None, waited_ms: int, dry_first: int) -> str:
    if moisture is not None and moisture > dry_first:
        return phrase("dry first")
    return phrase("waits too long") if waited_ms > WAITS_TOO_LONG_MS else phrase("ready")


def _air(page: HotRoomPage, key: str, moisture: int | None) -> str:
    """What the air does to honey of a moisture, in its own room, else in the one read last."""
    humidity = _humidity(page, key)
    return "" if humidity is None or moisture is None else what_air_does(moisture, humidity)


def _humidity(page: HotRoomPage, key: str) -> int | None:
    """The humidity of a room, else of the one read last."""
    room = next((one for one in page.rooms if one.key == key), None) or page.room()
    return room.humidity if room is not None else None


def _humidities(page: HotRoomPage, key: str, since_ms: int) -> list[int]:
    """What the air of a room read since then; of one that nobody named nothing is known."""
    return [
        row.humidity
        for row in page.air.get(key, ())
        if row.humidity is not None and row.happened.at_ms >= since_ms
    ]


def _spot_words(names: PlaceNames, spot: object) -> str:
    if not isinstance(spot, Mapping) or "room" not in spot:
        return ""
    return spot_words(names, {name: str(text) for name, text in spot.items()})
