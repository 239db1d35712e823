"""What is in a lot and is no honey: added ingredients by their shares, packaging in reach."""

from collections.abc import Mapping

from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.trace_rows import AddedLot
from honeyledger.services.store import HeadRow, View

SCALE = 1 << 60  # shares as integers, for adding up exactly


def added_in(
    view: View, heads: Mapping[int, HeadRow], shares: Mapping[int, float], grams: int
) -> tuple[AddedLot, ...]:
    """The ingredient and packaging lots in a reach, those with the most first.

    Their grams and those of the honey add up to `grams`.
    """
    ids = [lot for lot, _, kind, _, _ in heads.values() if kind == "A"]
    if not ids:
        return ()
    lots = view.lots(ids)
    honey = max(0.0, 1.0 - sum(shares[one] for one in ids))
    weights = [int(honey * SCALE), *(int(shares[one] * SCALE) for one in ids)]
    parts = largest_remainder(grams, weights)[1:]
    suppliers = {one: f"supplier/{lots[one].attributes['supplier']}" for one in ids}
    names = view.names_of(set(suppliers.values()))
    rows = [
        AddedLot(
            code=lots[one].code,
            sort=str(lots[one].attributes["sort"]),
            name=str(lots[one].attributes["name"]),
            supplier=names.get(suppliers[one], suppliers[one].partition("/")[2]),
            supplier_lot=str(lots[one].attributes.get("supplier_lot", "")),
            share=shares[one],
            grams=part,
        )
        for one, part in zip(ids, parts, strict=True)
    ]
    return tuple(sorted(rows, key=lambda row: (-row.share, row.code)))
