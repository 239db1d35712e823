"""How a chart is painted, on the screen and on paper.

Colour is never alone: series differ in lightness, in hatch and in marker, and each has its name in
the row above the plot. Only honey is painted as honey.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from honeyledger.desktop import colouring, lettering, look, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.chart_layout import (
    AXIS,
    DOT,
    KEY,
    SIDE,
    ChartPlace,
    PlacedItem,
    names_shown,
)
from honeyledger.desktop.models.charts import Chart, ChartForm
from honeyledger.desktop.models.line_layout import Box
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.chart_shapes import (
    HATCHES,
    level_pen,
    paint_ends,
    paint_filled,
    paint_honey,
    paint_marker,
    paint_spread,
    rect_of,
)

SMALL = Hand(Type.CAPTION, colour="ink2")
_NAME = Hand(Type.CAPTION, colour="ink")
_STRONG = Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink")
_EMPTY = Hand(Type.BODY, Density.DESK, colour="ink2")
_SWATCH = 14.0
# What in the row above the plot is no series.
_BEHIND, _SPREAD, _LEVEL = -1, -2, -3


@dataclass(frozen=True, slots=True)
class Pointed:
    """Which items are marked: the one walked to, and the one under the mouse."""

    current: str = ""
    under: str = ""

    def __contains__(self, key: str) -> bool:
        return key in (self.current, self.under)


NOBODY = Pointed()


def words_wide(words: str) -> float:
    """How wide words are at a chart's axes."""
    return _NAME.run(words).width


def paint_chart(
    painter: QPainter,
    place: ChartPlace,
    size: tuple[float, float],
    moved: tuple[float, float] = (0.0, 0.0),
    pointed: Pointed = NOBODY,
) -> None:
    """Paint a chart of that size, its plot moved by so much under its window."""
    width, height = size
    chart = place.chart
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if not chart.items:
        room = QRectF(SIDE, KEY, width - 2 * SIDE, _EMPTY.line)
        lettering.draw(painter, room, [_EMPTY.run(chart.empty)])
        return
    _paint_key(painter, place, width)
    painter.save()
    painter.setClipRect(_seen(place, width, height))
    painter.translate(-moved[0], -moved[1])
    _paint_grid(painter, place, moved)
    _paint_spreads(painter, place)
    seen = _seen(place, width, height).translated(*moved)
    for one in place.items:
        if seen.intersects(rect_of(one.room)):
            _paint_item(painter, place, one, pointed)
    if chart.joined:
        _paint_strokes(painter, place)
    _paint_levels(painter, place)
    for one in place.items if place.is_lying else ():
        middle = one.room.centre[1]
        # A name that is seen half is not read.
        if seen.top() <= middle - 8 and middle + 8 <= seen.bottom():
            _paint_bar_words(painter, place, one, pointed)
    painter.restore()
    _paint_axes(painter, place, (width, height), moved)


def _seen(place: ChartPlace, width: float, height: float) -> QRectF:
    """What of the plot is seen: with the names of its bars, or with what is under its columns."""
    window = place.window
    if place.is_lying:
        return QRectF(0, window.top, width, window.height)
    return QRectF(window.left - DOT, window.top - DOT, width - window.left + DOT, height)


# What is what, and the axes.


def _paint_key(painter: QPainter, place: ChartPlace, width: float) -> None:
    """The measure, and the name of each series with how it is drawn."""
    chart = place.chart
    left = SIDE
    room = QRectF(left, 0, width - 2 * SIDE, KEY)
    left = lettering.draw(painter, room, [_STRONG.run(chart.axis)]).right() + 24
    for words, draw in _keys(place):
        wide = SMALL.run(words).width
        if left + _SWATCH + 8 + wide > width - SIDE:
            break
        draw(painter, Box(left, (KEY - _SWATCH) / 2, _SWATCH, _SWATCH))
        lettering.draw(painter, QRectF(left + _SWATCH + 8, 0, wide + 1, KEY), [SMALL.run(words)])
        left += _SWATCH + 8 + wide + 20


