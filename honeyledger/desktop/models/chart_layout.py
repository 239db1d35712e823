"""Where everything of a chart stands: axes, bars, dots, columns, and what a press means.

The plot may be larger than what is seen of it: bars run on below, columns to the left. The axis
of values then stays where it is.
"""

from collections.abc import Callable
from dataclasses import dataclass

from honeyledger.desktop.models.chart_scale import Scale, Tick, day_scale, value_scale
from honeyledger.desktop.models.charts import Chart, ChartForm, ChartItem
from honeyledger.desktop.models.line_layout import Box

PITCH, PITCH_LEAST = 28.0, 18.0
BAR_SHARE = 0.62
SLOT, SLOT_LEAST = 64.0, 4.0
COLUMN_MOST, COLUMN_LEAST = 40.0, 10.0
DOT = 9.0
KEY = 28.0  # the row of what is what, above the plot
UNDER_KEY = 12.0  # half a figure of the axis stands above the plot
AXIS = 24.0  # a row of figures
SIDE = 12.0
_NAME_SHARE = 0.36
_TICK_ROOM_UP, _TICK_ROOM_ACROSS = 44.0, 84.0
_SWATCH = 24.0
_A_DAY = 7.0  # whichever, where there is nothing to place

Measure = Callable[[str], float]


@dataclass(frozen=True, slots=True)
class Piece:
    """A drawn part of an item."""

    series: int
    box: Box


@dataclass(frozen=True, slots=True)
class PlacedItem:
    """An item where it stands: its pieces, the band behind it, the room a press on it has."""

    item: ChartItem
    pieces: tuple[Piece, ...]
    behind: Box | None
    room: Box


@dataclass(frozen=True, slots=True)
class ChartPlace:
    """A whole chart laid out.

    Args:
        plot: all of it, which may be larger than the window on it.
        window: what is seen of the plot.
        is_lying: whether values run across, as with bars.
        values: the scale of the values; `across` the days, where there are any.
    """

    chart: Chart
    plot: Box
    window: Box
    is_lying: bool
    values: Scale
    across: Scale | None
    items: tuple[PlacedItem, ...]
    names: float

    def along(self, value: float) -> float:
        """Where a value stands on its axis, in pixels."""
        share = self.values.share(value)
        if self.is_lying:
            return self.plot.left + share * self.plot.width
        return self.plot.bottom - share * self.plot.height

    def day(self, at: float) -> float:
        """Where a day stands."""
        assert self.across is not None
        return self.plot.left + self.across.share(at) * self.plot.width

    def item_at(self, x: float, y: float) -> PlacedItem | None:
        """The nearest dot to a point of the plot, or the bar or column in whose room it is."""
        if self.chart.form is not ChartForm.DOTS:
            return next((one for one in self.items if _is_in(one.room, x, y)), None)
        near = [(_away(one.room, x, y), at) for at, one in enumerate(self.items)]
        away, at = min(near, default=(0.0, -1))
        return self.items[at] if at >= 0 and away <= 20.0 else None


def _is_in(box: Box, x: float, y: float) -> bool:
    return box.left <= x < box.right and box.top <= y < box.bottom


def _away(box: Box, x: float, y: float) -> float:
    left, top = box.centre
    return float(((left - x) ** 2 + (top - y) ** 2) ** 0.5)


def lay_out_chart(
    chart: Chart, width: float, height: float, measure: Measure, *, fits: bool = False
) -> ChartPlace:
    """Place a chart in so much room.

    Args:
        measure: how wide words are.
        fits: whether nothing scrolls, as on paper: bars come closer.
    """
    if chart.form is ChartForm.BARS:
        return _bars(chart, width, height, measure, fits=fits)
    top = KEY + UNDER_KEY
    values = _values(chart, max(2, int((height - top - AXIS) / _TICK_ROOM_UP)))
    left = max((measure(tick.words) for tick in values.ticks), default=0.0) + SIDE + 8
    short = max((measure(level.short) for level in chart.levels if level.short), default=-8.0)
    right = SIDE + short + 8
    window = Box(left, top, max(1.0, width - left - right), max(1.0, height - top - AXIS))
    if chart.form is ChartForm.DOTS:
        return _dots(chart, window, values)
    return _columns(chart, window, values, fits=fits)


def _values(chart: Chart, most: int) -> Scale:
    if not chart.counted:
        return Scale(0.0, max((item.top for item in chart.items), default=1.0), ())
    tops = [item.top for item in chart.items] + [level.value for level in chart.levels]
    lows = [item.bottom for item in chart.items]
    if not chart.zero:
        dots = [part.value for item in chart.items for part in item.parts]
        tops, lows = dots + tops[len(chart.items) :], dots
        lows += [level.value for level in chart.levels]
    for item in chart.items:
        if item.behind is not None:
            tops.append(item.behind[1])
            lows.append(item.behind[0])
    return value_scale(min(lows, default=0.0), max(tops, default=0.0), most, zero=chart.zero)


