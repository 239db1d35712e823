"""The air of the rooms over the last fortnight, as it was logged: for whoever draws it."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import Moment
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.places import ROOM, class_of, key_of
from honeyledger.services.line import DAY_MS
from honeyledger.services.store import View

LATELY_DAYS = 14


@dataclass(frozen=True, slots=True)
class AirReading:
    """One reading: tenths of a degree Celsius, hundredths of a percent; None where not read."""

    entry: int
    happened: Moment
    temperature: int | None
    humidity: int | None


def air_lately(view: View, now_ms: int) -> Mapping[str, tuple[AirReading, ...]]:
    """The readings of each room by its key, oldest first; what was reversed is left out."""
    found = view.entries(("room log", "reverse"), now_ms - LATELY_DAYS * DAY_MS)
    undone = {entry.reverses for entry in found if entry.reverses}
    rooms: dict[str, list[AirReading]] = {}
    for entry in found:
        if entry.reverses or entry.id in undone or entry.act.happened.at_ms > now_ms:
            continue
        read: dict[str, dict[str, int]] = {}
        for subject, name, value in rows_of(entry, "marks"):
            if class_of(str(subject)) == ROOM and isinstance(value, int):
                read.setdefault(key_of(str(subject)), {})[str(name)] = value
        for key, values in read.items():
            reading = AirReading(
                entry.id,
                entry.act.happened,
                values.get("temperature"),
                values.get("humidity"),
            )
            rooms.setdefault(key, []).append(reading)
    return {
        key: tuple(sorted(rows, key=lambda row: (row.happened.at_ms, row.entry)))
        for key, rows in rooms.items()
    }


def temperatures(view: View, since_ms: int) -> Mapping[str, tuple[tuple[int, int], ...]]:
    """When the temperature of each room was read since then, and what it was; oldest first."""
    found = view.entries(("room log",), since_ms)
    rooms: dict[str, list[tuple[int, int]]] = {}
    for entry in found:
        if view.reversed_by(entry.id):
            continue
        for subject, name, value in rows_of(entry, "marks"):
            if name == "temperature" and isinstance(value, int):
                read = (entry.act.happened.at_ms, value)
                rooms.setdefault(key_of(str(subject)), []).append(read)
    return {room: tuple(sorted(rows)) for room, rows in rooms.items()}
