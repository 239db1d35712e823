"""The quality of a lot, for its card: what was read, whether it keeps, what heat may have done.

Nothing here certifies, grades or blocks: classes are guides by tables seen at second hand, and
heat gives a band for choosing what to have measured.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.air import balance_humidity, what_air_does
from honeyledger.domain.beetles import Clock, clock
from honeyledger.domain.colour import class_of as colour_class
from honeyledger.domain.colour import class_of_density
from honeyledger.domain.keeping import class_of, keeps_a_year
from honeyledger.domain.results import Kind, Result
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.places import PALLET, ROOM, key_of
from honeyledger.ledger.places import class_of as class_of_place
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.ledger.whereabouts import STANDS
from honeyledger.ledger.yard_log import told
from honeyledger.services.drying import HOUR_MS, ToDry, moistures_of, to_dry
from honeyledger.services.heat_history import HeatBudget, heat_of
from honeyledger.services.hot_room_air import air_lately
from honeyledger.services.readings import Readings, readings_of, results_of
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class Keeps:
    """Whether a lot keeps.

    Args:
        name: its class by moisture.
        yeast: the count it was judged by, as it was reported; "" where none was.
        a_year: whether it keeps a year with that; None where nobody can say.
    """

    name: str
    yeast: str
    a_year: bool | None


@dataclass(frozen=True, slots=True)
class InAir:
    """A lot and the air: the humidity it is in balance with, and what its room does to it.

    Args:
        balance: hundredths of a percent; None outside the table.
        humidity: of the room, where it was read lately.
        does: "dries", "wets", "holds", or "" where nobody knows.
    """

    balance: int | None
    room: str = ""
    humidity: int | None = None
    does: str = ""
    to_dry: ToDry | None = None


@dataclass(frozen=True, slots=True)
class Quality:
    """The quality of a lot.

    Args:
        colour: its colour class; "" where it was not read.
        waits: of supers, how they stand with the hive beetle.
    """

    readings: tuple[Readings, ...] = ()
    keeps: Keeps | None = None
    heat: HeatBudget | None = None
    air: InAir | None = None
    colour: str = ""
    waits: Clock | None = None

    @property
    def in_doubt(self) -> bool:
        """Whether a reading that counts was made with an instrument found off."""
        return any(row.counts.corrected is not None for row in self.readings)

    @property
    def results(self) -> Mapping[str, Result]:
        """What counts of each quantity, for rules of markets."""
        return results_of(self.readings)


def quality_of(view: View, lot: Lot, now_ms: int) -> Quality:
    """The quality of a lot now."""
    found = readings_of(view, lot)
    results = results_of(found)
    return Quality(
        readings=found,
        keeps=_keeps(found),
        heat=heat_of(view, lot, results, _measured_ms(found), now_ms),
        air=_air(view, lot, found, now_ms),
        colour=_colour(found),
        waits=_waits(view, lot, now_ms) if lot.kind == "S" else None,
    )


def _of(readings: Sequence[Readings], name: str) -> Readings | None:
    return next((row for row in readings if row.quantity.name == name), None)


def _parts(readings: Sequence[Readings], name: str) -> int | None:
    found = _of(readings, name)
    return found.counts.parts if found else None


def _keeps(readings: Sequence[Readings]) -> Keeps | None:
    moisture = _parts(readings, "moisture")
    if moisture is None:
        return None
    yeast = _of(readings, "yeast")
    a_year = None
    if yeast is not None:
        a_year = _keeps_with(moisture, yeast.counts.result)
    words = yeast.quantity.words(yeast.counts.result) if yeast else ""
    return Keeps(class_of(moisture).name, words, a_year)


def _keeps_with(moisture: int, yeast: Result) -> bool | None:
    """By a count as reported: what is below a number keeps if that number would."""
    if yeast.kind is Kind.NOT_DETECTED and yeast.figure is None:
        return keeps_a_year(moisture, 0)
    assert yeast.figure is not None
    count = int(yeast.figure)
    keeps = keeps_a_year(moisture, count)
    if yeast.kind is Kind.FIGURE:
        return keeps
    if yeast.kind is Kind.ABOVE:
        return None if keeps else False
    return True if keeps_a_year(moisture, max(0, count - 1)) else None


def _colour(readings: Sequence[Readings]) -> str:
    colour, density = _parts(readings, "colour"), _parts(readings, "optical density")
    if colour is not None:
        return colour_class(colour).name
    return "" if density is None else class_of_density(density).name


def _measured_ms(readings: Sequence[Readings]) -> Mapping[str, int]:
    return {row.quantity.name: row.counts.read_at.at_ms for row in readings}


def _air(view: View, lot: Lot, readings: Sequence[Readings], now_ms: int) -> InAir | None:
    """What the air of its room does to honey that stands open: supers on their pallet."""
    moisture = _parts(readings, "moisture")
    if moisture is None:
        return None
    balance = balance_humidity(moisture)
    pallet = _pallet_of(view, lot)
    if not pallet:
        return InAir(balance)
    room, humidity = _room_of(view, pallet, now_ms)
    if humidity is None:
        return InAir(balance, room)
    read = moistures_of(view, [lot.code], _since_ms(view, lot))
    dries = to_dry(read.get(lot.code, []), now_ms, humidity, dry_first_over(view))
    return InAir(balance, room, humidity, what_air_does(moisture, humidity), dries)


def _pallet_of(view: View, lot: Lot) -> str:
    """The pallet that supers of a pull wait on; "" where none do."""
    return next(
        (
            row.place
            for row in view.holdings(lot.id)
            if row.grams > 0 and class_of_place(row.place) == PALLET
        ),
        "",
    )


def _room_of(view: View, pallet: str, now_ms: int) -> tuple[str, int | None]:
    """The room a pallet stands in, else the only one whose air is read, and its humidity."""
    rooms = air_lately(view, now_ms)
    mark = view.mark(key_of(pallet), STANDS)
    key = told(mark, "room") if mark else ""
    if not key and len(rooms) == 1:
        key = next(iter(rooms))
    read = [row.humidity for row in rooms.get(key, ()) if row.humidity is not None]
    record = view.mark(f"{ROOM}/{key}", "record") if key else None
    return told(record, "name") if record else "", read[-1] if read else None


def _since_ms(view: View, lot: Lot) -> int:
    """Since when a pull stands where it waits; 0 where it does not."""
    where = _pallet_of(view, lot)
    rows = view.standing(where) if where else ()
    return next((row.since_ms for row in rows if row.lot.id == lot.id), 0)


def _waits(view: View, lot: Lot, now_ms: int) -> Clock | None:
    """The beetle's clock of supers that wait; None where none do any more."""
    pallet = _pallet_of(view, lot)
    if not pallet:
        return None
    since = _since_ms(view, lot)
    rooms = air_lately(view, now_ms)
    mark = view.mark(key_of(pallet), STANDS)
    read = rooms.get(told(mark, "room") if mark else "", ())
    damp = [
        row.humidity for row in read if row.humidity is not None and row.happened.at_ms >= since
    ]
    return clock((now_ms - since) // HOUR_MS, damp)
