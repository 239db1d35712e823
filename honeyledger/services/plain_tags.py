"""The tags of vessels, equipment and sample pots, as the records and the ledger have them."""

from collections.abc import Mapping

from honeyledger.domain.moments import day_of
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import refuse_unknown
from honeyledger.services.holding import name_in
from honeyledger.services.label_forms import EquipmentTag, PlainTag, SampleLabel, VesselLabel
from honeyledger.services.store import View


def equipment_tag(view: View, code: str, unit: MassUnit = "kg") -> PlainTag:
    """The tag of a vessel, a container that is used again, or a piece of equipment.

    Raises:
        Refusal: no such code.
    """
    for kind in ("vessel", "drum", "equipment"):
        made = VesselLabel if kind == "vessel" else EquipmentTag
        record = _record(view, f"{kind}/{code}")
        if not record:
            continue
        sort = str(record.get("sort", "")) or kind
        name, house = str(record.get("name", "")), name_in(view, "house", "Honey house")
        return made(code, sort, name, house, tuple(_facts(record, unit)))
    raise refuse_unknown(view, code, "code")


def sample_label(view: View, lot: Lot) -> SampleLabel:
    """The label of a sample pot: what it is of, when and for what, and where it is kept."""
    entry = view.entry(lot.made_by)
    assert entry is not None
    lots = view.lots([edge.parent for edge in view.origins(lot.id)])
    sources = ", ".join(dict.fromkeys(one.code for one in lots.values()))
    facts = [("Taken", day_of(entry.act.happened).isoformat())]
    facts += [
        (caption, str(lot.attributes.get(key, "")))
        for caption, key in (("For", "purpose"), ("Kept at", "kept_at"))
        if lot.attributes.get(key)
    ]
    house = name_in(view, "house", "Honey house")
    return SampleLabel(lot.code, "sample", f"of {sources}", house, tuple(facts))


def _facts(record: Mapping[str, Json], unit: MassUnit) -> list[tuple[str, str]]:
    facts = [("Number", str(record["number"]))] if record.get("number") else []
    for caption, key in (("Holds", "capacity_g"), ("Tare", "tare_g")):
        value = record.get(key)
        if isinstance(value, int):
            facts.append((caption, format_mass(value, unit)))
    return facts


def _record(view: View, subject: str) -> Mapping[str, Json]:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}
