"""Somebody else's honey that is poured or blended: told of, and whose the drum is that it makes.

Nothing is refused by it: whoever pours has it in their hands, and the owner is asked by people.
A drum made of one owner's honey alone is theirs; what is mixed is told of, and its title written
down by hand when they agreed. What comes out of a run is the run's matter, see `owners`.
"""

from collections.abc import Iterable

from honeyledger.domain.refusals import Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.title import HOUSE, OWNER, owner_of, party_name, pass_title

OTHERS_POURED = Sentence(
    "others-poured",
    "{code} belongs to {owner}: agree with them on what it goes into, and write down whose that "
    "is by a transfer of title.",
)


def note_others(b: Booking, lots: Iterable[int]) -> None:
    """Say which of these lots are somebody else's, once each."""
    for lot in (b.lot(one) for one in lots):
        owner = _owner(b, lot)
        if owner != HOUSE:
            b.note(OTHERS_POURED, code=lot.code, owner=party_name(b.state, owner))


def keep_owner(b: Booking, drum: Lot, parts: Iterable[int]) -> None:
    """A drum of one owner's honey is theirs; of several owners' it is told of."""
    if b.marked_now(drum.code, OWNER):
        return  # by its run
    lots = [b.lot(one) for one in parts]
    owners = {_owner(b, lot) for lot in lots}
    if len(owners) > 1:
        note_others(b, [lot.id for lot in lots])
    elif owners - {HOUSE}:
        pass_title(b, drum, owners.pop(), ", ".join(lot.code for lot in lots))


def _owner(b: Booking, lot: Lot) -> str:
    """Whose a lot is; a fill is nobody else's, since no title goes over in a vessel."""
    return HOUSE if lot.kind in "TA" else owner_of(b.state, lot)
