"""The outside places source lots are from, each with its part, for traces and claims."""

from collections.abc import Collection, Mapping, Sequence

from honeyledger.ledger.sources import first_place, is_from
from honeyledger.ledger.state import HoldingRow, State

Places = Mapping[int, Sequence[tuple[str, float, bool]]]
"""Source lots with the places they came from, the part of each, and whether it was amended."""

OF_HONEY = "SP"
"""Kinds of the lots that honey comes from: source lots but for what is added."""


def source_places(state: State, lots: Mapping[int, str]) -> Places:
    """Each source lot's places with their parts: net grams over the sum of nets.

    A place amended away keeps its row at 0 until it is narrowed; a lot given away whole keeps
    its first place.

    Args:
        lots: ids of lots with their kinds; those that are no source lots are left out.
    """
    rows = state.sources_of([lot for lot, kind in lots.items() if kind in OF_HONEY])
    return places_in(state, lots, rows)


def places_in(state: State, lots: Mapping[int, str], rows: Sequence[HoldingRow]) -> Places:
    """As `source_places`, where the rows of these source lots have been read already."""
    places: dict[int, Sequence[tuple[str, float, bool]]] = {}
    several: dict[int, list[HoldingRow]] = {}
    last: HoldingRow = ("", 0, 0, 0)
    for row in rows:
        where, lot_id, grams, _ = row
        if last[1] == lot_id:
            several.setdefault(lot_id, [last]).append(row)
        else:
            # A purchase of which nothing is left was sent back; a pull was given away.
            places[lot_id] = ((where, 1.0, not grams and lots[lot_id] == "S"),)
        last = row
    for lot_id, rows in several.items():
        places[lot_id] = _parts(state, lot_id, rows)
    return places


def _parts(
    state: State, lot_id: int, rows: Collection[HoldingRow]
) -> list[tuple[str, float, bool]]:
    lot = state.lot(lot_id)
    total = sum(max(0, -grams) for _, _, grams, _ in rows)
    first = first_place(lot)
    return [
        (place, max(0, -grams) / total if total else float(place == first), True)
        for place, _, grams, _ in rows
        if grams < 0 or is_from(state, lot, place) or (not total and place == first)
    ]
