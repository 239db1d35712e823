"""The hot room: the log of its air, and the water that leaves honey there.

Water is computed on solids: what is no water before is there after. Drying takes nothing from the
make-up of a lot, so that shares and reach stay as they are. A dry entry is undone by reversing it.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from honeyledger.domain.codes import Code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import (
    format_mass,
    format_moisture,
    format_temperature,
    largest_remainder,
)
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.composite import latest
from honeyledger.ledger.containers import container_at
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.in_run import check_run_open, of_run
from honeyledger.ledger.lookup import code_in, find_lot, find_pallet, find_record
from honeyledger.ledger.mixing import feed, is_late, name_of, settle
from honeyledger.ledger.places import DRUM, EVAPORATED, PALLET, ROOM, class_of, key_of
from honeyledger.ledger.plausible import note_supers
from honeyledger.ledger.sources import (
    NOTHING_THERE,
    TO_FOLLOW,
    Weight,
    find_source,
    net_of,
    number_in,
)
from honeyledger.ledger.verbs.dock import PALLET_TARE_G
from honeyledger.ledger.verbs.measuring import RANGES, check_reading
from honeyledger.ledger.wetness import note_wet

NO_ROOM_READING = Sentence("no-room-reading", "Read the temperature or the humidity of {room}.")
ROOM_READING = Sentence(
    "room-reading", "A {name} of {value} cannot be right for a room. Read it again."
)
ROOM_HOT = Sentence(
    "room-hot",
    "{room} is at {value}: above 40 °C combs sag and honey suffers. Let it cool, and mind the "
    "people who work in it.",
)  # value from memory; one report has combs failing near 42 °C
ROOM_DAMP = Sentence(
    "room-damp",
    "At {value} humidity the air in {room} wets honey of 18 % instead of drying it. Dry the air "
    "first, or keep the supers out.",
)  # clover honey of 17.4 % stands in balance at 58 %, of 21.5 % at 66 % (Martin 1939, reprinted)
NO_AFTER = Sentence(
    "no-after",
    "Read the moisture after drying, or weigh it again: one of the two says how much water left.",
)
NO_BEFORE = Sentence(
    "no-before", "Nobody has read the moisture of {code} yet. Give the one it had before drying."
)
NO_CHANGE = Sentence(
    "no-change", "{moisture} before and after is no drying: there is nothing to book. Read again."
)
READ_OTHERWISE = Sentence(
    "read-otherwise",
    "{code} was last read at {read}, and not at {before}: read it again before it is dried, or "
    "say why this counts.",
)
NOT_WATER = Sentence(
    "not-water",
    "From {before} to {after} cannot be water alone: {moisture} of it would be left. Weigh again, "
    "or type the moisture after drying as well.",
)
GONE_ON = Sentence(
    "gone-on",
    "Nothing of {what} stands in supers any more: what was loaded is dried in its vessel or drum, "
    "and a reading alone is noted with measure.",
)
WATER_OUT = Sentence(
    "water-out", "{water} of water went out: {left} of honey stand there at {moisture}."
)
WATER_IN = Sentence(
    "water-in",
    "It took up {water} of water: {left} of honey stand there at {moisture}. Look at the room's "
    "humidity.",
)
FAR_DRY = Sentence(
    "far-dry",
    "From {before} to {after} at once is unusual: read both again, at one temperature and with "
    "one refractometer.",
)
DRIED_LATE = Sentence(
    "dried-late",
    "Typed later than other entries on {place}: the water is computed on what the books see there "
    "now.",
)
ROOM_RANGES = {"temperature": (-200, 800), "humidity": (0, 10_000)}
SHOWN: dict[str, Callable[[int], str]] = {
    "temperature": format_temperature,
    "humidity": format_moisture,
}
HOT = 400  # tenths of a degree Celsius
DAMP = 5_900  # hundredths of a percent
FAR_POINTS = 300  # hundredths of a percent; common practice, no source
OFF_POINTS = 50  # the same: what two readings of one honey may differ by
ALL = 10_000  # hundredths of a percent


@dataclass(frozen=True, slots=True)
class RoomLog:
    """The air of a room: temperature in tenths of a degree Celsius, humidity in hundredths of a
    percent."""

    kind: ClassVar[str] = "room log"
    room: str
    temperature: int | None = None
    humidity: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Dry:
    """Water leaves honey, or comes into it.

    Args:
        what: a pallet tag, a pull, a drum or a vessel.
        before: hundredths of a percent; where none is given, the last reading of each lot.
        after: likewise; where none is given, it follows from the weight.
        weight: on the scale after drying. The scale is right: with both moistures, what the books
            had too much or too little is weighing difference, and not water.
        room: where it dried.
        hours: how long.
        despite_reading: why the moisture before counts, where the last reading says otherwise.
    """

    kind: ClassVar[str] = "dry"
    what: str
    before: int | None = None
    after: int | None = None
    weight: Weight = TO_FOLLOW
    room: str = ""
    hours: int | None = None
    despite_reading: str = ""


@dataclass(frozen=True, slots=True)
class _Wet:
    """A lot that dries: its grams at each place, and its moisture before."""

    lot: Lot
    places: Mapping[str, int]
    moisture: int
    grams: int

    @property
    def solids(self) -> int:
        """Solids, in ten-thousandths of a gram."""
        return self.grams * (ALL - self.moisture)


def book_room_log(facts: RoomLog, b: Booking) -> None:
    """Dated readings of a room; too hot and too damp are told, never refused."""
    room, record = find_record(b.state, ROOM, facts.room)
    name = str(record.get("name", ""))
    readings = {one: getattr(facts, one) for one in ROOM_RANGES}
    if all(value is None for value in readings.values()):
        raise Refusal(NO_ROOM_READING, field="temperature", room=name)
    for one, value in readings.items():
        if value is None:
            continue
        low, high = ROOM_RANGES[one]
        if not low <= value <= high:
            raise Refusal(ROOM_READING, field=one, name=one, value=SHOWN[one](value))
        b.mark(room, one, value)
    if facts.temperature is not None and facts.temperature > HOT:
        b.note(ROOM_HOT, room=name, value=format_temperature(facts.temperature))
    if facts.humidity is not None and facts.humidity > DAMP:
        b.note(ROOM_DAMP, room=name, value=format_moisture(facts.humidity))


def book_dry(facts: Dry, b: Booking) -> None:
    """Water goes to evaporated, lot by lot, so that the solids of each stay within 1 g."""
    check_run_open(b)
    room = find_record(b.state, ROOM, facts.room)[0] if facts.room else ""
    for moisture in (facts.before, facts.after):
        if moisture is not None:
            check_reading("moisture", moisture)
    held = _what_dries(facts.what, b)
    net = _net_after(facts, held, b)
    if facts.after is None and net is None:
        raise Refusal(NO_AFTER, field="after")
    wet = [_wet(facts, lot, places, b) for lot, places in held]
    if facts.after is None:
        left = _left_by_scale(wet, net or 0)
    elif net is None:
        left = _left_by_moisture(wet, facts.after)
    else:
        left = largest_remainder(net, [one.solids for one in wet])
        wet = _as_weighed(wet, facts.after, left, facts.what, b)
    for one, left_g in zip(wet, left, strict=True):
        _evaporate(one, left_g, facts, room, b)
    moisture = _mean_left(wet, sum(left)) if facts.after is None else facts.after
    _tell(b, wet, sum(left), moisture)


def _what_dries(text: str, b: Booking) -> list[tuple[Lot, dict[str, int]]]:
    """The lots that dry, with their grams at each place."""
    code = code_in(b.state, text, "what") if text.strip() else None
    if code is not None and code.letter in "GS":
        return _in_supers(code, text, b)
    where = find_source(b, text, "what")
    of_run(b, where, asks=False)
    feed(b, where)
    held = b.grams_at(where)
    if held <= 0:
        raise Refusal(NOTHING_THERE, field="what", place=name_of(b.state, where))
    if is_late(b, [where]):
        b.note(DRIED_LATE, place=name_of(b.state, where))
    return [(b.lot(settle(b, where)), {where: held})]


def _in_supers(code: Code, text: str, b: Booking) -> list[tuple[Lot, dict[str, int]]]:
    if code.letter == "G":
        tag = find_pallet(b.state, text, "what")
        rows = [(row.lot, {tag: row.grams}) for row in b.standing(tag) if row.grams]
    else:
        lot = find_lot(b.state, text, "S", "what")
        places = {
            row.place: row.grams
            for row in b.state.holdings(lot.id)
            if class_of(row.place) == PALLET and row.grams > 0
        }
        rows = [(lot, places)] if places else []
    if not rows:
        raise Refusal(GONE_ON, field="what", what=code)
    return rows


def _net_after(
    facts: Dry, held: Sequence[tuple[Lot, Mapping[str, int]]], b: Booking
) -> int | None:
    """The net weight after drying; a pallet's tare is its own and that of its empty supers."""
    if facts.weight == TO_FOLLOW:
        return None
    places = dict.fromkeys(place for _, rows in held for place in rows)
    if class_of(next(iter(places))) != PALLET:
        (lot, _), (where,) = held[0], places
        tare = lot.attributes.get("tare_g") if class_of(where) == DRUM else None
        return net_of(facts.weight, tare if isinstance(tare, int) else _tare_of(b, where))
    pallets = facts.weight.tare_g
    if pallets is None:
        pallets = PALLET_TARE_G * len(places)
    empties = sum(
        row.pieces * _box_tare(b, row.lot)
        for place in places
        for row in b.standing(place)
        if any(row.lot.id == lot.id for lot, _ in held)
    )
    return net_of(replace(facts.weight, tare_g=pallets + empties), None)


