"""The hot room's questions: the log of its air, newest first."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import Moment
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Json
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import ROOM
from honeyledger.services.holding import name_in
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class AirRow:
    """One reading of a room: tenths of a degree Celsius, hundredths of a percent."""

    entry: int
    happened: Moment
    temperature: int | None
    humidity: int | None
    note: str
    by: str


@dataclass(frozen=True, slots=True)
class RoomAir:
    """A room with its log."""

    key: str
    name: str
    log: tuple[AirRow, ...]


def room_air(view: View, text: str) -> RoomAir:
    """The log of a room, newest first; readings that were reversed are left out.

    Raises:
        Refusal: there is no such room.
    """
    subject, record = find_record(view, ROOM, text)
    rows = []
    for entry in view.entries(("room log",)):
        said = entry.facts.get("said", {})
        assert isinstance(said, Mapping)
        of_room = any(where == subject for where, _, _ in rows_of(entry, "marks"))
        if not of_room or view.reversed_by(entry.id):
            continue
        by = entry.act.operator
        rows.append(
            AirRow(
                entry=entry.id,
                happened=entry.act.happened,
                temperature=_number(said, "temperature"),
                humidity=_number(said, "humidity"),
                note=str(said.get("note", "")),
                by=name_in(view, f"operator/{by}", by) if by else "",
            )
        )
    rows.sort(key=lambda row: (-row.happened.at_ms, -row.entry))
    return RoomAir(subject.partition("/")[2], str(record.get("name", "")), tuple(rows))


def _number(said: Mapping[str, Json], name: str) -> int | None:
    value = said.get(name)
    return value if isinstance(value, int) else None