def _keys(place: ChartPlace) -> Iterator[tuple[str, "_Draw"]]:
    chart = place.chart
    honey = any(item.pfund_mm is not None for item in chart.items)
    if len(chart.series) > 1:
        for at, name in enumerate(chart.series):
            # A bar of honey has its own colour; only what is laid over it needs a word.
            if at or not (honey and place.is_lying):
                yield name, _Draw(chart, at, honey)
    if chart.behind:
        yield chart.behind, _Draw(chart, _BEHIND, honey)
    if chart.spread:
        yield chart.spread, _Draw(chart, _SPREAD, honey)
    for level in chart.levels:
        if level.words:
            yield level.words, _Draw(chart, _LEVEL, honey)


@dataclass(frozen=True, slots=True)
class _Draw:
    """How one key is drawn."""

    chart: Chart
    series: int
    honey: bool

    def __call__(self, painter: QPainter, box: Box) -> None:
        x, y = box.centre
        if self.series == _BEHIND:
            painter.fillRect(rect_of(box), look.colour("rule"))
            paint_ends(painter, rect_of(box), lies=self.chart.form is ChartForm.BARS)
        elif self.series == _SPREAD:
            paint_spread(painter, x, box.top, y, box.bottom)
        elif self.series == _LEVEL:
            painter.setPen(level_pen())
            line = QLineF(box.left, y, box.right, y)
            if self.chart.form is ChartForm.BARS:
                line = QLineF(x, box.top - 4, x, box.bottom + 4)
            painter.drawLine(line)
        elif self.chart.form is ChartForm.DOTS:
            paint_marker(painter, self.series, x, y, "edge" if self.honey else None)
        elif self.honey:
            paint_honey(painter, rect_of(box), None, hatched=True)
        else:
            paint_filled(painter, rect_of(box), self.series)


def _paint_grid(painter: QPainter, place: ChartPlace, moved: tuple[float, float]) -> None:
    window = place.window
    painter.setPen(QPen(look.colour("rule"), 1))
    for tick in place.values.ticks:
        at = round(place.along(tick.value)) + 0.5
        if place.is_lying:
            top = window.top + moved[1]
            painter.drawLine(QLineF(at, top, at, top + window.height))
        else:
            left = window.left + moved[0]
            painter.drawLine(QLineF(left, at, left + window.width, at))
    zero = round(place.along(0.0)) + 0.5
    if place.values.low <= 0.0 <= place.values.high:
        painter.setPen(QPen(look.colour("ink2"), 1))
        if place.is_lying:
            painter.drawLine(QLineF(zero, place.plot.top, zero, place.plot.bottom))
        else:
            painter.drawLine(QLineF(place.plot.left, zero, place.plot.right, zero))


def _paint_axes(
    painter: QPainter,
    place: ChartPlace,
    size: tuple[float, float],
    moved: tuple[float, float],
) -> None:
    width, height = size
    window = place.window
    for tick in place.values.ticks:
        run = SMALL.run(tick.words)
        at = place.along(tick.value)
        if place.is_lying:
            room = QRectF(at - run.width / 2, KEY, run.width + 1, AXIS)
        else:
            right = window.left - 8
            room = QRectF(right - run.width - 1, at - AXIS / 2, run.width + 1, AXIS)
        lettering.draw(painter, room, [run])
    if place.is_lying:
        return
    _paint_level_names(painter, place)
    under = QRectF(0, window.bottom, width, height - window.bottom)
    painter.save()
    painter.setClipRect(under.adjusted(window.left - 24, 0, 0, 0))
    painter.translate(-moved[0], 0)
    if place.across is not None:
        ticks = [(place.day(tick.value), tick) for tick in place.across.ticks]
    else:
        ticks = names_shown(place, words_wide)
    for middle, tick in ticks:
        run = SMALL.run(tick.words)
        left = min(middle - run.width / 2, place.plot.right + SIDE - run.width - 1)
        room = QRectF(left, window.bottom + 2, run.width + 1, AXIS - 2)
        painter.setPen(QPen(look.colour("ink2"), 1))
        painter.drawLine(QLineF(middle, window.bottom, middle, window.bottom + 4))
        lettering.draw(painter, room, [run])
    painter.restore()


# What is drawn.