def _tare_of(b: Booking, where: str) -> int | None:
    return container_at(b, where).tare_g if class_of(where) == DRUM else None


def _box_tare(b: Booking, lot: Lot) -> int:
    mark = b.state.mark(f"box/{lot.attributes.get('box', '')}", "record")
    return number_in(mark.value, "tare_g", 0) if mark and isinstance(mark.value, Mapping) else 0


def _wet(facts: Dry, lot: Lot, places: Mapping[str, int], b: Booking) -> _Wet:
    read = latest(b.state, lot.code, "moisture")
    moisture = read if facts.before is None else facts.before
    if moisture is None:
        raise Refusal(NO_BEFORE, field="before", code=lot.code)
    if read is not None and not _agrees(read, facts) and not facts.despite_reading.strip():
        raise Refusal(
            READ_OTHERWISE,
            field="before",
            code=lot.code,
            read=format_moisture(read, 2),
            before=format_moisture(moisture, 2),
        )
    if moisture == facts.after:
        raise Refusal(NO_CHANGE, field="after", moisture=format_moisture(moisture, 2))
    return _Wet(lot, places, moisture, sum(places.values()))


def _agrees(read: int, facts: Dry) -> bool:
    """Whether the last reading is the moisture before, or was taken when it was dry already."""
    if facts.before is None:
        return True
    said = [one for one in (facts.before, facts.after) if one is not None]
    return any(abs(read - one) <= OFF_POINTS for one in said)


