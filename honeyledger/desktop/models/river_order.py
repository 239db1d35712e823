"""The order of lots within the columns of a river: barycentre, two sweeps.

Each column is ordered by the mass-weighted middle of what flows into it, from left to right, then
by what flows out of it, from right to left (Sugiyama, Tagawa and Toda, "Methods for Visual
Understanding of Hierarchical System Structures", 1981).
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from honeyledger.desktop.models.river_graph import RiverGraph, RiverNode

THREAD, BAND = 0.015, 0.06  # of the whole: a lot, and a band of lots that are thin each
_MOSTLY = 0.3

_Links = Mapping[str, Sequence[tuple[str, float]]]


def ordered_columns(graph: RiverGraph) -> list[list[int]]:
    """The places of the nodes in `graph.nodes`, column by column, from the top down."""
    sources: dict[str, list[tuple[str, float]]] = defaultdict(list)
    targets: dict[str, list[tuple[str, float]]] = defaultdict(list)
    for ribbon in graph.ribbons:
        # Ribbons of no mass pull a little, so that lots in reach only stand near their kin.
        weight = float(max(ribbon.mass_g, 1))
        sources[ribbon.target].append((ribbon.source, weight))
        targets[ribbon.source].append((ribbon.target, weight))
    columns: list[list[int]] = [[] for _ in graph.columns]
    for place, node in enumerate(graph.nodes):
        columns[node.column].append(place)
    for column in range(1, len(columns)):
        _sort(graph, columns, column, sources)
    for column in reversed(range(len(columns) - 1)):
        _sort(graph, columns, column, targets)
    for places in columns:
        _small_ones_last(graph, places)
    return columns


def threads_of(graph: RiverGraph, column: Sequence[int]) -> frozenset[int]:
    """The places of a column's lots that are too thin to stand among the honey.

    Where they are most of a column they are its honey, and none is one.
    """
    thin = [place for place in column if _is_thin(graph, graph.nodes[place])]
    together = sum(graph.nodes[place].mass_g for place in thin)
    return frozenset() if together > graph.whole_g * _MOSTLY else frozenset(thin)


def _is_thin(graph: RiverGraph, node: RiverNode) -> bool:
    return node.mass_g < graph.whole_g * (BAND if node.folded else THREAD)


def _small_ones_last(graph: RiverGraph, column: list[int]) -> None:
    """Threads run along the foot, where they cross no label; of those a band comes last."""
    threads = threads_of(graph, column)

    def rank(place: int) -> tuple[bool, bool]:
        return place in threads, place in threads and bool(graph.nodes[place].folded)

    column.sort(key=rank)


def _middles(graph: RiverGraph, columns: Sequence[Sequence[int]]) -> dict[str, float]:
    """The middle of each lot in its column, in grams from the top."""
    made: dict[str, float] = {}
    for column in columns:
        top = 0.0
        for place in column:
            node = graph.nodes[place]
            made[node.key] = top + node.mass_g / 2
            top += node.mass_g
    return made


def _sort(graph: RiverGraph, columns: list[list[int]], column: int, links: _Links) -> None:
    middles = _middles(graph, columns)

    def centre(place: int) -> float:
        node = graph.nodes[place]
        joined = links.get(node.key, ())
        whole = sum(weight for _, weight in joined)
        if not whole:
            return middles[node.key]
        return sum(middles[key] * weight for key, weight in joined) / whole

    columns[column].sort(key=centre)
