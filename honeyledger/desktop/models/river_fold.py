"""The small lots of a full column taken together into one band, which can be opened."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from honeyledger.desktop.models.river_graph import (
    RiverGraph,
    RiverNode,
    RiverRibbon,
    merged,
    worded,
)

FOLD = "fold:"
_FEWEST_FOLDED = 2
_MOSTLY = 0.3


def folded(
    graph: RiverGraph,
    most: int,
    *,
    opened: Collection[int] = (),
    words: str = "{n} small ones",
    thin_g: int = 0,
) -> RiverGraph:
    """The graph with at most so many lots a column; the small ones become one band.

    Lots named in the answer are never folded, nor are the columns in `opened`.

    Args:
        thin_g: lots of less than this are small whatever room there is: two threads say no more
            than one, and hundreds hide the honey.
    """
    into: dict[str, str] = {}
    bands: list[RiverNode] = []
    for column in range(len(graph.columns)):
        if column in opened:
            continue
        small = _small_ones(graph.in_column(column), most, thin_g, graph.whole_g * _MOSTLY)
        if len(small) < _FEWEST_FOLDED:
            continue
        key = f"{FOLD}{column}"
        into.update((node.key, key) for node in small)
        bands.append(worded(_band(key, small, words), graph.whole_g))
    if not into:
        return graph
    return RiverGraph(
        graph.columns,
        (*(node for node in graph.nodes if node.key not in into), *bands),
        tuple(_joined(graph.ribbons, into)),
        graph.whole_g,
        tuple(one for one in _joined(graph.undrawn, into) if one.source != one.target),
    )


def _joined(ribbons: Iterable[RiverRibbon], into: Mapping[str, str]) -> list[RiverRibbon]:
    """The ribbons between lots and bands."""
    return merged(
        replace(
            one, source=into.get(one.source, one.source), target=into.get(one.target, one.target)
        )
        for one in ribbons
    )


def _small_ones(
    nodes: Sequence[RiverNode], most: int, thin_g: int, mostly_g: float
) -> list[RiverNode]:
    """The lots of a column that are folded, largest first."""
    by_size = sorted(nodes, key=lambda node: (node.is_named, node.mass_g), reverse=True)
    kept = most - 1 if len(nodes) > most else len(nodes)
    if sum(node.mass_g for node in by_size if node.mass_g < thin_g) > mostly_g:
        thin_g = 1  # where threads are the honey, the largest of them stay
    return [
        node
        for at, node in enumerate(by_size)
        if not node.is_named and (at >= kept or node.mass_g < thin_g)
    ]


def _band(key: str, small: Sequence[RiverNode], words: str) -> RiverNode:
    mass_g = sum(node.mass_g for node in small)
    read = [(node.mass_g, node.pfund_mm) for node in small if node.pfund_mm is not None]
    read_g = sum(grams for grams, _ in read)
    mean = sum(grams * mm for grams, mm in read) / read_g if read_g else None
    first = small[0]
    return RiverNode(
        key=key,
        kind=first.kind,
        label=words.format(n=len(small)),
        mass_g=mass_g,
        pfund_mm=mean,
        column=first.column,
        folded=len(small),
    )
