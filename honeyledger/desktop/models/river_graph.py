"""What the river shows: lots in columns, honey in ribbons between them.

The masses are those that reached the traced lot. `river_graph` makes columns out of lots of
several kinds in whatever order they follow one another, and draws a heel as honey that passes
through the next fill rather than as a fill inside a fill.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class RiverNode:
    """One lot, or a band of small ones.

    Args:
        key: the lot's code, or a yard's.
        kind: which kind of lot it is ("yard", "pull", "fill", "drum", "jar").
        label: what stands on its plate.
        mass_g: what of it reached the traced lot.
        mass: that mass in words; `river_graph` fills it in.
        share: its share in words ("61.2 %"), filled in likewise.
        pfund_mm: its colour; None where it was not read.
        is_named: whether the answer above names it, so that it is labelled however small.
        details: further lines for a plate with room ("1 to 640").
        note: a remark under the plate ("heel of tank 1").
        column: the column it stands in; `river_graph` fills it in.
        folded: how many lots the band stands for.
        is_listed: whether its column is open, so that each of its lots is labelled.
    """

    key: str
    kind: str
    label: str
    mass_g: int
    mass: str = ""
    share: str = ""
    pfund_mm: float | None = None
    is_named: bool = False
    details: tuple[str, ...] = ()
    note: str = ""
    column: int = 0
    folded: int = 0
    is_listed: bool = False

    @property
    def is_labelled(self) -> bool:
        """Whether it is labelled however small it is."""
        return self.is_named or self.is_listed or bool(self.folded)


@dataclass(frozen=True, slots=True)
class RiverRibbon:
    """Honey that went from one lot into another; `heel` where it lay in the vessel from before."""

    source: str
    target: str
    mass_g: int
    heel: bool = False


@dataclass(frozen=True, slots=True)
class RiverColumn:
    """A column's head: its kind of lot, and the dates of its lots."""

    title: str
    dates: str = ""


@dataclass(frozen=True, slots=True)
class RiverGraph:
    """Nodes in columns from left to right; every ribbon runs to a column further right.

    Args:
        whole_g: the mass traced, of which the shares are parts.
        undrawn: what runs back or within a column, as a heel from fill to fill does; walked and
            told all the same.
    """

    columns: tuple[RiverColumn, ...]
    nodes: tuple[RiverNode, ...]
    ribbons: tuple[RiverRibbon, ...]
    whole_g: int
    undrawn: tuple[RiverRibbon, ...] = ()

    def __post_init__(self) -> None:
        at = {node.key: node.column for node in self.nodes}
        for ribbon in self.ribbons:
            if at[ribbon.source] >= at[ribbon.target]:
                raise ValueError(f"The ribbon {ribbon.source} to {ribbon.target} runs back.")

    def node(self, key: str) -> RiverNode:
        """The node with that key."""
        return next(node for node in self.nodes if node.key == key)

    @property
    def links(self) -> tuple[RiverRibbon, ...]:
        """Every ribbon, drawn or not."""
        return self.ribbons + self.undrawn

    def in_column(self, column: int) -> list[RiverNode]:
        """The nodes of a column, in the order given."""
        return [node for node in self.nodes if node.column == column]

    def reach(self, key: str) -> frozenset[str]:
        """A lot with all its ancestors and descendants."""
        forward: dict[str, list[str]] = defaultdict(list)
        back: dict[str, list[str]] = defaultdict(list)
        for ribbon in self.links:
            forward[ribbon.source].append(ribbon.target)
            back[ribbon.target].append(ribbon.source)
        return frozenset(_walk(key, forward) | _walk(key, back))


def _walk(start: str, edges: Mapping[str, Sequence[str]]) -> set[str]:
    seen, waiting = {start}, [start]
    while waiting:
        for other in edges.get(waiting.pop(), ()):
            if other not in seen:
                seen.add(other)
                waiting.append(other)
    return seen


