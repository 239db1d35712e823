"""What a new house begins with, so that supers can come in, and all it has registered since."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import check_zone
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import key_of
from honeyledger.ledger.verbs.registers import KINDS, Register
from honeyledger.services.store import View

# Usual honey and empty weight with frames: common practice, no source. Each house has its own,
# and changes them in its register.
BOXES: tuple[dict[str, str | int], ...] = (
    {"name": "medium", "honey_g": 14_800, "tare_g": 6_000, "frames": 9},
    {"name": "deep", "honey_g": 25_500, "tare_g": 8_500, "frames": 9},
    {"name": "shallow", "honey_g": 10_000, "tare_g": 5_000, "frames": 9},
)


def new_house(
    name: str, zone: str, *, prefix: str = "", unit: MassUnit = "kg"
) -> tuple[Register, ...]:
    """The first facts of a house, to be recorded as one command.

    Raises:
        Refusal: the zone is not known.
    """
    record: dict[str, str | int] = {"name": name, "zone": check_zone(zone), "unit": unit}
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
class SetupPage:
    """Everything registered: the house's own record, and each register's records by name."""

    house: Mapping[str, Json]
    unit: MassUnit
    registers: Mapping[str, tuple[Registered, ...]]


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
    return SetupPage(
        house=mark.value if mark and isinstance(mark.value, Mapping) else {},
        unit=mass_unit(view),
        registers=registers,
    )
