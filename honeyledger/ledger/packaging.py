"""Packaging used on jars: its lots are in their reach at 0 g, its pieces are counted down."""

from collections.abc import Sequence

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import STORE

INGREDIENT, PACKAGING = "ingredient", "packaging"  # the two sorts of what is bought besides honey

NOT_PACKAGING = Sentence(
    "not-packaging",
    "{code} is an ingredient, not packaging: it goes in by weight, with what is blended.",
)
FEWER_LEFT = Sentence(
    "fewer-left",
    "The books saw {there} of {code} and {used} were used: count what is left, or name the second "
    "lot as well.",
)


def find_packaging(b: Booking, codes: Sequence[str], field: str = "packaging") -> list[Lot]:
    """Lots of packaging by their codes, each once.

    Raises:
        Refusal: one is none.
    """
    lots: dict[int, Lot] = {}
    for text in codes:
        lot = find_lot(b.state, text, "A", field)
        if lot.attributes.get("sort") != PACKAGING:
            raise Refusal(NOT_PACKAGING, field=field, code=lot.code)
        lots[lot.id] = lot
    return list(lots.values())


def use_up(b: Booking, lots: Sequence[Lot], count: int) -> None:
    """So many pieces of each are used; no more than the books have of it leave."""
    for lot in lots:
        there = sum(row.pieces for row in b.standing(STORE) if row.lot.id == lot.id)
        if count > there:
            b.note(FEWER_LEFT, code=lot.code, there=there, used=count)
        b.pieces(lot.id, STORE, -min(count, there))