def _paint_item(painter: QPainter, place: ChartPlace, one: PlacedItem, pointed: Pointed) -> None:
    item, chart = one.item, place.chart
    is_current = item.key == pointed.current
    marked = item.key in pointed
    if chart.form is ChartForm.DOTS:
        _paint_dots(painter, chart, one, is_current=is_current, marked=marked)
        return
    if marked:
        painter.fillRect(rect_of(one.room), look.colour("act_tint" if is_current else "well"))
    if one.behind is not None:
        painter.fillRect(rect_of(one.behind), look.colour("rule"))
    for piece in one.pieces:
        if item.pfund_mm is not None:
            paint_honey(painter, rect_of(piece.box), item.pfund_mm, hatched=piece.series > 0)
        else:
            paint_filled(painter, rect_of(piece.box), piece.series, is_open=item.is_open)
    if one.behind is not None:
        # The ends are seen where this season's piece covers the band, too.
        paint_ends(painter, rect_of(one.behind), lies=place.is_lying)
    if is_current:
        painter.fillRect(_bar(place, one.room), look.colour("act"))


def _bar(place: ChartPlace, room: Box) -> QRectF:
    """The mark of the item walked to: at the left of a bar, at the foot of a column."""
    wide = float(tokens.SELECTION_BAR)
    if place.is_lying:
        return QRectF(room.left, room.top, wide, room.height)
    return QRectF(room.left, place.window.bottom - wide / 2, room.width, wide)


def _paint_bar_words(
    painter: QPainter, place: ChartPlace, one: PlacedItem, pointed: Pointed
) -> None:
    """A bar's name, and its value at its end, where a line across does not go through it."""
    hand = _STRONG if one.item.key in pointed else _NAME
    room = one.room
    name = QRectF(SIDE, room.top, place.names + 1, room.height)
    lettering.draw(painter, name, [hand.run(one.item.name)])
    ends = [piece.box.right for piece in one.pieces]
    left = max([place.along(0.0), *ends]) + 8
    run = hand.run(one.item.words)
    words = QRectF(left, room.top, min(run.width, room.right - SIDE - left) + 1, room.height)
    if run.text:
        ground = "act_tint" if one.item.key == pointed.current else "well"
        ground = ground if one.item.key in pointed else "sheet"
        behind = QRectF(left - 2, room.centre[1] - 9, words.width() + 3, 18)
        painter.fillRect(behind, look.colour(ground))
    lettering.draw(painter, words, [run])


def _paint_dots(
    painter: QPainter, chart: Chart, one: PlacedItem, *, is_current: bool, marked: bool
) -> None:
    for piece in one.pieces:
        x, y = piece.box.centre
        fill = None
        if one.item.pfund_mm is not None:
            fill = colouring.pfund_colour(one.item.pfund_mm)
        paint_marker(painter, piece.series, x, y, fill, large=marked)
        if is_current:
            painter.setPen(QPen(look.colour("act"), 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(QPointF(x, y), DOT + 2, DOT + 2)


def _paint_strokes(painter: QPainter, place: ChartPlace) -> None:
    """Each series' dots joined by its stroke."""
    points: dict[int, list[QPointF]] = {}
    for one in place.items:
        for piece in one.pieces:
            points.setdefault(piece.series, []).append(QPointF(*piece.box.centre))
    for series, line in points.items():
        kind = look.theme().series[series % len(HATCHES)]
        pen = QPen(look.colour(kind.colour), kind.width)
        if kind.dashes:
            pen.setDashPattern([dash / kind.width for dash in kind.dashes])
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(line)


def _paint_spreads(painter: QPainter, place: ChartPlace) -> None:
    for spread in place.chart.spreads:
        middle = place.day((spread.first + spread.last) / 2)
        marks = (place.along(spread.high), place.along(spread.middle), place.along(spread.low))
        paint_spread(painter, middle, *marks)


def _paint_levels(painter: QPainter, place: ChartPlace) -> None:
    painter.setPen(level_pen())
    for level in place.chart.levels:
        at = round(place.along(level.value))
        if place.is_lying:
            painter.drawLine(QLineF(at, place.plot.top, at, place.plot.bottom))
        else:
            painter.drawLine(QLineF(place.plot.left, at, place.plot.right, at))


def _paint_level_names(painter: QPainter, place: ChartPlace) -> None:
    """What stands at the lines' ends, beside the plot; none covers another."""
    free = place.window.bottom + AXIS
    for level in sorted(place.chart.levels, key=lambda level: level.value):
        run = SMALL.run(level.short)
        at = place.along(level.value)
        if level.short and at + AXIS / 2 <= free:
            room = QRectF(place.window.right + 8, at - AXIS / 2, run.width + 1, AXIS)
            lettering.draw(painter, room, [run])
            free = at - AXIS / 2 + 4