def _bars(
    chart: Chart, width: float, height: float, measure: Measure, *, fits: bool
) -> ChartPlace:
    head = KEY + AXIS
    names = max((measure(item.name) for item in chart.items), default=0.0)
    names = min(names, width * _NAME_SHARE)
    words = max((measure(item.words) for item in chart.items), default=0.0)
    left = SIDE + names + 12
    room = max(40.0, width - left - words - 8 - SIDE) if chart.counted else _SWATCH
    values = _values(chart, max(2, int(room / _TICK_ROOM_ACROSS)))
    pitch = PITCH
    if fits and chart.items:
        pitch = min(PITCH, max(PITCH_LEAST, (height - head) / len(chart.items)))
    plot = Box(left, head, room, pitch * len(chart.items))
    window = Box(left, head, room, max(1.0, height - head))
    zero = left + values.share(0.0) * room
    placed = []
    for at, item in enumerate(chart.items):
        top = head + at * pitch
        thick = pitch * BAR_SHARE
        pieces, reached = [], zero
        for part in item.parts:
            long = (values.share(part.value) - values.share(0.0)) * room
            pieces.append(Piece(part.series, Box(reached, top + (pitch - thick) / 2, long, thick)))
            reached += long
        behind = None
        if item.behind is not None:
            low, high = (left + values.share(one) * room for one in item.behind)
            behind = Box(min(low, high - 2), top + 1, max(2.0, high - low), pitch - 2)
        placed.append(PlacedItem(item, tuple(pieces), behind, Box(0, top, width, pitch)))
    return ChartPlace(chart, plot, window, True, values, None, tuple(placed), names)


def _dots(chart: Chart, window: Box, values: Scale) -> ChartPlace:
    days = [item.at for item in chart.items]
    days += [end for spread in chart.spreads for end in (spread.first, spread.last)]
    most = max(2, int(window.width / _TICK_ROOM_ACROSS))
    across = day_scale(min(days, default=_A_DAY), max(days, default=_A_DAY), most)
    place = ChartPlace(chart, window, window, False, values, across, (), 0.0)
    taken: dict[tuple[int, int], int] = {}
    placed = []
    for item in chart.items:
        pieces = []
        for part in item.parts:
            x, y = place.day(item.at), place.along(part.value)
            # What lies on one another would be one dot: they stand side by side.
            spot = round(x), round(y)
            beside = taken[spot] = taken.get(spot, -1) + 1
            x += 0 if chart.joined else (beside + 1) // 2 * DOT * (-1 if beside % 2 else 1)
            pieces.append(Piece(part.series, Box(x - DOT / 2, y - DOT / 2, DOT, DOT)))
        room = pieces[0].box if pieces else Box(0, 0, 0, 0)
        placed.append(PlacedItem(item, tuple(pieces), None, room))
    return ChartPlace(chart, window, window, False, values, across, tuple(placed), 0.0)


def _columns(chart: Chart, window: Box, values: Scale, *, fits: bool) -> ChartPlace:
    first = min((item.at for item in chart.items), default=0.0)
    # What has a day stands at it, so that days without anything are seen.
    spots = [round(item.at - first) if item.at else at for at, item in enumerate(chart.items)]
    count = max(spots, default=0) + 1
    slot = min(SLOT, window.width / count)
    if not fits:
        slot = max(slot, SLOT_LEAST)
    plot = Box(window.left, window.top, max(window.width, slot * count), window.height)
    place = ChartPlace(chart, plot, window, False, values, None, (), 0.0)
    wide = min(COLUMN_MOST, max(slot * BAR_SHARE, min(slot - 1, COLUMN_LEAST)))
    placed = []
    for at, item in zip(spots, chart.items, strict=True):
        left = plot.left + at * slot
        middle = left + slot / 2
        pieces, up, down = [], place.along(0.0), place.along(0.0)
        for part in item.parts:
            high = abs(place.along(part.value) - place.along(0.0))
            if part.value >= 0:
                up -= high
                pieces.append(Piece(part.series, Box(middle - wide / 2, up, wide, high)))
            else:
                pieces.append(Piece(part.series, Box(middle - wide / 2, down, wide, high)))
                down += high
        behind = None
        if item.behind is not None:
            top, foot = place.along(item.behind[1]), place.along(item.behind[0])
            behind = Box(left + 1, top, slot - 2, max(2.0, foot - top))
        room = Box(left, window.top, slot, window.height + AXIS)
        placed.append(PlacedItem(item, tuple(pieces), behind, room))
    return ChartPlace(chart, plot, window, False, values, None, tuple(placed), 0.0)


def names_shown(place: ChartPlace, measure: Measure) -> list[tuple[float, Tick]]:
    """The names under the columns that have room, each with its middle."""
    shown: list[tuple[float, Tick]] = []
    free = 0.0
    for one in place.items:
        middle = one.room.left + one.room.width / 2
        half = measure(one.item.name) / 2
        if middle - half >= free and middle + half <= place.plot.right:
            shown.append((middle, Tick(0.0, one.item.name)))
            free = middle + half + 4
    return shown
