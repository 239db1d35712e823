"""Packaging used on jars: its lots are in their reach at 0 g, its pieces are counted down."""

from collections.abc import Sequence

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.mixing import few, reach_ids
from honeyledger.ledger.places import STORE

# The two sorts of what is bought besides honey; the former also a mark on its lot's code.
INGREDIENT, PACKAGING = "ingredient", "packaging"

NOT_PACKAGING = Sentence(
    "not-packaging",
    "{code} is an ingredient, not packaging: it goes in by weight, with what is blended.",
)
ADDED_IN = Sentence(
    "added-in",
    "{code} has {names} in it: its label names that, allergens plainly, as your local code says.",
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


def note_added(b: Booking, lot: Lot) -> None:
    """Jars with something added in their reach: what their label has to name."""
    known = {
        int(str(mark.value[0])): str(mark.value[1])
        for mark in b.state.marked(INGREDIENT)
        if isinstance(mark.value, list)
    }
    if added := reach_ids(b, [lot.id]) & known.keys() if known else set():
        b.note(ADDED_IN, code=lot.code, names=few(sorted({known[one] for one in added})))


def use_up(b: Booking, lots: Sequence[Lot], count: int) -> None:
    """So many pieces of each are used; no more than the books have of it leave."""
    for lot in lots:
        there = sum(row.pieces for row in b.standing(STORE) if row.lot.id == lot.id)
        if count > there:
            b.note(FEWER_LEFT, code=lot.code, there=there, used=count)
        b.pieces(lot.id, STORE, -min(count, there))
