"""How a river is painted: ribbons, widest first; then spines, plates, heads, the stated scale."""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPen

from honeyledger.desktop import honey_paint, lettering, look, marks, rings, tokens
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.river_graph import RiverColumn, RiverGraph, RiverNode
from honeyledger.desktop.models.river_layout import (
    FOOT,
    SIDE,
    PlacedRibbon,
    RiverGeometry,
    folded_to,
    lay_out_river,
)
from honeyledger.desktop.models.river_plates import (
    HEAD,
    LINE,
    PLATE_PAD,
    SPINE,
    PlacedSpine,
    Plate,
)
from honeyledger.desktop.tokens import SEMIBOLD, Type

BODY = Hand(Type.BODY)
_NAME = Hand(Type.BODY, weight=SEMIBOLD)
_CAPTION = Hand(Type.CAPTION, colour="ink2")
_STRONG = Hand(Type.CAPTION, weight=SEMIBOLD)
_HALO = 4.0
_HEEL_DASHES = [6.0, 4.0]
_DOTS = [1.0, 2.0]
_REACH_DOTS, _LONG = [1.0, 3.0], 900.0
_FEW_LIT = 60
_YEAR = re.compile(r"\s\d{4}$")
_FRAME = 4.0
_CUT = 4.0
_UNDER = 24.0  # a line below a spine


@dataclass(frozen=True, slots=True)
class Shown:
    """What is chosen, pointed at, and has the keyboard.

    Args:
        lit: the lots that stay when something is pointed at; empty when nothing is.
    """

    selected: str = ""
    focused: str = ""
    pointed: str = ""
    lit: Collection[str] = ()


def ribbon_path(placed: PlacedRibbon) -> QPainterPath:
    """The outline of a ribbon, a pixel inside its slot so that neighbours stand apart."""
    inset = min(1.0, max(0.0, (placed.thickness - 2) / 4))
    thick = placed.thickness - 2 * inset
    path = QPainterPath()
    _edge(path, placed, inset, start=True)
    path.lineTo(placed.right, placed.top_right + inset + thick)
    _edge_back(path, placed, inset + thick)
    path.closeSubpath()
    return path


def _edge(path: QPainterPath, placed: PlacedRibbon, down: float, *, start: bool) -> None:
    y0, y1 = placed.top_left + down, placed.top_right + down
    middle = (placed.level_from + placed.level_to) / 2
    if start:
        path.moveTo(placed.left, y0)
    path.lineTo(placed.level_from, y0)
    path.cubicTo(middle, y0, middle, y1, placed.level_to, y1)
    path.lineTo(placed.right, y1)


def _edge_back(path: QPainterPath, placed: PlacedRibbon, down: float) -> None:
    y0, y1 = placed.top_left + down, placed.top_right + down
    middle = (placed.level_from + placed.level_to) / 2
    path.lineTo(placed.level_to, y1)
    path.cubicTo(middle, y1, middle, y0, placed.level_from, y0)
    path.lineTo(placed.left, y0)


def ribbon_edges(placed: PlacedRibbon) -> QPainterPath:
    """The two long edges of a ribbon, without its ends."""
    inset = min(1.0, max(0.0, (placed.thickness - 2) / 4))
    path = QPainterPath()
    for down in (inset + 0.5, placed.thickness - inset - 0.5):
        _edge(path, placed, down, start=True)
    return path


def paint_river(
    painter: QPainter,
    geometry: RiverGeometry,
    columns: tuple[RiverColumn, ...],
    shown: Shown,
) -> None:
    """Paint all of it."""
    paint_water(painter, geometry, shown.lit)
    paint_frame(painter, geometry, columns, QRectF(0, 0, geometry.width, geometry.height))
    paint_pointers(painter, geometry, shown)


