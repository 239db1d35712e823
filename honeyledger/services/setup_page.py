"""All that a house has registered, and what hangs on it: checks, goods in store, its computers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from honeyledger.domain.units import MassUnit
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import STORE, key_of
from honeyledger.ledger.verbs.checks import CHECKED
from honeyledger.ledger.verbs.registers import KINDS
from honeyledger.ledger.yard_log import noted, told
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import Seen, View

# Stations are looked for among so many of the newest entries.
LATELY = 5_000


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
