"""What a new house begins with, so that supers can come in."""

from collections.abc import Mapping
from types import MappingProxyType

from honeyledger.domain.moments import check_zone
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.store import View

# Usual honey and empty weight with frames: common practice, no source. Each house has its own,
# and changes them in its register.
BOXES: tuple[dict[str, str | int], ...] = (
    {"name": "medium", "honey_g": 14_800, "tare_g": 6_000, "frames": 9},
    {"name": "deep", "honey_g": 25_500, "tare_g": 8_500, "frames": 9},
    {"name": "shallow", "honey_g": 10_000, "tare_g": 5_000, "frames": 9},
)


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


def wants_setting_up(view: View) -> bool:
    """Whether a house is so new that one goes on setting it up; quick on any house."""
    if view.head().entry >= FIRST_ENTRIES:
        return False
    return not all(view.marked("record", f"{kind}/") for kind in ("yard", "vessel"))
