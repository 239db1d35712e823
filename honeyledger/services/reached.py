"""Where lots that are in a reach are now: in the house, or with whom."""

from collections.abc import Mapping, Sequence

from honeyledger.ledger.places import CUSTOMER, GATE, INSIDE, class_of, key_of
from honeyledger.ledger.state import Holding
from honeyledger.ledger.trace_rows import CustomerReach, PlaceReach
from honeyledger.services.holding import gate_name
from honeyledger.services.store import LotHead, View


def whereabouts_of(
    view: View, lots: Mapping[int, LotHead]
) -> tuple[list[PlaceReach], dict[str, list[Holding]]]:
    """What of the lots stands in the house, and what each customer was given."""
    on_hand: list[PlaceReach] = []
    given: dict[str, list[Holding]] = {}
    classes: dict[str, str] = {}
    for row in view.holdings_of(list(lots)):
        where, lot, grams, pieces = row
        if where not in classes:
            classes[where] = class_of(where)
        if classes[where] in INSIDE:
            on_hand.append(PlaceReach(where, lots[lot].code, grams, pieces))
        elif classes[where] in (CUSTOMER, GATE):
            given.setdefault(where, []).append(row)
    return on_hand, given


def customers_of(
    view: View, given: Mapping[str, Sequence[Holding]], lots: Mapping[int, LotHead]
) -> tuple[CustomerReach, ...]:
    """Each customer's row, by place, under the name they have now."""
    names = view.names_of(given)
    return tuple(
        CustomerReach(
            code=key_of(where),
            name=_customer_name(where, names),
            lots=tuple(sorted([lots[row.lot].code for row in rows])),
            grams=sum([row.grams for row in rows]),
            jars=sum([row.pieces for row in rows]),
        )
        for where, rows in sorted(given.items())
    )


def _customer_name(where: str, names: Mapping[str, str]) -> str:
    key = key_of(where)
    return gate_name(key) if class_of(where) == GATE else names.get(where, key)
