"""The bar at the top: the house's name, the scan box, and who works where."""

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.models.frame_facts import SEPARATOR, MastFacts, mast_choices
from honeyledger.desktop.tokens import BOLD, Density, Type
from honeyledger.desktop.widgets.scan_box import ScanBox

_HOUSE = Hand(Type.BODY, weight=BOLD, colour="on_mast")
_SIDE = Hand(Type.BODY, Density.DESK, colour="on_mast")
_GAP = 28.0
_SCAN_LEAST = 240.0
_SCAN_MOST = 480.0
_HOUSE_MOST = 0.3


class _Side(QAbstractButton):
    """What answers to a press on the words at the right end; the mast paints them."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The mast paints the words, the style the ring."""


class Mast(QWidget):
    """48 high and darker than the page in both themes.

    Signals:
        side_pressed: the words at the right end were pressed: who works here.
    """

    side_pressed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._facts = MastFacts("")
        self.setProperty("on_mast", True)
        self.scan_box = ScanBox()
        self.scan_box.setParent(self)
        self.side = _Side(self)
        self.side.setCursor(Qt.CursorShape.PointingHandCursor)
        self.side.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.side.clicked.connect(self.side_pressed)
        self.setFixedHeight(tokens.MAST_HEIGHT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_facts(self, facts: MastFacts) -> None:
        """Say whose house it is and who works where."""
        self._facts = facts
        whole = SEPARATOR.join([facts.house, mast_choices(facts)[0]])
        self.setAccessibleName(whole)
        self.setToolTip(whole)
        self._lay_out()

    def _margin(self) -> float:
        return float(tokens.grid(self.width()).margin)

    def _house_width(self) -> float:
        words = lettering.width([_HOUSE.run(self._facts.house)])
        return min(words, self.width() * _HOUSE_MOST)

    def _lay_out(self) -> None:
        left = self._margin() + self._house_width() + _GAP
        wide = min(_SCAN_MOST, max(_SCAN_LEAST, self.width() * 0.33))
        top = (tokens.MAST_HEIGHT - tokens.TARGET_LEAST) // 2
        self.scan_box.setGeometry(int(left), top, int(wide), tokens.TARGET_LEAST)
        words = lettering.width([_SIDE.run(self.side_words())])
        reach = max(float(tokens.TARGET_LEAST), words) + 16
        start = self.width() - self._margin() - reach + 8
        self.side.setGeometry(int(start), top, int(reach), tokens.TARGET_LEAST)
        self.side.setAccessibleName(self.side_words())
        self.update()

    def side_words(self) -> str:
        """What stands at the right end at this width."""
        room = self.width() - self._margin() - self.scan_box.geometry().right() - _GAP
        choices = mast_choices(self._facts)
        for words in choices:
            if lettering.width([_SIDE.run(words)]) <= room:
                return words
        return choices[-1]

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("mast"))
        margin = self._margin()
        house = QRectF(margin, 0, self._house_width() + 1, self.height())
        lettering.draw(painter, house, [_HOUSE.run(self._facts.house)])
        left = self.scan_box.geometry().right() + _GAP
        side = QRectF(left, 0, self.width() - margin - left, self.height())
        lettering.draw(painter, side, [_SIDE.run(self.side_words())], Side.RIGHT)