def paint_water(
    painter: QPainter,
    geometry: RiverGeometry,
    lit: Collection[str] = (),
    within: QRectF | None = None,
) -> None:
    """Paint ribbons, spines and plates: threads first, so that the honey stands in front.

    Args:
        lit: the lots that stay when something is pointed at; empty when nothing is.
        within: the part of the river that is wanted; None for the whole.
    """
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    by_key = {spine.node.key: spine for spine in geometry.spines}
    threads = [one for one in geometry.ribbons if not one.to_scale and _is_seen(one, lit, within)]
    honey = [one for one in geometry.ribbons if one.to_scale and _is_seen(one, lit, within)]
    for placed in (*threads, *sorted(honey, key=lambda one: -one.thickness)):
        ends = (placed.ribbon.source, placed.ribbon.target)
        painter.setOpacity(_opacity(lit, ends))
        asked = 0 < len(lit) <= _FEW_LIT and ends[0] in lit and ends[1] in lit
        _paint_ribbon(painter, placed, [by_key[end].node for end in ends], is_asked=asked)
    last = geometry.columns[-1]
    for spine in geometry.spines:
        if within is None or spine_area(spine).adjusted(0, 0, 0, _UNDER).intersects(within):
            painter.setOpacity(_opacity(lit, (spine.node.key,)))
            _paint_spine(painter, spine, is_last=spine.left == last)
    painter.setOpacity(1.0)


def _is_seen(placed: PlacedRibbon, lit: Collection[str], within: QRectF | None) -> bool:
    ribbon = placed.ribbon
    if placed.is_minor and not (ribbon.source in lit and ribbon.target in lit):
        return False
    if within is None:
        return True
    top, bottom = sorted((placed.top_left, placed.top_right))
    return (
        placed.right >= within.left()
        and placed.left <= within.right()
        and bottom + placed.thickness >= within.top()
        and top <= within.bottom()
    )


def paint_frame(
    painter: QPainter,
    geometry: RiverGeometry,
    columns: tuple[RiverColumn, ...],
    seen: QRectF,
) -> None:
    """Paint the heads at the top and the stated scale at the foot of what is seen of the river."""
    top, bottom = seen.top(), seen.bottom()
    if top > 0:
        painter.fillRect(QRectF(0, top, geometry.width, HEAD - 1), look.colour("sheet"))
        # A line says that what is cut here goes on above it.
        painter.fillRect(QRectF(0, top + HEAD - 1, geometry.width, 1), look.colour("rule"))
    if bottom < geometry.height:
        painter.fillRect(QRectF(0, bottom - FOOT, geometry.width, FOOT), look.colour("sheet"))
    _paint_heads(painter, geometry, columns, top)
    _paint_foot(painter, geometry, seen)


