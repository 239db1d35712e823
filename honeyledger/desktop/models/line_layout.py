"""Where everything on the line stands at a given width: pure arithmetic, no painting.

One strip at 900 and more; below that the mast and the line are one row, with the scan box and More
at its ends.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from honeyledger.desktop import tokens
from honeyledger.desktop.models.line_figures import Flow, LineFigures

NAME_TOP = 8.0
NAME_LINE = 20.0
FIGURE_TOP = 28.0
FIGURE_LINE = 28.0
CHANNEL_TOP = 60.0
CHANNEL_LINE = 20.0
CHANNEL_MIDDLE = CHANNEL_TOP + CHANNEL_LINE / 2
REACH = 8.0
EASE = 24.0
THINNEST = 4
THICKEST_MORE = 16
NARROW_GAP = 8.0
NARROW_OPEN = 144.0
NARROW_END = 56.0
NARROW_WORDS_FROM = 80.0


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + self.width

    @property
    def middle(self) -> float:
        """Halfway across it."""
        return self.left + self.width / 2

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.top + self.height

    @property
    def centre(self) -> tuple[float, float]:
        """Halfway across and down."""
        return self.middle, self.top + self.height / 2


class Shown(Enum):
    """How much of a place there is room for."""

    FULL = "name, figure, unit and qualifier"
    USUAL = "name, figure and unit"
    TIGHT = "name, smaller figure and unit"
    OPEN_NARROW = "name and figure side by side"
    NAME_OR_FIGURE = "name, and badge or figure"
    ICON = "icon and badge"


@dataclass(frozen=True, slots=True)
class PlaceBox:
    """A place: its column, and the area that answers to a press."""

    column: Box
    hit: Box
    shown: Shown


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of the channel, from the middle of a place to the middle of the next."""

    left: float
    right: float
    thickness: int
    flow: Flow

    @property
    def is_empty(self) -> bool:
        """Whether nothing flowed: two parallel lines and no fill."""
        return self.flow.amount_kg <= 0


@dataclass(frozen=True, slots=True)
class LineGeometry:
    """The line at one width."""

    width: float
    height: float
    is_narrow: bool
    places: tuple[PlaceBox, ...]
    pieces: tuple[Piece, ...]
    gaps: tuple[Box, ...]
    tools: tuple[Box, ...]
    tool_names: bool
    rule_x: float
    scan: Box | None
    more: Box | None
    short_figures: bool


def thickness(amount_kg: int, largest_kg: int) -> int:
    """How thick a flow is drawn: 4 to 20 pixels, in whole even ones."""
    if amount_kg <= 0 or largest_kg <= 0:
        return THINNEST
    exact = THINNEST + THICKEST_MORE * amount_kg / largest_kg
    return 2 * round(exact / 2)


def lay_out_line(figures: LineFigures, width: float, *, open_place: int = -1) -> LineGeometry:
    """The geometry of the line in a window so wide.

    Args:
        open_place: the place whose station is open, -1 for none of the seven.
    """
    if width < tokens.MIDDLE_FROM:
        return _narrow(figures, width, open_place)
    return _strip(figures, width)


def _strip(figures: LineFigures, width: float) -> LineGeometry:
    margin = tokens.grid(width).margin
    tool_width, tool_gap, gap = 64.0, 8.0, 24.0
    shown = Shown.USUAL
    if width >= tokens.WIDE_FROM:
        shown, tool_width, gap = Shown.FULL, 72.0, 40.0
    elif width < tokens.USUAL_FROM:
        shown, tool_width, tool_gap, gap = Shown.TIGHT, 48.0, 0.0, 12.0
    tools_left = width - margin - 3 * tool_width - 2 * tool_gap
    if width >= tokens.WIDE_FROM:
        room = tools_left - 48.0 - margin
        place_width = min(168.0, (room - 6 * gap) / 7)
    elif width >= tokens.USUAL_FROM:
        place_width = (width - 424.0) / 7
    else:
        place_width = (width - 272.0) / 7
    height = float(tokens.LINE_HEIGHT)
    columns = [
        Box(margin + at * (place_width + gap), 0.0, place_width, height)
        for at in range(len(figures.places))
    ]
    # What is lit on hover or when open reaches beyond the text, but never over a neighbour.
    reach = min(REACH, gap / 2)
    places = tuple(
        PlaceBox(
            column,
            Box(column.left - reach, 0.0, column.width + 2 * reach, height),
            shown,
        )
        for column in columns
    )
    tools = tuple(
        Box(tools_left + at * (tool_width + tool_gap), 0.0, tool_width, height) for at in range(3)
    )
    return LineGeometry(
        width=width,
        height=height,
        is_narrow=False,
        places=places,
        pieces=_pieces(figures.flows, columns),
        gaps=(),
        tools=tools,
        tool_names=shown is not Shown.TIGHT,
        rule_x=tools_left - 12.0,
        scan=None,
        more=None,
        short_figures=shown is not Shown.FULL,
    )


def _pieces(flows: Sequence[Flow], columns: Sequence[Box]) -> tuple[Piece, ...]:
    """The first piece begins, and the last ends, with the channel itself."""
    largest = max(flow.amount_kg for flow in flows)
    ends = [column.middle for column in columns]
    ends[0], ends[-1] = columns[0].left, columns[-1].right
    return tuple(
        Piece(ends[at], ends[at + 1], thickness(flow.amount_kg, largest), flow)
        for at, flow in enumerate(flows)
    )


def _narrow(figures: LineFigures, width: float, open_place: int) -> LineGeometry:
    margin = float(tokens.grid(width).margin)
    height = float(tokens.NARROW_HEIGHT)
    count = len(figures.places)
    has_open = 0 <= open_place < count
    closed = (width - 352.0) / 6 if has_open else (width - 352.0 + NARROW_OPEN) / 7
    left = margin + NARROW_END + NARROW_GAP
    places: list[PlaceBox] = []
    gaps: list[Box] = []
    for at in range(count):
        own = NARROW_OPEN if at == open_place else closed
        box = Box(left, 0.0, own, height)
        places.append(PlaceBox(box, box, _narrow_shown(own, is_open=at == open_place)))
        left = box.right + NARROW_GAP
        if at < count - 1:
            gaps.append(Box(box.right, 0.0, NARROW_GAP, height))
    return LineGeometry(
        width=width,
        height=height,
        is_narrow=True,
        places=tuple(places),
        pieces=_pieces(figures.flows, [place.column for place in places]),
        gaps=tuple(gaps),
        tools=(),
        tool_names=False,
        rule_x=0.0,
        scan=Box(margin, 0.0, NARROW_END, height),
        more=Box(width - margin - NARROW_END, 0.0, NARROW_END, height),
        short_figures=True,
    )


def _narrow_shown(width: float, *, is_open: bool) -> Shown:
    if is_open:
        return Shown.OPEN_NARROW
    return Shown.NAME_OR_FIGURE if width >= NARROW_WORDS_FROM else Shown.ICON


def eased(share: float) -> float:
    """A smooth step from 0 to 1, for where two thicknesses meet."""
    held = min(1.0, max(0.0, share))
    return held * held * (3 - 2 * held)