def _as_weighed(
    wet: Sequence[_Wet], after: int, left: Sequence[int], what: str, b: Booking
) -> list[_Wet]:
    """What the lots weighed before drying, from the scale after it: the gap is difference."""
    found = []
    for one, left_g in zip(wet, left, strict=True):
        grams = _nearest(left_g * (ALL - after), ALL - one.moisture)
        gaps = largest_remainder(grams - one.grams, list(one.places.values()))
        for place, gap in zip(one.places, gaps, strict=True):
            b.differ(one.lot.id, place, gap)
        now = {place: one.places[place] + gap for place, gap in zip(one.places, gaps, strict=True)}
        found.append(replace(one, places=now, grams=grams))
    note_supers(b, what, sum(one.grams for one in wet), sum(one.grams for one in found))
    return found


def _left_by_moisture(wet: Sequence[_Wet], after: int) -> list[int]:
    """Grams of each lot after drying: its solids over what is no water.

    Rounded so that all together are as one pallet, and each is less than 1 g off.
    """
    unit = ALL - after
    left = [one.solids // unit for one in wet]
    more = _nearest(sum(one.solids for one in wet), unit) - sum(left)
    for at in sorted(range(len(wet)), key=lambda at: -(wet[at].solids % unit))[:more]:
        left[at] += 1
    return left


def _left_by_scale(wet: Sequence[_Wet], net: int) -> list[int]:
    """Grams of each lot after drying, where all come to one moisture."""
    moisture = _mean_left(wet, net)
    low, high = RANGES["moisture"]
    if not low <= moisture <= high:
        raise Refusal(
            NOT_WATER,
            field="gross_g",
            before=format_mass(sum(one.grams for one in wet)),
            after=format_mass(net),
            moisture=format_moisture(moisture),
        )
    return largest_remainder(net, [one.solids for one in wet])


def _mean_left(wet: Sequence[_Wet], left_g: int) -> int:
    """The moisture of all of it, once so many grams are left."""
    return ALL - _nearest(sum(one.solids for one in wet), left_g)


def _nearest(value: int, unit: int) -> int:
    return (2 * value + unit) // (2 * unit)


def _evaporate(one: _Wet, left_g: int, facts: Dry, room: str, b: Booking) -> None:
    parts = largest_remainder(one.grams - left_g, list(one.places.values()))
    for place, part in zip(one.places, parts, strict=True):
        b.move(one.lot.id, place, EVAPORATED, part)
        b.touches(place)
    after = facts.after
    if after is None:
        after = ALL - _nearest(one.solids, left_g) if left_g else one.moisture
    dried = {
        "lot": one.lot.id,
        "grams": one.grams,
        "before": one.moisture,
        "after": after,
        "by_scale": facts.after is None,
        "room": key_of(room),
        "hours": facts.hours,
    }
    b.mark(one.lot.code, "dried", dried)
    b.mark(one.lot.code, "moisture", after)


def _tell(b: Booking, wet: Sequence[_Wet], left_g: int, moisture: int) -> None:
    """What went out, and what to look at again."""
    water_g = sum(one.grams for one in wet) - left_g
    shown = {"left": format_mass(left_g), "moisture": format_moisture(moisture)}
    b.note(
        WATER_OUT if water_g >= 0 else WATER_IN,
        water=format_mass(abs(water_g)),
        **shown,
    )
    farthest = max(wet, key=lambda one: abs(one.moisture - moisture))
    if abs(farthest.moisture - moisture) > FAR_POINTS:
        before = format_moisture(farthest.moisture)
        b.note(FAR_DRY, before=before, after=shown["moisture"])
    note_wet(b, moisture)
