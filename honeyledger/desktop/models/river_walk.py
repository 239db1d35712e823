"""A river as it lies there: what stands at a point, where the arrows lead, what a lot is told as.

It is made beside the window's thread, however many lots there are, and only read afterwards.
"""

from bisect import bisect_right
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace

from honeyledger.desktop.models.river_fold import FOLD
from honeyledger.desktop.models.river_graph import RiverGraph
from honeyledger.desktop.models.river_layout import (
    HIT_LEAST,
    RiverGeometry,
    folded_to,
    lay_out_river,
)
from honeyledger.desktop.models.river_plates import SPINE, PlacedSpine
from honeyledger.desktop.models.river_words import river_sentences

_ASIDE = 8.0


@dataclass(frozen=True, slots=True)
class RiverRoom:
    """The place a river is laid out in, and which of its columns are open."""

    width: float
    height: float
    opened: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class _Box:
    """Where a lot can be pressed."""

    left: float
    right: float
    top: float
    bottom: float
    spine: PlacedSpine


@dataclass(frozen=True, slots=True)
class LaidRiver:
    """A river in its place.

    Args:
        whole: every lot, nothing folded.
        graph: as it is drawn, small lots folded.
        words: the whole of it for a screen reader, a line a lot.
    """

    whole: RiverGraph
    graph: RiverGraph
    geometry: RiverGeometry
    room: RiverRoom
    words: str
    _boxes: tuple[_Box, ...]
    _by_key: Mapping[str, PlacedSpine]
    _folded_into: Mapping[str, str]

    def spine(self, key: str) -> PlacedSpine | None:
        """The spine of a lot or a band."""
        return self._by_key.get(key)

    def first_key(self) -> str:
        """The first lot of the first column, "" where nothing flows."""
        return next(iter(self._by_key), "")

    def stands_for(self, key: str) -> str:
        """The lot itself, or the band it is folded into; "" for what is not in the river."""
        return key if key in self._by_key else self._folded_into.get(key, "")

    def at(self, x: float, y: float) -> PlacedSpine | None:
        """The lot at a point: its spine or plate, at least 40 high; the nearest of several."""
        found = [
            box.spine
            for box in self._boxes
            if box.top <= y <= box.bottom and box.left <= x <= box.right
        ]
        return min(found, key=lambda spine: abs(spine.middle - y), default=None)

    def column_at(self, x: float) -> int:
        """The column whose head stands over a point."""
        # The last head stands flush with the right edge and reaches back to the left.
        return max(0, bisect_right(self.geometry.columns, x) - 1)

    def head_words(self, column: int) -> str:
        """A column's head in full."""
        head = self.graph.columns[column]
        return "\n".join(part for part in (head.title, head.dates) if part)

    def lit_by(self, key: str) -> frozenset[str]:
        """What stays as it is while a lot is asked about: all that is of it, and it of."""
        return self.graph.reach(key) if len(self.graph.nodes) > 1 else frozenset()

    def along(self, key: str, *, forward: bool) -> str:
        """Where the widest ribbon leads, drawn or not; "" at the end."""
        ends = [
            (one.mass_g, one.target if forward else one.source)
            for one in self.graph.links
            if (one.source if forward else one.target) == key
        ]
        return max(ends)[1] if ends else ""

    def beside(self, key: str, by: int) -> str:
        """The lot above or below in the same column; "" at the end."""
        spine = self._by_key.get(key)
        if spine is None:
            return ""
        column = [one for one in self._by_key.values() if one.left == spine.left]
        column.sort(key=lambda one: one.top)
        at = column.index(spine) + by
        return column[at].node.key if 0 <= at < len(column) else ""

    def end_key(self, *, last: bool) -> str:
        """The largest lot of the last column, or of the first."""
        columns = {spine.node.column for spine in self._by_key.values()}
        if not columns:
            return ""
        column = max(columns) if last else min(columns)
        spines = [one for one in self._by_key.values() if one.node.column == column]
        return max(spines, key=lambda one: one.node.mass_g).node.key


def laid_river(
    whole: RiverGraph,
    room: RiverRoom,
    measure: Callable[[str], float],
    words: tuple[str, str],
    told: str = "",
) -> LaidRiver:
    """Fold a river to its room and lay it out.

    Args:
        measure: the width of a plate's line.
        words: what a band is called, with its count; and what an open column's head says.
        told: its words, where they are known already.
    """
    band, fold_again = words
    graph = _headed(folded_to(whole, room.height, band, room.opened), room.opened, fold_again)
    geometry = lay_out_river(graph, room.width, room.height, measure)
    by_key = {spine.node.key: spine for spine in geometry.spines}
    return LaidRiver(
        whole,
        graph,
        geometry,
        room,
        told or "\n".join(river_sentences(whole)),
        tuple(_box(spine) for spine in geometry.spines),
        by_key,
        {node.key: f"{FOLD}{node.column}" for node in whole.nodes if node.key not in by_key},
    )


def _headed(graph: RiverGraph, opened: Collection[int], words: str) -> RiverGraph:
    """Open columns say how they are folded, and label every lot."""
    if not opened:
        return graph
    columns = tuple(
        replace(column, dates=words) if place in opened else column
        for place, column in enumerate(graph.columns)
    )
    nodes = tuple(
        replace(node, is_listed=True) if node.column in opened else node for node in graph.nodes
    )
    return replace(graph, columns=columns, nodes=nodes)


def _box(spine: PlacedSpine) -> _Box:
    left, right, top, bottom = spine.left, spine.right, spine.top, spine.bottom
    if spine.plate is not None:
        plate = spine.plate
        left, right = min(left, plate.left), max(right, plate.right)
        top, bottom = min(top, plate.top), max(bottom, plate.top + plate.height)
    elif spine.under:
        right = left + SPINE * 8
    more = max(0.0, (HIT_LEAST - (bottom - top)) / 2)
    return _Box(left - _ASIDE, right + _ASIDE, top - more, bottom + more, spine)
