"""The channel of the line: one unbroken band whose thickness and colour are today's flows."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QLinearGradient, QPainter, QPainterPath, QPen

from honeyledger.desktop import colouring, honey_paint, look
from honeyledger.desktop.models.line_layout import EASE, THINNEST, Piece, eased

_SAMPLES = 12


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece as it is drawn at one moment of a change: where, how thick, which honey."""

    left: float
    right: float
    thickness: float
    kind: str
    mm: float | None


def stretches(pieces: Sequence[Piece]) -> list[Stretch]:
    """The pieces at rest."""
    return [
        Stretch(
            piece.left,
            piece.right,
            float(piece.thickness),
            "empty"
            if piece.is_empty
            else "honey"
            if piece.flow.pfund_mm is not None
            else "unread",
            None if piece.is_empty else piece.flow.pfund_mm,
        )
        for piece in pieces
    ]


def between(before: Sequence[Stretch], after: Sequence[Stretch], share: float) -> list[Stretch]:
    """A share of the way from one state of the channel to the next."""
    made: list[Stretch] = []
    for old, new in zip(before, after, strict=True):
        mm = new.mm
        if old.mm is not None and new.mm is not None:
            mm = old.mm + (new.mm - old.mm) * share
        thick = old.thickness + (new.thickness - old.thickness) * share
        made.append(Stretch(new.left, new.right, thick, new.kind, mm))
    return made


def draw_channel(painter: QPainter, channel: Sequence[Stretch], middle: float) -> None:
    """Draw the whole channel about a middle line."""
    painter.save()
    for kind, group in groupby(channel, key=lambda stretch: stretch.kind):
        run = list(group)
        if kind == "empty":
            _draw_empty(painter, run, middle)
        else:
            opens = run[0].left > channel[0].left
            closes = run[-1].right < channel[-1].right
            path = channel_path(run, middle, opens=opens, closes=closes)
            _fill(painter, path, run)
    painter.restore()


def _draw_empty(painter: QPainter, run: Sequence[Stretch], middle: float) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setPen(QPen(look.colour("edge"), 1))
    for offset in (-THINNEST / 2, THINNEST / 2 - 1):
        y = middle + offset
        painter.drawLine(QPointF(run[0].left, y), QPointF(run[-1].right - 1, y))


def channel_path(
    run: Sequence[Stretch], middle: float, *, opens: bool, closes: bool
) -> QPainterPath:
    """The outline of stretches that touch; it thins where it meets a stretch without flow."""
    points = _outline(run, opens=opens, closes=closes)
    path = QPainterPath()
    first, *rest = points
    path.moveTo(first[0], middle - first[1])
    for x, half in rest:
        path.lineTo(x, middle - half)
    for x, half in reversed(points):
        path.lineTo(x, middle + half)
    path.closeSubpath()
    return path


def _outline(run: Sequence[Stretch], *, opens: bool, closes: bool) -> list[tuple[float, float]]:
    """Points along the channel with half its thickness at each, the edge's half pixel inside."""
    thin = float(THINNEST)
    points: list[tuple[float, float]] = []
    start = run[0]
    if opens:
        points += _ramp(start.left, start.left + EASE, thin, start.thickness)
    else:
        points.append((start.left + 0.5, start.thickness))
    for one, other in pairwise(run):
        reach = EASE / 2
        points += _ramp(one.right - reach, one.right + reach, one.thickness, other.thickness)
    end = run[-1]
    if closes:
        points += _ramp(end.right - EASE, end.right, end.thickness, thin)
    else:
        points.append((end.right - 0.5, end.thickness))
    return [(x, thick / 2 - 0.5) for x, thick in points]


def _ramp(left: float, right: float, start: float, end: float) -> list[tuple[float, float]]:
    if start == end:
        return [(left, start)]
    return [
        (left + (right - left) * step / _SAMPLES, start + (end - start) * eased(step / _SAMPLES))
        for step in range(_SAMPLES + 1)
    ]


def _fill(painter: QPainter, path: QPainterPath, run: Sequence[Stretch]) -> None:
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if run[0].kind == "unread":
        painter.fillPath(path, look.colour("well"))
        honey_paint.hatch(painter, path, "edge")
        painter.strokePath(path, QPen(look.colour("edge"), 1))
        return
    painter.fillPath(path, _gradient(run))
    painter.setPen(QPen(look.colour("honey_edge"), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(path)


def _gradient(run: Sequence[Stretch]) -> QBrush:
    left, right = run[0].left, run[-1].right
    gradient = QLinearGradient(left, 0, right, 0)
    span = right - left
    for place, stretch in enumerate(run):
        colour = look.colour(colouring.pfund_colour(stretch.mm or 0.0))
        begin = stretch.left if place == 0 else stretch.left + EASE / 2
        end = stretch.right if place == len(run) - 1 else stretch.right - EASE / 2
        gradient.setColorAt(min(1.0, max(0.0, (begin - left) / span)), colour)
        gradient.setColorAt(min(1.0, max(0.0, (end - left) / span)), colour)
    return QBrush(gradient)


def draw_gap(painter: QPainter, rect: QRectF, stretch: Stretch, middle: float) -> None:
    """The bit of channel seen between two places where mast and line are one row."""
    bit = Stretch(rect.left(), rect.right(), stretch.thickness, stretch.kind, stretch.mm)
    # The ends of the bit lie beyond the gap, so that it is seen to go on behind the places.
    long = replace(bit, left=bit.left - 2, right=bit.right + 2)
    painter.save()
    painter.setClipRect(rect)
    draw_channel(painter, [long], middle)
    painter.restore()
