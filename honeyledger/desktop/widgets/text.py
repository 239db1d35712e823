"""Words on a page: a sentence in one of the six sizes, on one line or wrapped.

A line that does not fit is cut at its least needed end and says the whole in its tip; its name for
a screen reader is always the whole.
"""

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from honeyledger.desktop import lettering
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type


class Text(QLabel):
    """A sentence; codes in it are set as codes."""

    def __init__(
        self,
        text: str = "",
        hand: Hand | None = None,
        *,
        side: Side = Side.LEFT,
        wrap: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._hand = hand or Hand()
        self._side = side
        self._wrap = wrap
        # Layouts ask for the height again and again, and breaking a sentence takes a while.
        self._heights: dict[float, int] = {}
        upright = QSizePolicy.Policy.Preferred if wrap else QSizePolicy.Policy.Fixed
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, upright)
        policy.setHeightForWidth(wrap)
        # QLabel itself asks for a height by width only when it wraps.
        self.setWordWrap(wrap)
        self.setSizePolicy(policy)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setText(text)

    def setText(self, text: str) -> None:
        super().setText(text)
        self._heights = {}
        self.setAccessibleName(text)
        self.updateGeometry()
        self._tell_whole()

    def set_hand(self, hand: Hand) -> None:
        """Write it in another size, weight or colour."""
        self._hand = hand
        self._heights = {}
        self.updateGeometry()
        self.update()

    def is_cut(self) -> bool:
        """Whether part of the text is not seen."""
        if self._wrap:
            return self._lines_height(self.width()) > self.height()
        return lettering.width(lettering.runs(self.text(), self._hand)) > self.width() + 0.5

    def _lines_height(self, width: float) -> int:
        if width not in self._heights:
            lines = lettering.wrapped(self.text(), self._hand, width)
            self._heights[width] = len(lines) * self._hand.line
        return self._heights[width]

    def sizeHint(self) -> QSize:
        line = lettering.width(lettering.runs(self.text(), self._hand))
        return QSize(int(line) + 1, self._hand.line)

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self._hand.line)

    def heightForWidth(self, width: int) -> int:
        return self._lines_height(width) if self._wrap else self._hand.line

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._tell_whole()

    def _tell_whole(self) -> None:
        self.setToolTip(self.text() if self.is_cut() else "")

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        if not self._wrap:
            line = lettering.runs(self.text(), self._hand)
            lettering.draw(painter, QRectF(self.rect()), line, self._side)
            return
        top = 0.0
        for line in lettering.wrapped(self.text(), self._hand, self.width()):
            lettering.draw(
                painter, QRectF(0, top, self.width(), self._hand.line), line, self._side
            )
            top += self._hand.line

    def changeEvent(self, event: QEvent) -> None:
        if event.type() == QEvent.Type.PaletteChange:
            self.update()
        super().changeEvent(event)


def caption(text: str = "", *, strong: bool = False, side: Side = Side.LEFT) -> Text:
    """A label, a unit or a note, in the smallest size there is."""
    weight = SEMIBOLD if strong else None
    return Text(text, Hand(Type.CAPTION, weight=weight, colour="ink2"), side=side)


def body(text: str = "", density: Density = Density.FLOOR, *, wrap: bool = False) -> Text:
    """A sentence."""
    return Text(text, Hand(Type.BODY, density), wrap=wrap)


def title(text: str = "", density: Density = Density.FLOOR) -> Text:
    """A panel's heading, or the answer a page gives."""
    return Text(text, Hand(Type.TITLE, density))
