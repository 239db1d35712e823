"""What a new house begins with, so that supers can come in, and all it has registered since."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from honeyledger.domain.moments import check_zone
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import STORE, key_of
from honeyledger.ledger.verbs.registers import KINDS, Register
from honeyledger.ledger.verbs.yards import CHECKED
from honeyledger.ledger.yard_log import noted, told
from honeyledger.services.store import Seen, View

# Usual honey and empty weight with frames: common practice, no source. Each house has its own,
# and changes them in its register.
BOXES: tuple[dict[str, str | int], ...] = (
    {"name": "medium", "honey_g": 14_800, "tare_g": 6_000, "frames": 9},
    {"name": "deep", "honey_g": 25_500, "tare_g": 8_500, "frames": 9},
    {"name": "shallow", "honey_g": 10_000, "tare_g": 5_000, "frames": 9},
)


# Stations are looked for among so many of the newest entries.
LATELY = 5_000
# A house with so many entries works already, whatever it has not registered.
FIRST_ENTRIES = 60


def new_house(
    name: str,
    zone: str,
    *,
    prefix: str = "",
    unit: MassUnit = "kg",
    more: Mapping[str, str | int] = MappingProxyType({}),
) -> tuple[Register, ...]:
    """The first facts of a house, to be recorded as one command.

    Args:
        more: what else its record says from the start, such as its reach margin.

    Raises:
        Refusal: the zone is not known.
    """
    record: dict[str, str | int] = {"name": name, "zone": check_zone(zone), "unit": unit}
    record |= more
    if prefix:
        record["prefix"] = prefix
    return (Register("house", record), *(Register("box", dict(box)) for box in BOXES))


def mass_unit(view: View) -> MassUnit:
    """The unit in which the house weighs; kilograms where it says nothing."""
    mark = view.mark("house", "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    return "lb" if record.get("unit") == "lb" else "kg"


@dataclass(frozen=True, slots=True)
class Registered:
    """One record of a register, by its code or key."""

    key: str
    record: Mapping[str, Json]

    @property
    def name(self) -> str:
        """What it is called."""
        return str(self.record.get("name", ""))


@dataclass(frozen=True, slots=True)
class Checked:
    """The last check of a piece of equipment: its day (ISO), against what, what came out."""

    day: str
    what: str
    result: str
    value: str


@dataclass(frozen=True, slots=True)
class SupplyRow:
    """A lot of packaging or of an ingredient that is in the store."""

    code: str
    name: str
    sort: str
    supplier_lot: str
    grams: int
    pieces: int


@dataclass(frozen=True, slots=True)
class SetupPage:
    """Everything registered, and what hangs on it.

    Args:
        house: the house's own record.
        registers: each register's records, by name.
        ledger: the house's id.
        checks: the last check of each piece of equipment, by its code.
        supplies: what is in the store besides honey.
        stations: the computers that recorded anything lately.
    """

    house: Mapping[str, Json]
    unit: MassUnit
    registers: Mapping[str, tuple[Registered, ...]]
    ledger: str = ""
    checks: Mapping[str, Checked] = field(default_factory=dict)
    supplies: tuple[SupplyRow, ...] = ()
    stations: tuple[Seen, ...] = ()


def setup_page(view: View) -> SetupPage:
    """What the house has registered."""
    mark = view.mark("house", "record")
    registers = {}
    for kind in KINDS:
        rows = [
            Registered(key_of(one.subject), one.value)
            for one in view.marked("record", f"{kind}/")
            if isinstance(one.value, Mapping)
        ]
        registers[kind] = tuple(sorted(rows, key=lambda row: row.name.casefold()))
    head = view.head()
    return SetupPage(
        house=mark.value if mark and isinstance(mark.value, Mapping) else {},
        unit=mass_unit(view),
        registers=registers,
        ledger=head.ledger_id,
        checks=_checks(view, [row.key for row in registers["equipment"]]),
        supplies=_supplies(view),
        stations=tuple(view.stations_after(max(0, head.entry - LATELY))),
    )


def _checks(view: View, codes: Sequence[str]) -> dict[str, Checked]:
    found = {}
    for code in codes:
        marks = noted(view, f"equipment/{code}", CHECKED)
        if marks:
            said = [told(marks[-1], fact) for fact in ("day", "what", "result", "value")]
            found[code] = Checked(*said)
    return found


def _supplies(view: View) -> tuple[SupplyRow, ...]:
    there = [row for row in view.on_hand((STORE,)) if row.lot.kind == "A"]
    return tuple(
        SupplyRow(
            code=row.lot.code,
            name=str(row.lot.attributes.get("name", "")),
            sort=str(row.lot.attributes.get("sort", "")),
            supplier_lot=str(row.lot.attributes.get("supplier_lot", "")),
            grams=row.grams,
            pieces=row.pieces,
        )
        for row in there
    )


def is_set_up(page: SetupPage) -> bool:
    """Whether supers can come in and be extracted: yards, a line and a tank are there."""
    sorts = {row.record.get("sort") == "line" for row in page.registers.get("vessel", ())}
    return bool(page.house and page.registers.get("yard")) and sorts == {True, False}


def wants_setting_up(view: View) -> bool:
    """Whether a house is so new that one goes on setting it up; quick on any house."""
    if view.head().entry >= FIRST_ENTRIES:
        return False
    return not all(view.marked("record", f"{kind}/") for kind in ("yard", "vessel"))
