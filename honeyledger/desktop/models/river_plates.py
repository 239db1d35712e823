"""The labels of a river: what stands on a plate, and where, so that no plate covers another.

A plate stands on the downstream side of its spine; in the last column on the upstream side. What
does not fit is left to the tip, to hover and to the table.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from honeyledger.desktop.models.river_graph import RiverNode

SPINE = 12.0
HEAD = 48.0
LINE = 24.0
PLATE_PAD = 4.0
LABEL_FROM = 16.0
TWO_LINES_FROM = 48.0
_MOST_SHIFT = 4.0
_ROOM = 0.75
_CLEAR = 12.0
_CAPTION_TO_BODY = 0.9

Measure = Callable[[str], float]


@dataclass(frozen=True, slots=True)
class Plate:
    """A label on the downstream side of a spine: its lines and its rectangle."""

    lines: tuple[str, ...]
    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + self.width


@dataclass(frozen=True, slots=True)
class PlacedSpine:
    """A lot's upright bar.

    Args:
        plate: its label, or None where it is shown on hover, focus and in the table only.
        under: a line in caption below it, or "".
    """

    node: RiverNode
    left: float
    top: float
    height: float
    to_scale: bool
    plate: Plate | None = None
    under: str = ""

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + SPINE

    @property
    def middle(self) -> float:
        """Halfway down it."""
        return self.top + self.height / 2

    @property
    def bottom(self) -> float:
        """Its lower end."""
        return self.top + self.height


def labelled(
    spines: Mapping[str, PlacedSpine],
    columns: Sequence[Sequence[RiverNode]],
    lefts: Sequence[float],
    measure: Measure,
) -> dict[str, PlacedSpine]:
    """The spines with their plates, and the lines below those that need one."""
    made: dict[str, PlacedSpine] = {}
    for place, column in enumerate(columns):
        is_last = place == len(columns) - 1 and place > 0
        step = _gap(lefts, place - 1 if is_last else place)
        for node in column:
            spine = spines[node.key]
            plate = _plate(spine, measure, is_last=is_last, room=step * _ROOM)
            under = _under_words(spine, measure, step - _CLEAR)
            made[node.key] = replace(spine, plate=plate, under=under)
    if len(columns) > 1:
        _part_last_two(made, columns[-2], columns[-1], measure)
    return made


def _gap(lefts: Sequence[float], place: int) -> float:
    """How far it is from a column to the next."""
    return lefts[place + 1] - lefts[place] if place + 1 < len(lefts) else 400.0


def _under_words(spine: PlacedSpine, measure: Measure, room: float) -> str:
    """What stands below a spine; what is said of a band ends before the next column."""
    node = spine.node
    if spine.height < LABEL_FROM and node.is_labelled:
        whole = f"{node.label} {node.share}".strip()
        if not node.folded:
            return whole
        choices = (whole, node.label, str(node.folded))
        fitting = [one for one in choices if measure(one) * _CAPTION_TO_BODY <= room]
        return fitting[0] if fitting else choices[-1]
    return node.note


def plate_choices(node: RiverNode, height: float) -> list[tuple[str, ...]]:
    """What may stand on a plate of a spine so high, fullest first."""
    with_share = f"{node.label}  {node.share}".strip()
    # A band's count is never cut: it alone may stand there.
    least = [(str(node.folded),)] if node.folded else []
    if height < TWO_LINES_FROM:
        return [(with_share,), (node.label,), *least]
    amounts = [part for part in (node.mass, node.share) if part]
    made: list[tuple[str, ...]] = []
    tall = (node.label, *node.details, *amounts)
    if node.details and len(tall) * LINE + 2 * PLATE_PAD <= height:
        made.append(tall)
    if amounts:
        made += [(node.label, "  ".join(amounts)), (node.label, amounts[-1])]
    return [*made, (node.label,), *least]


def _plate(spine: PlacedSpine, measure: Measure, *, is_last: bool, room: float) -> Plate | None:
    if spine.height < LABEL_FROM:
        return None
    choices = plate_choices(spine.node, spine.height)
    for lines in choices:
        if _width(lines, measure) <= room:
            return _placed(spine, lines, _width(lines, measure), is_last=is_last)
    return _placed(spine, choices[-1], room, is_last=is_last)


def _width(lines: Sequence[str], measure: Measure) -> float:
    return max(measure(line) for line in lines) + 2 * PLATE_PAD + 4


def _placed(spine: PlacedSpine, lines: tuple[str, ...], width: float, *, is_last: bool) -> Plate:
    pad = PLATE_PAD if len(lines) > 1 else 0.0
    height = len(lines) * LINE + 2 * pad
    top = max(HEAD - _MOST_SHIFT, spine.middle - height / 2)
    left = spine.left - PLATE_PAD - width if is_last else spine.right + PLATE_PAD
    return Plate(lines, left, top, width, height)


def _part_last_two(
    made: dict[str, PlacedSpine],
    before: Sequence[RiverNode],
    last: Sequence[RiverNode],
    measure: Measure,
) -> None:
    """The last column's plates face those before it: where they meet, they say less.

    The last column is what was traced, which the answer names, so it gives way first.
    """
    for node in last:
        spine = made[node.key]
        if any(_meet(spine.plate, made[one.key].plate) for one in before):
            lines = (node.label,)
            plate = _placed(spine, lines, _width(lines, measure), is_last=True)
            made[node.key] = replace(spine, plate=plate)
    for node in before:
        spine = made[node.key]
        if any(_meet(spine.plate, made[one.key].plate) for one in last):
            lines = (node.label,)
            plate = _placed(spine, lines, _width(lines, measure), is_last=False)
            made[node.key] = replace(spine, plate=plate)
    plates = [other for one in before if (other := made[one.key].plate) is not None]
    for node in last:
        spine = made[node.key]
        if spine.plate is not None and any(_meet(spine.plate, other) for other in plates):
            made[node.key] = replace(spine, plate=_beside(spine, spine.plate, plates))


def _beside(spine: PlacedSpine, plate: Plate, others: Sequence[Plate]) -> Plate | None:
    """The same plate elsewhere along its spine, nearest its middle, where it meets no other."""
    least = max(HEAD - _MOST_SHIFT, spine.top)
    tops = [least, *(other.top + other.height + 1 for other in others)]
    tops += [other.top - plate.height - 1 for other in others]
    for top in sorted(tops, key=lambda top: abs(top + plate.height / 2 - spine.middle)):
        moved = replace(plate, top=top)
        inside = top >= least and top + plate.height <= spine.bottom
        if inside and not any(_meet(moved, other) for other in others):
            return moved
    return None


def _meet(one: Plate | None, other: Plate | None) -> bool:
    if one is None or other is None:
        return False
    across = one.left < other.right + _CLEAR and other.left < one.right + _CLEAR
    down = one.top < other.top + other.height and other.top < one.top + one.height
    return across and down
