"""Which customer has a container of the house: the one its last lot went to, until it is back.

Nothing is written down when it leaves: the drum's dispatch says it. It is back when somebody says
so, when its honey comes back, or when it is filled again.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.ledger.places import CUSTOMER, class_of
from honeyledger.ledger.state import State

BACK = "back"
CARRIERS = ("compartment", "flexitank")  # sorts of containers that are never the house's own


@dataclass(frozen=True, slots=True)
class Out:
    """A container that is with a customer: which lot it went out with, on what, and when."""

    container: str
    customer: str
    lot: str
    note: str
    since_ms: int


def is_out(state: State, container: str) -> Out | None:
    """Where a container went with its last lot; None where it stands here.

    Args:
        container: its place.
    """
    record = state.mark(container, "record")
    if record and isinstance(record.value, Mapping) and record.value.get("sort") in CARRIERS:
        return None
    rows = state.standing(container)
    if any(row.grams for row in rows):
        return None
    back = state.mark(container, BACK)
    for row in reversed(rows):
        if row.lot.kind not in "DP":
            continue
        theirs = [
            one.place
            for one in state.holdings(row.lot.id)
            if one.grams > 0 and class_of(one.place) == CUSTOMER
        ]
        notes = [mark for mark in state.marks(row.lot.code) if mark.name.startswith("note/")]
        last = max(notes, key=lambda mark: mark.entry, default=None)
        if not theirs or last is None or (back and back.entry > last.entry):
            continue
        note = last.name.removeprefix("note/")
        return Out(container, theirs[0], row.lot.code, note, last.at_ms)
    return None
