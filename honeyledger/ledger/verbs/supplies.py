"""What is bought besides honey: added ingredients by weight, packaging by the piece.

An ingredient is in a lot with its grams and no part of the honey's shares; packaging is in reach
at 0 g. Both are undone by reversing them.
"""

from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.moments import say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.lookup import find_record, read_iso_day
from honeyledger.ledger.packaging import INGREDIENT, PACKAGING
from honeyledger.ledger.places import STORE, SUPPLIER, key_of
from honeyledger.ledger.sources import TO_FOLLOW, Weight, net_of

SORTS = (INGREDIENT, PACKAGING)

UNKNOWN_SUPPLY = Sentence(
    "unknown-supply", "{sort} is nothing to take in here: say ingredient or packaging."
)
NO_SUPPLY_NAME = Sentence(
    "no-supply-name", "Say what it is, such as cinnamon, or jars 500 g with their lids."
)
WEIGH_INGREDIENT = Sentence(
    "weigh-ingredient", "Weigh the {name}: an ingredient goes by its net weight, not by the piece."
)
COUNT_PACKAGING = Sentence(
    "count-packaging", "Count the {name}: packaging goes by the piece, at least one."
)
ADDED_CARE = Sentence(
    "added-care",
    "What is added to honey is named on the label, allergens plainly, and may make it a product "
    "of another name: follow your local code.",
)
PAST_ITS_DATE = Sentence("past-its-date", "{name} was good until {day}: use it no more, or ask.")


@dataclass(frozen=True, slots=True)
class Supply:
    """A lot of an ingredient or of packaging comes in. Bought seed is honey: purchase it.

    Args:
        sort: ingredient, which is weighed, or packaging, which is counted.
        name: what it is.
        supplier_lot: what the supplier calls the lot.
        best_before: ISO; "" where it has none.
    """

    kind: ClassVar[str] = "supply"
    supplier: str
    sort: str
    name: str
    weight: Weight = TO_FOLLOW
    count: int | None = None
    supplier_lot: str = ""
    best_before: str = ""


def book_supply(facts: Supply, b: Booking) -> None:
    """From the supplier into the store, by grams or by pieces."""
    if facts.sort not in SORTS:
        raise Refusal(UNKNOWN_SUPPLY, field="sort", sort=facts.sort)
    name = facts.name.strip()
    if not name:
        raise Refusal(NO_SUPPLY_NAME, field="name")
    supplier, _ = find_record(b.state, SUPPLIER, facts.supplier)
    best_before = read_iso_day(facts.best_before, "best_before")
    grams, count = _amount(facts, name)
    attributes = {
        "sort": facts.sort,
        "name": name,
        "supplier": key_of(supplier),
        "supplier_lot": facts.supplier_lot,
        "best_before": best_before,
    }
    lot = b.make_lot("A", grams, attributes=attributes)
    b.comes(STORE, lot.id)
    b.move(lot.id, supplier, STORE, grams)
    b.pieces(lot.id, supplier, -count)
    b.pieces(lot.id, STORE, count)
    if facts.sort == INGREDIENT:
        b.mark(lot.code, INGREDIENT, [lot.id, name])
        b.note(ADDED_CARE)
    if best_before and best_before < b.day.isoformat():
        b.note(PAST_ITS_DATE, name=name, day=say_day(best_before))


def _amount(facts: Supply, name: str) -> tuple[int, int]:
    """Grams of an ingredient, pieces of packaging; the other is 0."""
    if facts.sort == INGREDIENT:
        net = net_of(facts.weight, None)
        if net is None or facts.count is not None:
            raise Refusal(WEIGH_INGREDIENT, field="net_g", name=name)
        return net, 0
    if facts.count is None or facts.count < 1 or facts.weight != TO_FOLLOW:
        raise Refusal(COUNT_PACKAGING, field="count", name=name)
    return 0, facts.count
