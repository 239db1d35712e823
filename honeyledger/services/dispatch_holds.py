"""Why a lot may not leave: the way by which a hold on an ancestor reaches it."""

from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import HELD, HELD_BY_WAY, Held, held_refusal, way_of
from honeyledger.services.store import View


def refuse_by_way(view: View, lot: Lot, held: Held) -> None:
    """Say which ancestor holds a lot, and through which lots; where it is held itself, nothing.

    Raises:
        Refusal: the hold stands on an ancestor.
    """
    if way_of(view, lot, held.hold):
        raise held_refusal(view, held, (HELD, HELD_BY_WAY), "code")
