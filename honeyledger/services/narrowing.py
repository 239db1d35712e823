"""What of a lot's reach can be narrowed: rows of 0 g, and places it was amended from."""

from dataclasses import dataclass

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import key_of
from honeyledger.ledger.sources import sources_of
from honeyledger.ledger.trace import AMENDED, LATE
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.traced import late_ways_of

AMENDED_AWAY = phrase("amended from there")


@dataclass(frozen=True, slots=True)
class LooseRow:
    """One thing that is in reach at 0 g.

    Args:
        key: what tells it from the others of its lot: entry and line, or a place.
        name: what is in reach.
        why: how it came into reach.
    """

    key: str
    name: str
    why: str


def loose_rows(view: View, text: str) -> tuple[LooseRow, ...]:
    """What could be narrowed of a lot; nothing for what is no lot of this house."""
    try:
        lot = find_lot(view, text)
    except Refusal:
        return ()
    names = PlaceNames(view)
    edges = [edge for edge in view.origins(lot.id) if not edge.grams]
    lots, ways = view.lots({edge.parent for edge in edges}), late_ways_of(view, edges)
    rows = []
    for edge in edges:
        why = _why(ways.get(edge.entry, 0) if edge.late else -1)
        words = phrase("{why}, entry {entry}", why=why, entry=edge.entry)
        rows.append(LooseRow(f"{edge.entry} {edge.line}", lots[edge.parent].code, words))
    return (*rows, *_places(view, lot, names))


def _why(way: int) -> str:
    if way < 0:
        return phrase("stood there before, washed or emptied")
    if way == AMENDED:
        return phrase("by an amendment")
    return phrase("typed late") if way == LATE else phrase("within the margin of a scan")


def _places(view: View, lot: Lot, names: PlaceNames) -> tuple[LooseRow, ...]:
    """Where a pull or purchase was booked from before it was amended."""
    return tuple(
        LooseRow(key_of(where) or where, names.of_record(where), AMENDED_AWAY)
        for where, grams in sources_of(view, lot).items()
        if grams <= 0 and not _is_narrowed(view, lot, where)
    )


def _is_narrowed(view: View, lot: Lot, where: str) -> bool:
    mark = view.mark(lot.code, f"not from/{where}")
    return mark is not None and bool(mark.value)
