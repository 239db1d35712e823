"""Traces: where a lot or a jar comes from, with shares, and where honey went.

Reach is a fact: which lots are joined by origin rows, found by one recursive query. A share is
an estimate: grams over what the child was made of, carried down in id order. No threshold ever
narrows reach, and a share may underflow to 0.0 while its row stays.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from math import fsum

from honeyledger.ledger.state import Edge


def carry_back(
    weights: Mapping[int, float], edges: Sequence[Edge], made_g: Mapping[int, int]
) -> dict[int, float]:
    """Each lot's share in what is traced, in one pass from the newest lot to the oldest.

    `weights` are the lots traced, adding up to 1; one at weight 0 is reach only.

    Origins with grams run from higher to lower ids, so id order is a topological order. Shares
    divide by what the child was made of, never by the sum of the rows found, so that a missing
    row shows.
    """
    parts: dict[int, list[float]] = {lot: [weight] for lot, weight in weights.items()}
    grams_of: dict[int, list[tuple[int, int]]] = {}
    for edge in edges:
        parts.setdefault(edge.parent, [])
        parts.setdefault(edge.child, [])
        if edge.grams:
            grams_of.setdefault(edge.child, []).append((edge.parent, edge.grams))
    shares: dict[int, float] = {}
    for lot in sorted(parts, reverse=True):
        given = parts[lot]
        share = given[0] if len(given) == 1 else fsum(given)
        shares[lot] = share
        for parent, grams in grams_of.get(lot, ()):
            parts[parent].append(share * grams / made_g[lot])
    return shares


def carry_forward(
    sources: Mapping[int, float], edges: Sequence[Edge], made_g: Mapping[int, int]
) -> dict[int, float]:
    """The part of each lot that is the traced honey, from the oldest lot to the newest."""
    grams_of: dict[int, list[tuple[int, int]]] = {}
    lots = set(sources)
    for edge in edges:
        lots.update((edge.child, edge.parent))
        if edge.grams:
            grams_of.setdefault(edge.child, []).append((edge.parent, edge.grams))
    parts: dict[int, float] = {}
    for lot in sorted(lots):
        came = [parts.get(parent, 0.0) * grams for parent, grams in grams_of.get(lot, ())]
        parts[lot] = (
            sources[lot] if lot in sources else (fsum(came) / made_g[lot] if came else 0.0)
        )
    return parts


def reach(starts: Iterable[int], links: Mapping[int, Collection[int]]) -> set[int]:
    """All lots joined to the starts by these links, starts included; circles are survived."""
    seen = set(starts)
    waiting = list(seen)
    while waiting:
        for near in links.get(waiting.pop(), ()):
            if near not in seen:
                seen.add(near)
                waiting.append(near)
    return seen


def parents_of(edges: Iterable[Edge]) -> dict[int, list[int]]:
    """Links from each lot back to what it is made of."""
    links: dict[int, list[int]] = {}
    for edge in edges:
        links.setdefault(edge.child, []).append(edge.parent)
    return links


def heel_edges(edges: Iterable[Edge], vessels: Mapping[int, str]) -> set[tuple[int, int]]:
    """Rows from one tank fill to the next of the same vessel: what a heel carries.

    `vessels` has the vessel of each tank fill, and no other lots.
    """
    return {
        (edge.child, edge.parent)
        for edge in edges
        if edge.child in vessels and vessels[edge.child] == vessels.get(edge.parent)
    }


def reach_without_heels(
    starts: Iterable[int], edges: Sequence[Edge], vessels: Mapping[int, str]
) -> set[int]:
    """What is reached once rows from one tank fill to the next are taken away."""
    heels = heel_edges(edges, vessels)
    kept = [edge for edge in edges if (edge.child, edge.parent) not in heels]
    return reach(starts, parents_of(kept))


def reach_by_grams(starts: Iterable[int], edges: Sequence[Edge]) -> set[int]:
    """What is reached over rows with grams alone."""
    return reach(starts, parents_of(edge for edge in edges if edge.grams))
