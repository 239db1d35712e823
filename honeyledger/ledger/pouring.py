"""All of a vessel or drum, or a weighed part: what leaves it, and what is said to cling to it."""

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.mixing import Taken, draw, feed, name_of
from honeyledger.ledger.sources import NOTHING_THERE

HOW_MUCH = Sentence("how-much", "Type the net weight, or say that all of it goes.")
CLINGS = Sentence(
    "clings",
    "The books still saw {grams} in {place}: it counts as clinging there, and goes to weighing "
    "difference.",
)
CANNOT_CLING = Sentence(
    "cannot-cling",
    "The books see {held} in {place}, and {net} is all that came out? {grams} cannot cling. Weigh "
    "again, or say only what was drawn, and record what became of the rest.",
)


def take(b: Booking, source: str, net_g: int | None, whole: bool) -> list[Taken]:
    """Draw grams from a vessel or drum; whole empties it, and what clings is difference.

    Raises:
        Refusal: nobody said how much; nothing is there; more would be left of it than clings,
            by the part of a draw that may be missing in the books.
    """
    feed(b, source)
    held = b.grams_at(source)
    grams = net_g if net_g is not None else (held if whole else None)
    if grams is None:
        raise Refusal(HOW_MUCH, field="net_g")
    name = name_of(b.state, source)
    if grams == 0:
        raise Refusal(NOTHING_THERE, field="source", place=name)
    left = held - grams if whole else 0
    if left * 1000 > grams * b.rules.shortfall_permille:
        shown = {"held": format_mass(held), "net": format_mass(grams), "grams": format_mass(left)}
        raise Refusal(CANNOT_CLING, field="net_g", place=name, **shown)
    taken = draw(b, source, grams)
    if left > 0:
        b.differ(taken[0].lot, source, -left)
        b.note(CLINGS, grams=format_mass(left), place=name)
    return taken
