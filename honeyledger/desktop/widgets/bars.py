"""A few figures as bars on one scale, each with its name and its value: read before looked at."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type

PITCH, BAR = 24, 12
_HEAD = 28
_SIDE = 19
_SMALL = Hand(Type.CAPTION, colour="ink2")
_STRONG = Hand(Type.CAPTION, weight=SEMIBOLD)
_VALUE = Hand(Type.BODY, Density.DESK)


@dataclass(frozen=True, slots=True)
class BarRow:
    """A bar: its name, its value in words, how long it is; the first one is the one in hand."""

    name: str
    words: str
    value: float


class Bars(QWidget):
    """Bars under a heading, under a hairline."""

    def __init__(self) -> None:
        super().__init__()
        self._heading = ""
        self._rows: Sequence[BarRow] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_bars(self, heading: str, rows: Sequence[BarRow]) -> None:
        """Show these."""
        self._heading, self._rows = heading, tuple(rows)
        self.setAccessibleName(heading)
        self.setAccessibleDescription(", ".join(f"{row.name}: {row.words}" for row in rows))
        self.updateGeometry()
        self.update()

    def rows(self) -> tuple[BarRow, ...]:
        """The bars that are shown."""
        return tuple(self._rows)

    def sizeHint(self) -> QSize:
        return QSize(320, _HEAD + PITCH * len(self._rows) + 8)

    def minimumSizeHint(self) -> QSize:
        return QSize(160, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, 0, self.width(), 0)
        width = self.width() - 2 * _SIDE
        head = QRectF(_SIDE, 5, width, 20)
        lettering.draw(painter, head, [_STRONG.run(self._heading)])
        if not self._rows:
            return
        names = max(lettering.width([_SMALL.run(row.name)]) for row in self._rows) + 12
        values = max(lettering.width([_VALUE.run(row.words)]) for row in self._rows) + 12
        room = max(0.0, width - names - values)
        most = max(row.value for row in self._rows) or 1
        for at, row in enumerate(self._rows):
            top = float(_HEAD + at * PITCH)
            name = QRectF(_SIDE, top, names, PITCH)
            lettering.draw(painter, name, [(_SMALL if at else _STRONG).run(row.name)], Side.LEFT)
            long = room * row.value / most
            bar = QRectF(_SIDE + names, top + (PITCH - BAR) / 2, long, BAR)
            painter.fillRect(bar, look.colour("ink2" if at else "act"))
            words = QRectF(_SIDE + names + long + 8, top, values, PITCH)
            lettering.draw(painter, words, [_VALUE.run(row.words)], Side.LEFT)
