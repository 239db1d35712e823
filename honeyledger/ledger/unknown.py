"""Unknown honey that a load may be: the amendment is offered before a load of its own."""

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.mixing import fed_from, few, name_of
from honeyledger.ledger.places import UNKNOWN, key_of
from honeyledger.ledger.sources import sources_of
from honeyledger.ledger.state import State

UNKNOWN_MAY_BE = Sentence(
    "unknown-may-be",
    "{codes} {stand} for unknown honey in {vessel} since then. If it was this pallet, amend "
    "{code} to {pallet} instead (amend {code} --pallet {pallet}). If not, say that this is a load "
    "of its own.",
)


def ask_unknown(b: Booking, tag: str, vessel: str) -> None:
    """The amendment is offered first, where unknown honey may stand for this pallet."""
    codes = [lot.code for lot in unknown_since(b.state, vessel, b.at_ms)]
    if codes:
        raise Refusal(
            UNKNOWN_MAY_BE,
            field="apart",
            offers=codes,
            codes=few(codes),
            stand="stands" if len(codes) == 1 else "stand",
            vessel=name_of(b.state, vessel),
            code=codes[0],
            pallet=key_of(tag),
        )


def unknown_since(state: State, vessel: str, at_ms: int) -> list[Lot]:
    """Lots of unknown source made at or after a time where honey of this vessel was drawn.

    A load dated before them may be what they stand for: the amendment is offered first.
    """
    places = (vessel, *fed_from(state, vessel))
    found = []
    for lot in state.source_lots(UNKNOWN):
        if lot.attributes.get("place") in places and sources_of(state, lot)[UNKNOWN] > 0:
            made = state.entry(lot.made_by)
            if made and made.act.happened.at_ms >= at_ms:
                found.append(lot)
    return found
