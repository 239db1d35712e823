"""Traces: where a lot or a jar comes from, with shares, and where honey went.

Reach is a fact: which lots are joined by origin rows, found by one recursive query. A share is
an estimate: grams over what the child was made of, carried down in id order. No threshold ever
narrows reach, and a share may underflow to 0.0 while its row stays.
"""

from collections.abc import Mapping, Sequence
from math import fsum
from typing import NamedTuple

from honeyledger.ledger.state import Edge, EdgeRow

HOW = ("grams", "heel", "margin", "late", "amended")
"""The ways a lot can be in a reach, in the order in which they are told."""

GRAMS, HEEL, MARGIN, LATE, AMENDED = (1 << place for place in range(len(HOW)))
_TIMELY = 1 << 5  # reached over rows written in time
DIRECT = 1 << 6  # reached once rows from one tank fill to the next are taken away
TOLD = GRAMS | HEEL | MARGIN | LATE | AMENDED
_OVER_LATE_ROWS = MARGIN | LATE | AMENDED | DIRECT

_HOW_OF = tuple(
    tuple(how for place, how in enumerate(HOW) if ways >> place & 1) for ways in range(TOLD + 1)
)


class Start(NamedTuple):
    """A lot that is traced, with its weight (all add up to 1); 0 is reach only.

    `late_way` is the flag of the late row by which it is in, where it is in by one only.
    """

    weight: float
    by_margin: bool = False
    late_way: int = 0


def carry_back(
    starts: Mapping[int, Start], edges: Sequence[EdgeRow], made_g: Mapping[int, int]
) -> dict[int, float]:
    """Each lot's share in what is traced, in one pass over rows that come newest child first.

    Origins with grams run from higher to lower ids, so that a lot's share is whole before its
    own rows come. Shares divide by what the child was made of, never by the sum of the rows
    found, so that a missing row shows.
    """
    shares: dict[int, float] = {}
    # Most lots have one part; a list is made for those with more.
    given: dict[int, float | list[float]] = {lot: start.weight for lot, start in starts.items()}
    last, share, made = 0, 0.0, 1
    for child, parent, grams, _, _, _ in edges:
        if child != last:
            last, made = child, made_g[child]
            share = shares[child] = _added_up(given.pop(child, 0.0))
        if grams:
            part = share * grams / made
            had = given.get(parent)
            if not had:
                given[parent] = part
            elif isinstance(had, list):
                had.append(part)
            else:
                given[parent] = [had, part]
        elif parent not in given and parent not in shares:
            given[parent] = 0.0
    for lot, parts in given.items():
        shares[lot] = _added_up(parts)
    return shares


def _added_up(parts: float | list[float]) -> float:
    return fsum(parts) if isinstance(parts, list) else parts


def carry_forward(
    sources: Mapping[int, float], edges: Sequence[Edge], made_g: Mapping[int, int]
) -> dict[int, float]:
    """The part of each lot that is the traced honey, over rows that come oldest parent first."""
    parts = dict(sources)
    came: dict[int, list[float]] = {}
    for child, parent, grams, _, _, _ in edges:
        if parent not in parts:
            parts[parent] = fsum(came.pop(parent, ())) / made_g[parent]
        if child not in came:
            came[child] = []
        if grams:
            came[child].append(parts[parent] * grams)
    for lot, given in came.items():
        if lot not in parts:
            parts[lot] = fsum(given) / made_g[lot]
    return parts


def ways_back(
    starts: Mapping[int, Start],
    edges: Sequence[EdgeRow],
    vessels: Mapping[int, str],
    late_ways: Mapping[int, int],
) -> dict[int, int]:
    """For each lot in a reach the ways it is in, as flags.

    A row from one tank fill to the next of a vessel is a heel. A lot in by none of the `TOLD`
    ways clung at 0 g, like a heel, to what it was drawn with. One pass does, since rows come
    newest child first; only a late row may lead to a newer lot, and then what lies behind that
    one is gone over again.

    Args:
        vessels: the vessel of each tank fill, and no other lots.
        late_ways: for each entry that wrote late rows, the flag they stand for.
    """
    ways = {lot: _ways_of(start) for lot, start in starts.items()}
    has_rows: set[int] | None = None  # asked for rarely
    again = True
    while again:
        again = False
        last, had, vessel = 0, 0, None
        for child, parent, grams, late, entry, _ in edges:
            if child != last:
                last, had, vessel = child, ways.get(child, 0), vessels.get(child)
            if late:
                passed = had & _OVER_LATE_ROWS | late_ways[entry]
            else:
                passed = had if grams else had & ~GRAMS
            if vessel is not None and vessels.get(parent) == vessel:
                passed &= ~(GRAMS | DIRECT)
                if had & _TIMELY:
                    passed |= HEEL
            known = ways.get(parent, 0)
            if passed & ~known:
                ways[parent] = known | passed
                if parent > child and not again:
                    has_rows = has_rows or {edge[0] for edge in edges}
                    again = parent in has_rows
    return ways


def _ways_of(start: Start) -> int:
    if start.late_way:
        return start.late_way | DIRECT
    by_grams = GRAMS if start.weight else 0
    return _TIMELY | DIRECT | (MARGIN if start.by_margin else by_grams)


def told(ways: int) -> tuple[str, ...]:
    """The ways in words."""
    return _HOW_OF[ways & TOLD]
