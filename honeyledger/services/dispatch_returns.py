"""Who has what comes back: a lot, or a case or pallet as it was packed when it left."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import code_in, find_lot
from honeyledger.ledger.packs import PACK, left_with
from honeyledger.ledger.places import CUSTOMER, FARM_GATE, GATE, class_of, place
from honeyledger.services.dispatching import PACKS, group_name, group_of
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class Holder:
    """A customer who has something of a lot.

    Args:
        customer: what names the customer to the ledger; "gate" for the farm gate.
        sent_ms: when it was last sent there, 0 where no note says so.
    """

    customer: str
    name: str
    jars: int
    grams: int
    sent_ms: int


@dataclass(frozen=True, slots=True)
class CameBack:
    """A lot that comes back, and who has it, those with the latest note first."""

    code: str
    kind: str
    name: str
    holders: tuple[Holder, ...]


def came_back(view: View, text: str) -> CameBack:
    """Who has something of what comes back.

    Raises:
        Refusal: no such code.
    """
    pack = code_in(view, text, "code") if text.strip() else None
    if pack is not None and pack.letter in PACKS:
        return _pack_back(view, str(pack), pack.letter)
    lot = find_lot(view, text, "DJPKW", "code")
    names = PlaceNames(view)
    sent_ms = _sent(view, lot)
    holders: dict[str, Holder] = {}
    for row in view.holdings(lot.id):
        kind = class_of(row.place)
        if row.grams <= 0 or kind not in (CUSTOMER, GATE):
            continue
        customer = FARM_GATE if kind == GATE else names[row.place]
        one = Holder(customer, names[row.place], row.pieces, row.grams, sent_ms.get(row.place, 0))
        # What was sold at the gate comes back to the day that has the most of it.
        before = holders.get(customer)
        if before is None or (one.jars, one.grams) > (before.jars, before.grams):
            holders[customer] = one
    group = group_of(view, lot)
    name = group_name(group, names) if lot.kind == "J" else ""
    ordered = sorted(holders.values(), key=lambda one: (-one.sent_ms, one.name))
    return CameBack(lot.code, lot.kind, name, tuple(ordered))


def _pack_back(view: View, code: str, letter: str) -> CameBack:
    """Who a case or pallet went to, as it was packed then."""
    mark = view.mark(place(PACK, code), "left")
    value = mark.value if mark is not None and isinstance(mark.value, Mapping) else {}
    entry = view.entry(_whole(value.get("entry", 0)))
    went = [] if entry is None else [row for row in entry.postings if row.grams > 0]
    went = [row for row in went if class_of(row.place) in (CUSTOMER, GATE)]
    if not went or mark is None:
        return CameBack(code, letter, "", ())
    names, where = PlaceNames(view), went[0].place
    inside = left_with(view, code)
    lots = {row.code: view.lot_by_code(row.code) for row in inside}
    groups = [group_name(group_of(view, lot), names) for lot in lots.values() if lot is not None]
    grams = sum(
        lot.made_g * row.pieces // made
        for row in inside
        if (lot := lots[row.code]) is not None and (made := _whole(lot.attributes.get("jars", 0)))
    )
    customer = FARM_GATE if class_of(where) == GATE else names[where]
    jars = sum(row.pieces for row in inside)
    holder = Holder(customer, names[where], jars, grams, mark.at_ms)
    return CameBack(code, letter, ", ".join(dict.fromkeys(groups)), (holder,))


def _sent(view: View, lot: Lot) -> dict[str, int]:
    """When each customer was last sent something of a lot, by place."""
    latest: dict[str, int] = {}
    for mark in view.marks(lot.code):
        note = view.mark(mark.name, "dispatched") if mark.name.startswith("note/") else None
        if note is not None and isinstance(note.value, Mapping):
            to = str(note.value.get("to", ""))
            latest[to] = max(latest.get(to, 0), note.at_ms)
    return latest


def _whole(value: Json) -> int:
    return value if isinstance(value, int) else 0
