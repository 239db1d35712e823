"""The bar at the bottom: the ledger's length and head, the last backup, the other stations."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.models.frame_facts import SEPARATOR, StatusFacts, status_choices
from honeyledger.desktop.tokens import Type

_WORDS = Hand(Type.CAPTION, colour="ink2")
_GAP = 24.0


class StatusBar(QWidget):
    """32 high, quiet; what does not fit goes from its end, and stands whole in its tip."""

    def __init__(self) -> None:
        super().__init__()
        self._facts = StatusFacts()
        self.setFixedHeight(tokens.STATUS_HEIGHT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_facts(self, facts: StatusFacts) -> None:
        """Say these."""
        self._facts = facts
        whole = SEPARATOR.join(facts.parts)
        self.setAccessibleName(whole)
        self.setToolTip(whole)
        self.update()

    def words(self) -> str:
        """What stands at the left at this width."""
        margin = tokens.grid(self.width()).margin
        units = lettering.width([_WORDS.run(self._facts.units)])
        room = self.width() - 2 * margin - units - _GAP
        choices = status_choices(self._facts.parts)
        for words in choices:
            if lettering.width([_WORDS.run(words)]) <= room:
                return words
        return choices[-1] if choices else ""

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("foot"))
        margin = tokens.grid(self.width()).margin
        rect = QRectF(self.rect()).adjusted(margin, 0, -margin, 0)
        units = [_WORDS.run(self._facts.units)]
        lettering.draw(painter, rect, units, Side.RIGHT)
        room = rect.adjusted(0, 0, -lettering.width(units) - _GAP, 0)
        lettering.draw(painter, room, [_WORDS.run(self.words())])
