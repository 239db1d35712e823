"""Where everything of a river stands: one scale, columns, spines, ribbons, plates.

Pure arithmetic. The scale is the largest simple ratio at which the fullest column fits its height
with 8 px gaps; what would be thinner than 3 px is drawn 3 px thick and says so. All such threads
of one side of a lot begin in one place: a hundred of them would say more honey than there is.
"""

from collections import defaultdict
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.desktop.models.river_fold import folded
from honeyledger.desktop.models.river_graph import RiverGraph, RiverNode, RiverRibbon
from honeyledger.desktop.models.river_order import THREAD, ordered_columns, threads_of
from honeyledger.desktop.models.river_plates import (
    HEAD,
    LABEL_FROM,
    SPINE,
    TWO_LINES_FROM,
    PlacedSpine,
    labelled,
)

GAP = 8.0
LEAST = 3.0
FOOT = 24.0
SIDE = 19.0
UNDER = 21.0
NAMED_KINDS = ("yard",)
HIT_LEAST = 40.0
_GAPS_SHARE = 0.3
_FEWEST = 6
THIN_PART = 200  # a lot under a 200th of the whole is a thread at any scale
_HALVINGS = 16
_LEAST_FULL = 40.0
_MOST_THREADS = 120
# Room for two plates that face each other, before the last column; it takes at most so much more.
_FACING = 272.0
_MOST_WIDER = 1.8


# A plate with a whole code, and some honey before the next; two plates before the last column.
_COLUMN_LEAST, _LAST_LEAST = 160, 300
# What a column takes of the width: names are longer than codes, threads have no plates.
_NAMES, _THREADS = 1.25, 0.6


def river_width(graph: RiverGraph) -> float:
    """The width at which every column's plates have their room."""
    weights = _weights(graph)
    return sum(weights[:-2]) * _COLUMN_LEAST + _LAST_LEAST


def _weights(graph: RiverGraph) -> list[float]:
    """How wide each column is against the others."""
    made = [_THREADS] * len(graph.columns)
    for node in graph.nodes:
        if node.mass_g >= graph.whole_g * THREAD or not graph.whole_g:
            names = node.kind in NAMED_KINDS
            made[node.column] = max(made[node.column], _NAMES if names else 1.0)
    return made


@dataclass(frozen=True, slots=True)
class Scale:
    """So many pixels for so many grams."""

    px: int
    grams: int

    @property
    def px_per_g(self) -> float:
        """The ratio."""
        return self.px / self.grams

    @property
    def words(self) -> str:
        """The ratio as it is stated under the river."""
        if self.grams % 1000:
            return f"{self.px} px = {self.grams} g"
        return f"{self.px} px = {self.grams // 1000} kg".replace("000 kg", "\u202f000 kg")


@dataclass(frozen=True, slots=True)
class PlacedRibbon:
    """A ribbon: level to `level_from`, a curve, level again from `level_to`.

    Args:
        is_minor: a thread too many: painted only where one of its ends is asked about.
    """

    ribbon: RiverRibbon
    left: float
    top_left: float
    right: float
    top_right: float
    thickness: float
    to_scale: bool
    level_from: float
    level_to: float
    is_minor: bool = False


@dataclass(frozen=True, slots=True)
class RiverGeometry:
    """A river at one size; `height` may be more than was asked for when a band is open.

    Args:
        undrawn: how many threads are not painted, for there are too many.
    """

    width: float
    height: float
    scale: Scale
    columns: tuple[float, ...]
    spines: tuple[PlacedSpine, ...]
    ribbons: tuple[PlacedRibbon, ...]
    undrawn: int = 0

    def spine(self, key: str) -> PlacedSpine | None:
        """The spine of a lot."""
        return next((one for one in self.spines if one.node.key == key), None)


def most_in_column(height: float) -> int:
    """How many lots a column of that height shows before the small ones are folded."""
    body = max(0.0, height - HEAD - FOOT)
    return max(_FEWEST, int(body * _GAPS_SHARE / GAP))