def river_graph(
    heads: Mapping[str, RiverColumn],
    nodes: Sequence[RiverNode],
    ribbons: Sequence[RiverRibbon],
    whole_g: int,
    *,
    ends: str = "",
    thin_part: int = 0,
) -> RiverGraph:
    """Arrange lots of several kinds in columns.

    Args:
        heads: the head of each kind's columns, in the order the kinds usually follow one another.
        ribbons: from parent to child; a heel from one fill to the next is marked as such.
        ends: a kind that nothing comes after: all of it stands in the last column.
        thin_part: ribbons under this part of the whole make no column of their own.
    """
    kinds = list(heads)
    nodes, ribbons, heels = _heels_passed_on(nodes, merged(ribbons))
    least_g = max(1, whole_g // thin_part if thin_part else 1)
    levels = _levels(kinds, nodes, [one for one in ribbons if one.mass_g >= least_g])
    _place_threads(levels, nodes, ribbons, least_g)
    last = max((levels[node.key] for node in nodes if node.kind == ends), default=0)
    beyond = max((level for level in levels.values()), default=0)
    while last < beyond:
        last += len(kinds)
    levels |= {node.key: last for node in nodes if node.kind == ends}
    used = sorted(set(levels.values()))
    places = {level: place for place, level in enumerate(used)}
    columns = tuple(heads[kinds[level % len(kinds)]] for level in used)
    placed = tuple(
        worded(replace(node, column=places[levels[node.key]]), whole_g) for node in nodes
    )
    forward = tuple(one for one in ribbons if levels[one.source] < levels[one.target])
    rest = tuple(one for one in ribbons if levels[one.source] >= levels[one.target])
    return RiverGraph(columns, placed, forward, whole_g, rest + tuple(heels))


def _place_threads(
    levels: dict[str, int],
    nodes: Sequence[RiverNode],
    ribbons: Sequence[RiverRibbon],
    least_g: int,
) -> None:
    """Lots joined by threads only stand in a column there is, the last before what they went into.

    Lots come parents first, so that going backwards a lot's children have their places.
    """
    joined = {key for one in ribbons if one.mass_g >= least_g for key in (one.source, one.target)}
    into: dict[str, list[str]] = defaultdict(list)
    for one in ribbons:
        into[one.source].append(one.target)
    of_kind: dict[str, set[int]] = defaultdict(set)
    for node in nodes:
        if node.key in joined:
            of_kind[node.kind].add(levels[node.key])
    for node in reversed(nodes):
        if node.key in joined or not into[node.key]:
            continue
        first = min(levels[key] for key in into[node.key])
        before = [level for level in of_kind[node.kind] if level < first]
        if before:
            levels[node.key] = max(before)


def worded(node: RiverNode, whole_g: int) -> RiverNode:
    """Mass and share in words; under a kilogram in grams, as of a single jar."""
    small = whole_g < 10_000 or node.mass_g < 50
    mass = f"{node.mass_g} g" if small else f"{node.mass_g / 1000:,.1f} kg"
    share = f"{100 * node.mass_g / whole_g:.1f} %" if whole_g and node.mass_g else ""
    if share == "0.0 %":
        share = "< 0.1 %"
    return replace(node, mass=mass.replace(",", "\u202f"), share=share)


def merged(ribbons: Iterable[RiverRibbon]) -> list[RiverRibbon]:
    """One ribbon between two lots, however many times honey went that way; heels apart."""
    masses: dict[tuple[str, str, bool], int] = defaultdict(int)
    for one in ribbons:
        masses[one.source, one.target, one.heel] += one.mass_g
    return [RiverRibbon(*key[:2], mass_g, key[2]) for key, mass_g in masses.items()]


def _levels(
    kinds: Sequence[str], nodes: Sequence[RiverNode], ribbons: Sequence[RiverRibbon]
) -> dict[str, int]:
    """A level for each lot, after its parents', where each kind recurs once a round.

    The ribbons are those with mass: what carries reach only may close a circle.
    """
    parents: dict[str, list[str]] = defaultdict(list)
    for ribbon in ribbons:
        parents[ribbon.target].append(ribbon.source)
    kind_of = {node.key: kinds.index(node.kind) for node in nodes}
    levels: dict[str, int] = {}
    waiting = [node.key for node in reversed(nodes)]
    while waiting:
        key = waiting[-1]
        if key in levels:
            waiting.pop()
            continue
        missing = [parent for parent in parents[key] if parent not in levels]
        if missing:
            waiting.extend(missing)
            continue
        waiting.pop()
        after = max((levels[parent] for parent in parents[key]), default=-1) + 1
        own = kind_of[key]
        rounds = max(0, -(-(after - own) // len(kinds)))
        levels[key] = own + rounds * len(kinds)
    return levels


def _heels_passed_on(
    nodes: Sequence[RiverNode], ribbons: Sequence[RiverRibbon]
) -> tuple[Sequence[RiverNode], Sequence[RiverRibbon], Sequence[RiverRibbon]]:
    """Draw what lay in a vessel from its earlier fill as honey of that fill, going on.

    A fill's honey leaves it mixed, so each ribbon out of it is parted by the fill its honey was
    first in; an earlier fill keeps only what it passed on. What was traced passes nothing on: its
    heels run into it. The last of the three are the heels that are drawn so.
    """
    kind_of = {node.key: node.kind for node in nodes}
    mass_of = {node.key: node.mass_g for node in nodes}
    # Jars scraped back may have the traced fill in reach of itself: that is nothing passed on.
    goes_on = {one.source for one in ribbons if one.mass_g or not mass_of[one.source]}
    heels = [
        one
        for one in ribbons
        if one.heel and kind_of[one.source] == kind_of[one.target] and one.target in goes_on
    ]
    if not heels:
        return nodes, ribbons, ()
    heel_set = set(heels)
    rest = [one for one in ribbons if one not in heel_set]
    make_up = _first_fills(heels, rest)
    after = merged(
        RiverRibbon(first, one.target, grams, one.heel or first != one.source)
        for one in rest
        for first, grams in _parted(one, make_up).items()
    )
    out_g: dict[str, int] = defaultdict(int)
    for ribbon in after:
        out_g[ribbon.source] += ribbon.mass_g
    passed = make_up.keys()
    return (
        [replace(node, mass_g=out_g[node.key]) if node.key in passed else node for node in nodes],
        after,
        heels,
    )


def _first_fills(
    heels: Iterable[RiverRibbon], rest: Iterable[RiverRibbon]
) -> dict[str, dict[str, float]]:
    """Of each fill with a heel in or out, its grams by the fill its honey was first in."""
    own_g: dict[str, float] = defaultdict(float)
    for ribbon in rest:
        own_g[ribbon.target] += ribbon.mass_g
    into: dict[str, list[RiverRibbon]] = defaultdict(list)
    fills: list[str] = []
    for heel in heels:
        into[heel.target].append(heel)
        fills += (heel.source, heel.target)
    make_up: dict[str, dict[str, float]] = {}
    under_way: set[str] = set()
    waiting = list(reversed(fills))
    while waiting:
        fill = waiting[-1]
        before = [heel for heel in into[fill] if heel.source not in make_up]
        # A heel of 0 g may close a circle; what is under way already is not waited for.
        before = [heel for heel in before if heel.source not in under_way]
        if fill not in make_up and before:
            under_way.add(fill)
            waiting.extend(heel.source for heel in before)
            continue
        waiting.pop()
        if fill not in make_up:
            make_up[fill] = _made_up(fill, own_g[fill], into[fill], make_up)
    return make_up


def _made_up(
    fill: str,
    own_g: float,
    heels: Sequence[RiverRibbon],
    make_up: Mapping[str, Mapping[str, float]],
) -> dict[str, float]:
    parts = {fill: own_g} if own_g or not heels else {}
    for heel in heels:
        before = make_up.get(heel.source, {})
        whole = sum(before.values())
        for first, grams in before.items():
            share = grams / whole if whole else 1 / len(before)
            parts[first] = parts.get(first, 0.0) + heel.mass_g * share
    return parts


def _parted(ribbon: RiverRibbon, make_up: Mapping[str, Mapping[str, float]]) -> dict[str, int]:
    """Its grams by the fill they were first in, exact in sum (largest remainder).

    A part of nothing is none, since the heels lead there; but to the fill it was drawn from.
    """
    parts, mass_g = make_up.get(ribbon.source, {}), ribbon.mass_g
    whole = sum(parts.values())
    if not whole or not mass_g:
        return {ribbon.source: mass_g}
    exact = {key: mass_g * part / whole for key, part in parts.items()}
    made = {key: int(value) for key, value in exact.items()}
    left = mass_g - sum(made.values())
    for key in sorted(exact, key=lambda key: made[key] - exact[key])[:left]:
        made[key] += 1
    return {ribbon.source: 0} | {key: grams for key, grams in made.items() if grams}
