"""The water of a river as a picture, painted beside the window's thread.

Thousands of ribbons take longer to paint than a window may stand still. So what is seen of them,
and as much again around it, is painted in a lane; the window only puts the picture in its place.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QObject, QRect, QRectF, Signal
from PySide6.QtGui import QImage, QPainter

from honeyledger.desktop import look
from honeyledger.desktop.models.river_walk import LaidRiver
from honeyledger.desktop.tokens import Theme
from honeyledger.desktop.widgets.river_paint import paint_water

Lane = Callable[[str, Callable[[], Any], Callable[[Any], None]], None]


def at_once(_about: str, task: Callable[[], Any], then: Callable[[Any], None]) -> None:
    """A lane that is none: for a kit without a window."""
    then(task())


@dataclass(frozen=True, slots=True)
class _Wanted:
    """One picture: of which river, what of it stays lit, which part, how sharp, in which theme."""

    laid: LaidRiver
    lit: frozenset[str]
    part: QRect
    ratio: float
    theme: Theme

    def is_like(self, other: "_Wanted | None", seen: QRect) -> bool:
        """Whether another picture shows the same of what is seen."""
        return (
            other is not None
            and other.laid is self.laid
            and (other.lit, other.ratio, other.theme) == (self.lit, self.ratio, self.theme)
            and other.part.contains(seen)
        )


class RiverPicture(QObject):
    """The newest picture, and the one that is being painted.

    Signals:
        changed: another picture has come.
    """

    changed = Signal()

    def __init__(self, lane: Lane) -> None:
        super().__init__()
        self._lane = lane
        self._made: tuple[_Wanted, QImage] | None = None
        self._asked: _Wanted | None = None

    def draw(
        self,
        painter: QPainter,
        laid: LaidRiver,
        lit: frozenset[str],
        seen: QRect,
        ratio: float,
    ) -> None:
        """Draw what there is of it, and have what is missing painted."""
        whole = QRect(0, 0, round(laid.geometry.width), round(laid.geometry.height))
        seen = seen.intersected(whole)
        around = seen.adjusted(-seen.width(), -seen.height(), seen.width(), seen.height())
        wanted = _Wanted(laid, lit, around.intersected(whole), ratio, look.theme())
        if not wanted.is_like(self._asked, seen) and not seen.isEmpty():
            self._asked = wanted
            self._lane("picture", lambda: _painted(wanted), self._come)
        if self._made is not None and self._made[0].laid.whole is laid.whole:
            painter.drawImage(self._made[0].part.topLeft(), self._made[1])

    def _come(self, made: tuple[_Wanted, QImage]) -> None:
        self._made = made
        self.changed.emit()


def _painted(wanted: _Wanted) -> tuple[_Wanted, QImage]:
    """Paint a part of a river."""
    part = wanted.part
    image = QImage(part.size() * wanted.ratio, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(wanted.ratio)
    with look.worn(wanted.theme):
        image.fill(look.colour("sheet"))
        painter = QPainter(image)
        painter.translate(-part.left(), -part.top())
        paint_water(painter, wanted.laid.geometry, wanted.lit, QRectF(part))
        painter.end()
    return wanted, image
