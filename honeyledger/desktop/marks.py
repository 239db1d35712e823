"""The ten states of a thing, each a silhouette first, then a word, then a colour.

The silhouettes are drawn on a grid of 24 and must be told apart in black at 16 pixels; the words
belong to whoever shows the state.
"""

from enum import Enum
from functools import cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPainterPathStroker, QPolygonF

from honeyledger.desktop import look

GRID = 24.0


class Mark(Enum):
    """A state that is shown by a mark; worst last for those that need a person."""

    READY = "ready"
    WORKING = "working"
    REVERSED = "reversed"
    HEEL = "heel"
    NOTE = "note"
    WAITING = "waiting"
    OFFLINE = "offline"
    WARNING = "warning"
    HOLD = "hold"
    REFUSED = "refused"

    __hash__ = object.__hash__  # a member is equal to itself alone


COLOURS = {
    Mark.READY: "ink",
    Mark.WORKING: "ink2",
    Mark.REVERSED: "ink2",
    Mark.HEEL: "ink",
    Mark.NOTE: "act",
    Mark.WAITING: "alert",
    Mark.OFFLINE: "alert",
    Mark.WARNING: "alert",
    Mark.HOLD: "hold",
    Mark.REFUSED: "alert",
}
# The ink of a state's own ground, where it fills one (a badge, a refusal).
GROUNDS = {Mark.WARNING: "alert_tint", Mark.WAITING: "alert_tint", Mark.HOLD: "hold_tint"}


def _polygon(*points: tuple[float, float]) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
    path.closeSubpath()
    return path


def _stroked(path: QPainterPath, width: float, *, flat: bool = True) -> QPainterPath:
    stroker = QPainterPathStroker()
    stroker.setWidth(width)
    cap = Qt.PenCapStyle.FlatCap if flat else Qt.PenCapStyle.SquareCap
    stroker.setCapStyle(cap)
    stroker.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    return stroker.createStroke(path)


def _open_line(*points: tuple[float, float]) -> QPainterPath:
    path = QPainterPath(QPointF(*points[0]))
    for x, y in points[1:]:
        path.lineTo(x, y)
    return path


def _disc(x: float, y: float, radius: float) -> QPainterPath:
    path = QPainterPath()
    path.addEllipse(QPointF(x, y), radius, radius)
    return path


def _box(x: float, y: float, width: float, height: float) -> QPainterPath:
    path = QPainterPath()
    path.addRect(QRectF(x, y, width, height))
    return path


def _ready() -> QPainterPath:
    return _stroked(_open_line((3.2, 12.4), (9.4, 18.6), (20.8, 5.6)), 3)


def _working() -> QPainterPath:
    return _disc(4, 12, 2.7).united(_disc(12, 12, 2.7)).united(_disc(20, 12, 2.7))


def _reversed() -> QPainterPath:
    shaft = QPainterPath(QPointF(19.5, 21))
    shaft.lineTo(19.5, 14)
    shaft.arcTo(QRectF(9.5, 9, 10, 10), 0, 90)
    shaft.lineTo(6, 9)
    head = _open_line((10.6, 2.9), (4.5, 9), (10.6, 15.1))
    return _stroked(shaft, 2.6).united(_stroked(head, 2.6))


def _heel() -> QPainterPath:
    return _box(2.5, 6.5, 19, 3.4).united(_box(2.5, 14.1, 19, 3.4))


def _note() -> QPainterPath:
    ring = _disc(12, 12, 10).subtracted(_disc(12, 12, 7.8))
    return ring.united(_disc(12, 12, 3))


def _waiting() -> QPainterPath:
    return _polygon(
        (4, 1.5), (20, 1.5), (20, 5), (13.6, 12), (20, 19), (20, 22.5),
        (4, 22.5), (4, 19), (10.4, 12), (4, 5),
    )  # fmt: skip


def _offline() -> QPainterPath:
    ring = _disc(12, 12, 9.6).subtracted(_disc(12, 12, 7.1))
    gap = _stroked(_open_line((1, 23), (23, 1)), 8)
    slash = _stroked(_open_line((3.2, 20.8), (20.8, 3.2)), 2.6)
    return ring.subtracted(gap).united(slash)


def _warning() -> QPainterPath:
    body = _polygon((12, 1.2), (23.4, 21.6), (0.6, 21.6))
    return body.subtracted(_box(10.75, 8.2, 2.5, 6.6)).subtracted(_box(10.75, 16.6, 2.5, 2.5))


def _hold() -> QPainterPath:
    far, near = 11.0, 4.56
    body = _polygon(
        (12 - near, 12 - far), (12 + near, 12 - far), (12 + far, 12 - near),
        (12 + far, 12 + near), (12 + near, 12 + far), (12 - near, 12 + far),
        (12 - far, 12 + near), (12 - far, 12 - near),
    )  # fmt: skip
    return body.subtracted(_box(7.6, 6.6, 2.9, 10.8)).subtracted(_box(13.5, 6.6, 2.9, 10.8))


def _refused() -> QPainterPath:
    cross = _stroked(_open_line((6.6, 6.6), (17.4, 17.4)), 2.8)
    cross = cross.united(_stroked(_open_line((17.4, 6.6), (6.6, 17.4)), 2.8))
    return _box(2, 2, 20, 20).subtracted(cross)


_DRAWN = {
    Mark.READY: _ready,
    Mark.WORKING: _working,
    Mark.REVERSED: _reversed,
    Mark.HEEL: _heel,
    Mark.NOTE: _note,
    Mark.WAITING: _waiting,
    Mark.OFFLINE: _offline,
    Mark.WARNING: _warning,
    Mark.HOLD: _hold,
    Mark.REFUSED: _refused,
}


@cache
def silhouette(mark: Mark) -> QPainterPath:
    """The mark's shape on the grid of 24, cut-outs included, ready to be filled."""
    return _DRAWN[mark]()


def draw(
    painter: QPainter, mark: Mark, left: float, top: float, size: float, colour: str = ""
) -> None:
    """Fill a mark in a square of that size, in its own colour unless another is named."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(left, top)
    painter.scale(size / GRID, size / GRID)
    painter.fillPath(silhouette(mark), look.colour(colour or COLOURS[mark]))
    painter.restore()


def severity(mark: Mark) -> int:
    """How much a state needs a person; larger is worse."""
    return list(Mark).index(mark)
