"""Everything the dock shows at once: the day, the yard in hand, what there is to choose from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.holds import open_holds
from honeyledger.ledger.places import DRUM, SUPPLIER, YARD, key_of
from honeyledger.services.dock import Choice, DockDay, YardSeason, choices, dock_day, yard_season
from honeyledger.services.holding import hold_sentence
from honeyledger.services.instruments import instruments
from honeyledger.services.roster import shift_names
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View

_CREWS_OF = 60  # receipts looked back on for the names of crews
_CREWS_SINCE_MS = 400 * 86_400_000  # a season and what is between two: not all there ever were


@dataclass(frozen=True, slots=True)
class Repeated:
    """What the last pallet said and the next one mostly says again; the day is ISO."""

    yard: str = ""
    pulled: str = ""
    crew: str = ""
    box: str = ""


@dataclass(frozen=True, slots=True)
class Truck:
    """How many supers of one crew came today, and how many its pull sheets say."""

    crew: str = ""
    supers: int = 0
    sheet: int = 0


@dataclass(frozen=True, slots=True)
class DockPage:
    """The dock at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        registered: whether the house has its own record.
        season: the yard in hand, None where none is.
        owners: whose bees stand in a yard, by its code, where they are not the house's.
        held: yards under a hold, by code, with the hold in words.
        repeated: of the last pallet, today's only where days and crews are concerned.
    """

    ledger: str
    registered: bool
    unit: MassUnit
    zone: str
    today: date
    day: DockDay
    yards: tuple[Choice, ...]
    boxes: tuple[Choice, ...]
    crews: tuple[str, ...]
    suppliers: tuple[Choice, ...]
    containers: tuple[Choice, ...]
    owners: Mapping[str, str]
    season: YardSeason | None
    held: Mapping[str, str]
    repeated: Repeated
    truck: Truck
    instruments: tuple[Choice, ...] = ()


def dock_page(view: View, now_ms: int, yard: str) -> DockPage:
    """The dock, with the yard whose code is given in hand, else that of the last pallet."""
    day = dock_day(view, now_ms)
    zone = rules_of(view).zone
    today = house_day(now_ms, zone)
    recent = view.entries(["receive"], max(0, now_ms - _CREWS_SINCE_MS), _CREWS_OF)
    lines = [line for entry in reversed(recent) for line in reversed(_lines(entry))]
    latest = lines[0] if lines else {}
    crew = _text(latest, "crew") if day.arrivals else ""
    yards = choices(view, YARD)
    yard = yard or _code_of(yards, _text(latest, "yard"))
    known = {row.code for row in yards}
    return DockPage(
        ledger=view.head().ledger_id,
        registered=bool(_record(view, "house")),
        unit=mass_unit(view),
        zone=zone,
        today=today,
        day=day,
        yards=yards,
        boxes=_boxes(view),
        suppliers=choices(view, SUPPLIER),
        containers=choices(view, DRUM),
        owners=_owners(view),
        instruments=instruments(view),
        crews=_crews(view, lines),
        season=yard_season(view, yard, now_ms) if yard in known else None,
        held=_held(view, today.isoformat()),
        repeated=Repeated(
            yard=_text(latest, "yard") if day.arrivals else "",
            pulled=_text(latest, "pulled") if day.arrivals else "",
            crew=crew,
            box=_text(latest, "box"),
        ),
        truck=_truck(view, day, recent, crew),
    )


def _crews(view: View, lines: Sequence[Mapping[str, Json]]) -> tuple[str, ...]:
    """Those who came lately, the last first, then the shifts of the house's list."""
    lately = [name for line in lines if (name := _text(line, "crew"))]
    return tuple(dict.fromkeys((*lately, *shift_names(view))))


def _record(view: View, subject: str) -> Mapping[str, Json]:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def _code_of(yards: Sequence[Choice], said: str) -> str:
    """The code of a yard that was said by its code or its name."""
    found = [row.code for row in yards if said.casefold() in (row.code, row.name.casefold())]
    return said if not found else found[0]


def _lines(entry: Entry) -> Sequence[Mapping[str, Json]]:
    said = entry.facts.get("said", {})
    rows = said.get("lines", ()) if isinstance(said, Mapping) else ()
    assert isinstance(rows, Sequence)
    return [row for row in rows if isinstance(row, Mapping)]


def _text(line: Mapping[str, Json], name: str) -> str:
    return str(line.get(name, ""))


def _number(line: Mapping[str, Json], name: str) -> int:
    value = line.get(name, 0)
    return value if isinstance(value, int) else 0


def _truck(view: View, day: DockDay, recent: Sequence[Entry], crew: str) -> Truck:
    """The supers of one crew that came today; with no crew named, of all."""
    arrived = {row.entry for row in day.arrivals}
    lines = [
        line
        for entry in recent
        if entry.id in arrived and not view.reversed_by(entry.id)
        for line in _lines(entry)
        if not crew or _text(line, "crew") == crew
    ]
    supers = sum(_number(line, "count") for line in lines)
    sheet = sum(_number(line, "sheet") or _number(line, "count") for line in lines)
    return Truck(crew, supers, sheet)


def _boxes(view: View) -> tuple[Choice, ...]:
    """Box types, with what tells them apart."""
    rows = []
    for row in choices(view, "box"):
        frames = _number(_record(view, f"box/{row.code}"), "frames")
        rows.append(Choice(row.code, row.name, f"{frames} frames" if frames else ""))
    return tuple(rows)


def _owners(view: View) -> dict[str, str]:
    """Yards with somebody else's bees, and whose they are."""
    return {
        key_of(mark.subject): owner
        for mark in view.marked("record", f"{YARD}/")
        if isinstance(mark.value, Mapping) and (owner := _text(mark.value, "owner"))
    }


def _held(view: View, today: str) -> dict[str, str]:
    """Yards of which what is pulled today is held."""
    return {
        key_of(hold.target): hold_sentence(view, hold)
        for hold in open_holds(view)
        if hold.target.startswith(f"{YARD}/")
        and hold.first_day <= today <= (hold.last_day or today)
    }