def paint_pointers(painter: QPainter, geometry: RiverGeometry, shown: Shown) -> None:
    """Paint what is chosen, pointed at, and has the keyboard."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for key in dict.fromkeys((shown.pointed, shown.focused)):
        found = geometry.spine(key) if key else None
        if found is not None and found.plate is None:
            _paint_floating(painter, found, geometry)
    _paint_chosen(painter, geometry, shown)


def _opacity(lit: Collection[str], keys: tuple[str, ...]) -> float:
    if not lit or all(key in lit for key in keys):
        return 1.0
    return tokens.FADED


def _paint_ribbon(
    painter: QPainter, placed: PlacedRibbon, ends: Sequence[RiverNode], *, is_asked: bool
) -> None:
    read = [node.pfund_mm for node in ends if node.pfund_mm is not None]
    is_long = abs(placed.top_right - placed.top_left) > _LONG
    if not placed.ribbon.mass_g or (is_long and not placed.to_scale):
        # Hundreds of long lines side by side are no honey, so they stay pale until asked about.
        colour = "rule" if is_long and not is_asked else "honey_edge" if read else "edge"
        _paint_line(painter, placed, colour, dotted=not is_long)
        return
    path = ribbon_path(placed)
    if placed.to_scale:
        painter.strokePath(path, QPen(look.colour("sheet"), _HALO))
    if not read:
        painter.fillPath(path, look.colour("well"))
        honey_paint.hatch(painter, path, "edge")
    else:
        painter.fillPath(path, _fill(placed, read[0], read[-1]))
        if placed.ribbon.heel:
            honey_paint.hatch(painter, path, "honey_hatch")
    pen = QPen(look.colour("honey_edge" if read else "edge"), 1)
    if placed.ribbon.heel:
        pen.setDashPattern(_HEEL_DASHES)
    elif not placed.to_scale:
        pen.setDashPattern(_DOTS)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.strokePath(ribbon_edges(placed), pen)


def _paint_line(painter: QPainter, placed: PlacedRibbon, colour: str, *, dotted: bool) -> None:
    """What may be in there though nobody knows of it; or a thread too long for its dots."""
    pen = QPen(look.colour(colour), 1)
    if dotted:
        pen.setDashPattern(_REACH_DOTS)
    path = QPainterPath()
    _edge(path, placed, placed.thickness / 2, start=True)
    painter.strokePath(path, pen)


def _fill(placed: PlacedRibbon, start_mm: float, end_mm: float) -> QBrush:
    return honey_paint.flow_brush(placed.left, placed.right, start_mm, end_mm)


def _paint_spine(painter: QPainter, spine: PlacedSpine, *, is_last: bool) -> None:
    rect = QRectF(spine.left, spine.top, SPINE, spine.height)
    painter.fillRect(rect, look.colour("ink"))
    if spine.node.folded:
        _paint_cuts(painter, rect)
    if spine.plate is not None:
        _paint_plate(painter, spine.node, spine.plate, is_last=is_last)
    if spine.under:
        _paint_under(painter, spine, is_last=is_last)


def _paint_cuts(painter: QPainter, rect: QRectF) -> None:
    """A band is a spine in pieces: several lots, which a press shows."""
    top = rect.top() + _CUT
    while top + 1 < rect.bottom():
        painter.fillRect(QRectF(rect.left(), top, rect.width(), 1.5), look.colour("sheet"))
        top += _CUT + 1.5


def _label_runs(node: RiverNode, line: str, *, first: bool) -> list[Run]:
    made = lettering.runs(line, BODY)
    if first and len(made) == 1:
        # A name is set in 600 and its share after it in 400; a code has its own bold part.
        name = node.label
        rest = line.removeprefix(name)
        return [_NAME.run(name), BODY.run(rest)] if rest else [_NAME.run(name)]
    return made


def _paint_plate(painter: QPainter, node: RiverNode, plate: Plate, *, is_last: bool) -> None:
    rect = QRectF(plate.left, plate.top, plate.width, plate.height)
    painter.fillRect(rect, look.colour("sheet"))
    pad = PLATE_PAD if len(plate.lines) > 1 else 0.0
    top = plate.top + pad
    side = Side.RIGHT if is_last else Side.LEFT
    for number, line in enumerate(plate.lines):
        room = QRectF(plate.left + PLATE_PAD, top, plate.width - 2 * PLATE_PAD, LINE)
        lettering.draw(painter, room, _label_runs(node, line, first=number == 0), side)
        top += LINE


def _paint_under(painter: QPainter, spine: PlacedSpine, *, is_last: bool) -> None:
    """A line below a spine: a named lot too small for a plate, or where a heel came from."""
    node = spine.node
    named = spine.under != node.note
    runs = lettering.runs(spine.under, _STRONG if named else _CAPTION)
    if not spine.to_scale and not (node.folded or node.is_listed):
        runs.append(_CAPTION.run("  " + lettering.translated("not to scale")))
    left = spine.left
    top = spine.bottom + 1
    if spine.plate is not None:
        top = max(top, spine.plate.top + spine.plate.height)
    if not named:
        marks.draw(painter, Mark.HEEL, left + SPINE + 8, top + 2, tokens.MARK_BADGE)
        left += SPINE + 8 + tokens.MARK_BADGE + 6
    width = lettering.width(runs) + 1
    if is_last:
        left = spine.right - width
    room = QRectF(left, top, width, 20)
    if named:
        painter.fillRect(room.adjusted(0, 0, 2, 0), look.colour("sheet"))
    lettering.draw(painter, room, runs)


def _paint_heads(
    painter: QPainter, geometry: RiverGeometry, columns: tuple[RiverColumn, ...], top: float
) -> None:
    ends = columns[-1]
    lefts = [*geometry.columns, geometry.width]
    last_width = max(_STRONG.run(ends.title).width, _CAPTION.run(ends.dates).width)
    for place, (left, column) in enumerate(zip(geometry.columns, columns, strict=True)):
        last = place == len(columns) - 1 and place > 0
        side = Side.RIGHT if last else Side.LEFT
        wide = lefts[place + 1] - left - 24
        if last:
            wide = max(last_width, left - lefts[place - 1] - 24)
        elif place == len(columns) - 2:
            wide = min(wide, geometry.columns[-1] + SPINE - left - last_width - 16)
        start = left + SPINE - wide if last else left
        lettering.draw(
            painter, QRectF(start, top + 3, wide, 20), [_STRONG.run(column.title)], side
        )
        dates = [_fitting_dates(column.dates, wide)]
        lettering.draw(painter, QRectF(start, top + 22, wide, 20), dates, side)


def _fitting_dates(dates: str, room: float) -> Run:
    """The days of a column; where there is no room the year goes first; the tip has them."""
    choices = (_CAPTION.run(words) for words in (dates, _YEAR.sub("", dates)))
    return next((run for run in choices if run.width <= room), _CAPTION.run(""))


def foot_words(geometry: RiverGeometry) -> list[str]:
    """What the foot says, the longest first: the scale is said in any case."""
    scale, undrawn = geometry.scale.words, geometry.undrawn
    words = [f"{scale}. " + lettering.translated("A screen’s colour is not a reading."), scale]
    if undrawn:
        one = lettering.translated("One thread more is drawn when its lot is pointed at.")
        many = lettering.translated("{n} threads more are drawn when their lot is pointed at.")
        words.insert(0, f"{one if undrawn == 1 else many.format(n=undrawn)} {words[0]}")
    return words


def _paint_foot(painter: QPainter, geometry: RiverGeometry, seen: QRectF) -> None:
    right = min(geometry.columns[-1] + SPINE, seen.right() - SIDE)
    foot = QRectF(seen.left(), seen.bottom() - FOOT, right - seen.left(), 20)
    runs = [_CAPTION.run(one) for one in foot_words(geometry)]
    fitting = next((run for run in runs if run.width <= foot.width()), runs[-1])
    lettering.draw(painter, foot, [fitting], Side.RIGHT)


def _paint_floating(painter: QPainter, spine: PlacedSpine, geometry: RiverGeometry) -> None:
    """The label of a spine too small for one, while it is pointed at or has the keyboard."""
    node = spine.node
    line = "  ".join(part for part in (node.label, node.mass, node.share) if part)
    runs = _label_runs(node, line, first=True)
    width = lettering.width(runs) + 2 * PLATE_PAD
    left = spine.right + PLATE_PAD
    if left + width > geometry.width:
        left = spine.left - PLATE_PAD - width
    rect = QRectF(left, spine.middle - LINE / 2, width, LINE)
    painter.fillRect(rect, look.colour("sheet"))
    painter.setPen(QPen(look.colour("edge"), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(rect.adjusted(0.5, 0.5, -0.5, -0.5))
    lettering.draw(painter, rect.adjusted(PLATE_PAD, 0, 0, 0), runs)


def _paint_chosen(painter: QPainter, geometry: RiverGeometry, shown: Shown) -> None:
    chosen = geometry.spine(shown.selected) if shown.selected else None
    if chosen is not None:
        frame = QRectF(chosen.left, chosen.top, SPINE, chosen.height)
        frame.adjust(-_FRAME + 0.5, -_FRAME + 0.5, _FRAME - 0.5, _FRAME - 0.5)
        painter.setPen(QPen(look.colour("act"), 3))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(frame)
    focused = geometry.spine(shown.focused) if shown.focused else None
    if focused is not None:
        rings.draw_focus_ring(
            painter, spine_area(focused).adjusted(-5, -5, 5, 5), colour="focus", radius=4
        )


def paint_still(painter: QPainter, graph: RiverGraph, width: float, height: float) -> None:
    """Paint a river at its own size with nothing chosen, as for paper."""
    small = lettering.translated("{n} small ones")
    shown = folded_to(graph, height, small)
    # On paper nothing can be pointed at.
    geometry = replace(lay_out_river(shown, width, height, plate_measure), undrawn=0)
    painter.fillRect(QRectF(0, 0, width, geometry.height), look.colour("sheet"))
    paint_river(painter, geometry, shown.columns, Shown())


def spine_area(spine: PlacedSpine) -> QRectF:
    """A spine together with its plate."""
    area = QRectF(spine.left, spine.top, SPINE, spine.height)
    if spine.plate is not None:
        plate = spine.plate
        area = area.united(QRectF(plate.left, plate.top, plate.width, plate.height))
    return area


def plate_measure(line: str) -> float:
    """The width of a plate's line, measured in its widest hand."""
    made = lettering.runs(line, BODY)
    if len(made) == 1:
        return lettering.width([_NAME.run(line)])
    return lettering.width(made)