def folded_to(
    graph: RiverGraph, height: float, words: str, opened: Collection[int] = ()
) -> RiverGraph:
    """The graph as a river so high can show it; columns in `opened` keep every lot.

    What would be thinner than 3 px though its column were full is a small lot, however few.
    """
    body = max(1.0, height - HEAD - FOOT)
    thin_g = max(graph.whole_g // THIN_PART, round(graph.whole_g * LEAST / body))
    return folded(graph, most_in_column(height), opened=opened, words=words, thin_g=thin_g)


def simple_scale(most_px_per_g: float) -> Scale:
    """The largest ratio of 5 to 20 px to 1, 2 or 5 of a power of ten grams that is not larger."""
    best = Scale(1, 10**9)
    for power in range(10):
        for step in (1, 2, 5):
            grams = step * 10**power
            px = min(20, int(most_px_per_g * grams))
            if px >= 5 and px / grams > best.px_per_g:
                best = Scale(px, grams)
    return best


def lay_out_river(
    graph: RiverGraph,
    width: float,
    height: float,
    measure: Callable[[str], float],
) -> RiverGeometry:
    """Place a river in a space so large; it grows downwards where the least sizes need it.

    Args:
        measure: the width of a plate's line in `body`.
    """
    columns = _parted_columns(graph)
    room = max(60.0, height - HEAD - FOOT)
    scale = _fitting_scale(graph, columns, room)
    lefts = _column_lefts(_weights(graph), width)
    heights = _spine_heights(graph, scale.px_per_g)
    spines: dict[str, PlacedSpine] = {}
    lowest = HEAD
    for part in (0, 1):
        gap = _gap(part)
        start = lowest + GAP if part and any(column[0] for column in columns) else HEAD
        for place, column in enumerate(columns):
            top = start
            for node in column[part]:
                high, true = heights[node.key]
                spines[node.key] = PlacedSpine(node, lefts[place], top, high, true)
                top += high + gap + _under_room(node, high)
            if column[part]:
                lowest = max(lowest, top - gap)
    whole_columns = [[*honey, *threads] for honey, threads in columns]
    spines = labelled(spines, whole_columns, lefts, measure)
    ribbons = _place_ribbons(graph, spines, scale)
    return RiverGeometry(
        width=width,
        height=max(height, lowest + FOOT),
        scale=scale,
        columns=tuple(lefts),
        spines=tuple(spines.values()),
        ribbons=tuple(ribbons),
        undrawn=sum(one.is_minor for one in ribbons),
    )


_Parted = Sequence[tuple[Sequence[RiverNode], Sequence[RiverNode]]]


def _parted_columns(graph: RiverGraph) -> _Parted:
    """Each column's lots in order: its honey, and the threads, which run below all honey."""
    made = []
    for column in ordered_columns(graph):
        threads = threads_of(graph, column)
        made.append(
            (
                [graph.nodes[place] for place in column if place not in threads],
                [graph.nodes[place] for place in column if place in threads],
            )
        )
    return made


def _gap(part: int) -> float:
    """What stands between two lots; threads keep less."""
    return GAP / 2 if part else GAP


def _column_lefts(weights: Sequence[float], width: float) -> list[float]:
    """The first column at the left edge, the last flush with the right one.

    Before the last column stand two plates, its own and those of the column before it, so that
    gap is wider where the others would be too narrow for both.
    """
    if len(weights) <= 1:
        return [SIDE]
    room = width - 2 * SIDE - SPINE
    gaps = list(weights[:-1])
    step = room / sum(gaps)
    if len(gaps) > 1 and gaps[-1] * step < _FACING:
        widest = room * _MOST_WIDER * gaps[-1] / (sum(gaps[:-1]) + gaps[-1] * _MOST_WIDER)
        last = min(_FACING, widest)
        step = (room - last) / sum(gaps[:-1])
        gaps[-1] = last / step
    lefts = [SIDE]
    for gap in gaps[:-1]:
        lefts.append(lefts[-1] + gap * step)
    return [*lefts, SIDE + room]


def _under_room(node: RiverNode, height: float) -> float:
    """The room for a line below a spine: a named lot too small for a plate, or a remark."""
    if node.is_labelled and height < LABEL_FROM:
        return UNDER
    if node.note and height < TWO_LINES_FROM + UNDER:
        return UNDER
    return 0.0


def _spine_heights(graph: RiverGraph, px_per_g: float) -> dict[str, tuple[float, bool]]:
    """Each spine's height: its mass, but never less than the ribbons at either side of it."""
    out: dict[str, float] = defaultdict(float)
    into: dict[str, float] = defaultdict(float)
    threads_out: dict[str, float] = {}
    threads_into: dict[str, float] = {}
    for ribbon in graph.ribbons:
        thick = ribbon.mass_g * px_per_g
        if thick >= LEAST:
            out[ribbon.source] += thick
            into[ribbon.target] += thick
        else:
            threads_out[ribbon.source] = threads_into[ribbon.target] = LEAST
    made: dict[str, tuple[float, bool]] = {}
    for node in graph.nodes:
        own, key = node.mass_g * px_per_g, node.key
        left = into[key] + threads_into.get(key, 0.0)
        right = out[key] + threads_out.get(key, 0.0)
        made[key] = (max(LEAST, own, left, right), own >= LEAST)
    return made


def _fitting_scale(graph: RiverGraph, columns: _Parted, room: float) -> Scale:
    """The largest simple ratio at which every column fits, least sizes included."""
    fullest_g = max((sum(node.mass_g for node in (*a, *b)) for a, b in columns), default=1)
    low, high = 0.0, room / max(1, fullest_g)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if _tallest(graph, columns, middle) <= room:
            low = middle
        else:
            high = middle
    # Where not even the least sizes fit, the river grows downwards, at a scale worth reading.
    return simple_scale(max(low, _LEAST_FULL / max(1, fullest_g)))


def _tallest(graph: RiverGraph, columns: _Parted, px_per_g: float) -> float:
    """How high the honey and the threads under it are together."""
    heights = _spine_heights(graph, px_per_g)

    def high(nodes: Sequence[RiverNode], gap: float) -> float:
        rooms = [heights[node.key][0] + _under_room(node, heights[node.key][0]) for node in nodes]
        return sum(rooms) + gap * (len(rooms) - 1)

    parts = [
        max((high(column[part], _gap(part)) for column in columns if column[part]), default=0.0)
        for part in (0, 1)
    ]
    return sum(parts) + (GAP if all(parts) else 0.0)


def _place_ribbons(
    graph: RiverGraph, spines: Mapping[str, PlacedSpine], scale: Scale
) -> list[PlacedRibbon]:
    """Ribbons leave and enter in the order of their other ends, so that few of them cross."""
    by_source: dict[str, list[RiverRibbon]] = defaultdict(list)
    by_target: dict[str, list[RiverRibbon]] = defaultdict(list)
    for ribbon in graph.ribbons:
        by_source[ribbon.source].append(ribbon)
        by_target[ribbon.target].append(ribbon)
    starts = _offsets(by_source, spines, scale, lambda ribbon: spines[ribbon.target])
    ends = _offsets(by_target, spines, scale, lambda ribbon: spines[ribbon.source])
    minor = _minor(graph.ribbons, scale)
    made: list[PlacedRibbon] = []
    for ribbon in graph.ribbons:
        source, target = spines[ribbon.source], spines[ribbon.target]
        exact = ribbon.mass_g * scale.px_per_g
        left, right = source.right, target.left
        span = right - left
        level_from = left
        if source.plate is not None and source.plate.left > source.left:
            level_from = min(source.plate.right + 8, left + span * 0.6)
        level_to = right
        if target.plate is not None and target.plate.left < target.left:
            level_to = max(target.plate.left - 8, left + span * 0.6)
        # Without a plate the curve still needs a little level honey to begin on.
        level_from = max(level_from, left + span * 0.08)
        level_to = min(level_to, right - span * 0.06)
        made.append(
            PlacedRibbon(
                ribbon,
                left,
                starts[ribbon],
                right,
                ends[ribbon],
                max(LEAST, exact),
                exact >= LEAST,
                level_from,
                max(level_to, level_from + span * 0.2),
                ribbon in minor,
            )
        )
    return made


def _minor(ribbons: Sequence[RiverRibbon], scale: Scale) -> set[RiverRibbon]:
    """Threads beyond what an eye can follow; each lot keeps its heaviest in and out."""
    threads = [one for one in ribbons if one.mass_g * scale.px_per_g < LEAST]
    if len(threads) <= _MOST_THREADS:
        return set()
    threads.sort(key=lambda one: -one.mass_g)
    had_in: set[str] = set()
    had_out: set[str] = set()
    minor: list[RiverRibbon] = []
    for one in threads:
        if one.source in had_out and one.target in had_in:
            minor.append(one)
        had_out.add(one.source)
        had_in.add(one.target)
    spare = max(0, _MOST_THREADS - (len(threads) - len(minor)))
    return set(minor[spare:])


def _offsets(
    groups: Mapping[str, Sequence[RiverRibbon]],
    spines: Mapping[str, PlacedSpine],
    scale: Scale,
    other_end: Callable[[RiverRibbon], PlacedSpine],
) -> dict[RiverRibbon, float]:
    made: dict[RiverRibbon, float] = {}
    for key, ribbons in groups.items():
        top = spines[key].top
        threads = []
        for ribbon in sorted(ribbons, key=lambda one: (other_end(one).middle, one.heel)):
            thick = ribbon.mass_g * scale.px_per_g
            if thick < LEAST:
                threads.append(ribbon)
                continue
            made[ribbon] = top
            top += thick
        made.update(dict.fromkeys(threads, top))
    return made
