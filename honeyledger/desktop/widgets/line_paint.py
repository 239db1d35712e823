"""How places, badges and tools of the line are painted on their geometry."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from honeyledger.desktop import icons, lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Run, Side
from honeyledger.desktop.marks import COLOURS
from honeyledger.desktop.models import line_layout
from honeyledger.desktop.models.line_figures import Badge, PlaceFigure, figure_words
from honeyledger.desktop.models.line_layout import Box, LineGeometry, PlaceBox, Shown
from honeyledger.desktop.tokens import BOLD, SEMIBOLD, Type

_NAME = Hand(Type.CAPTION, weight=SEMIBOLD, colour="ink2")
_UNIT = Hand(Type.CAPTION, colour="ink2")
_COUNT = Hand(Type.CAPTION, weight=SEMIBOLD, colour="on_state")
_FIGURE = Hand(Type.TITLE)
_SMALL_FIGURE = Hand(Type.BODY, weight=BOLD)
_OPEN_BAR = 4
_MOST_BADGES = 2


def rect_of(box: Box) -> QRectF:
    """A box as Qt's rectangle."""
    return QRectF(box.left, box.top, box.width, box.height)


def paint_ground(painter: QPainter, box: Box, *, is_open: bool, hovered: bool) -> None:
    """The open place opens into the page; a hovered one is lit."""
    rect = rect_of(box)
    if is_open:
        painter.fillRect(rect, look.colour("ground"))
        bar = QRectF(rect.left(), rect.top(), rect.width(), _OPEN_BAR)
        painter.fillRect(bar, look.colour("act"))
    elif hovered:
        painter.fillRect(rect.adjusted(0, 0, 0, -1), look.colour("well"))


def figure_runs(
    place: PlaceFigure, geometry: LineGeometry, shown: Shown, room: float
) -> list[Run]:
    """A place's figure and unit, in the sizes its room allows; the unit goes before it is cut."""
    figure, unit = figure_words(place, short=geometry.short_figures, qualified=shown is Shown.FULL)
    large = _FIGURE if shown in (Shown.FULL, Shown.USUAL) else _SMALL_FIGURE
    runs = [large.run(figure), _UNIT.run("\u00a0" + unit)]
    if lettering.width(runs) <= room:
        return runs
    plain = [large.run(figure), _UNIT.run("\u00a0" + place.unit)]
    return plain if lettering.width(plain) <= room else runs[:1]


def paint_words(
    painter: QPainter, place: PlaceFigure, box: PlaceBox, geometry: LineGeometry
) -> None:
    """A place's name above its figure."""
    column = box.column
    name = QRectF(column.left, line_layout.NAME_TOP, column.width, line_layout.NAME_LINE)
    lettering.draw(painter, name, [_NAME.run(place.name)])
    top, line = line_layout.FIGURE_TOP, line_layout.FIGURE_LINE
    room = QRectF(column.left, top, column.width + 6, line)
    lettering.draw(painter, room, figure_runs(place, geometry, box.shown, room.width()))


def badge_width(badge: Badge) -> float:
    """How wide a badge is: its mark, its count, and the round ends."""
    return 8 + tokens.MARK_BADGE + 4 + lettering.width([_COUNT.run(str(badge.count))]) + 8


def paint_badge(painter: QPainter, badge: Badge, left: float, middle: float) -> float:
    """A badge like a closed valve on the channel; gives back where it ends."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    width = badge_width(badge)
    high = float(tokens.BADGE_HEIGHT)
    rect = QRectF(left, middle - high / 2, width, high)
    halo = float(tokens.BADGE_HALO)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("band"))
    outer = rect.adjusted(-halo, -halo, halo, halo)
    painter.drawRoundedRect(outer, high / 2 + halo, high / 2 + halo)
    painter.setBrush(look.colour(COLOURS[badge.mark]))
    painter.drawRoundedRect(rect, high / 2, high / 2)
    marks.draw(
        painter,
        badge.mark,
        rect.left() + 8,
        middle - tokens.MARK_BADGE / 2,
        tokens.MARK_BADGE,
        "on_state",
    )
    words = QRectF(rect.left() + 8 + tokens.MARK_BADGE + 4, rect.top(), width, high)
    lettering.draw(painter, words, [_COUNT.run(str(badge.count))])
    painter.restore()
    return rect.right()


def paint_badges(painter: QPainter, place: PlaceFigure, left: float, middle: float) -> None:
    """The worst two badges side by side."""
    for badge in place.badges[:_MOST_BADGES]:
        left = paint_badge(painter, badge, left, middle) + 6


def paint_narrow(
    painter: QPainter, place: PlaceFigure, box: PlaceBox, geometry: LineGeometry
) -> None:
    """A place where mast and line are one row of 56."""
    column = rect_of(box.column)
    if box.shown is Shown.ICON:
        _paint_icon(painter, place, column)
        return
    pad = 8.0 if box.shown is Shown.OPEN_NARROW else 2.0
    inner = column.adjusted(pad, 0, -pad, 0)
    name = QRectF(inner.left(), 7, inner.width(), line_layout.NAME_LINE)
    lettering.draw(painter, name, [_NAME.run(place.name)])
    under = QRectF(inner.left(), 27, inner.width(), 24)
    has_badge = bool(place.badges)
    if box.shown is Shown.NAME_OR_FIGURE and has_badge:
        paint_badge(painter, place.badges[0], inner.left(), under.center().y())
        return
    if box.shown is Shown.OPEN_NARROW and has_badge:
        width = badge_width(place.badges[0])
        paint_badge(painter, place.badges[0], inner.right() - width, under.center().y())
        under.setRight(inner.right() - width - 4)
    lettering.draw(painter, under, figure_runs(place, geometry, box.shown, under.width()))


def _paint_icon(painter: QPainter, place: PlaceFigure, column: QRectF) -> None:
    left = column.center().x() - 12
    if not place.badges:
        icons.draw(painter, place.key, left, column.center().y() - 12, 24)
        return
    icons.draw(painter, place.key, left, 4, 24)
    badge = place.badges[0]
    paint_badge(painter, badge, column.center().x() - badge_width(badge) / 2, 42)


def paint_tool(
    painter: QPainter, box: Box, icon: str, name: str, *, is_open: bool, named: bool
) -> None:
    """A tool: its icon above its word, no outline."""
    rect = rect_of(box)
    top = 18.0 if named else rect.center().y() - 12
    icons.draw(painter, icon, rect.center().x() - 12, top, 24)
    if not named:
        return
    weight = SEMIBOLD if is_open else None
    run = Hand(Type.CAPTION, weight=weight).run(name)
    words = QRectF(rect.left() - 4, 51, rect.width() + 8, 20)
    lettering.draw(painter, words, [run], Side.CENTRE)


def paint_rules(painter: QPainter, geometry: LineGeometry, open_box: Box | None) -> None:
    """The hairline under the strip, left out beneath the open place, and the tools' upright."""
    painter.setPen(QPen(look.colour("rule"), 1))
    y = geometry.height - 0.5
    left, right = (open_box.left, open_box.right) if open_box else (0.0, 0.0)
    painter.drawLine(QPointF(0, y), QPointF(max(0.0, left), y))
    painter.drawLine(QPointF(right, y), QPointF(geometry.width, y))
    if not geometry.is_narrow:
        x = geometry.rule_x + 0.5
        painter.drawLine(QPointF(x, 14), QPointF(x, geometry.height - 14))
