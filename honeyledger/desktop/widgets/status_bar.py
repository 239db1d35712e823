"""The bar at the bottom: what needs a person, the ledger's length and head, backup, stations."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from honeyledger.desktop import lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.frame_facts import SEPARATOR, StatusFacts, status_choices
from honeyledger.desktop.tokens import SEMIBOLD, Type

_WORDS = Hand(Type.CAPTION, colour="ink2")
_ALERT = Hand(Type.CAPTION, weight=SEMIBOLD, colour="alert")
_GAP = 24.0
_MARK_ROOM = tokens.MARK_BADGE + 6.0


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
        whole = SEPARATOR.join(part for part in (facts.alert, *facts.parts) if part)
        self.setAccessibleName(whole)
        self.setToolTip(whole)
        self.update()

    def _room(self) -> float:
        margin = tokens.grid(self.width()).margin
        units = lettering.width([_WORDS.run(self._facts.units)])
        return self.width() - 2 * margin - units - _GAP

    def _alert_width(self) -> float:
        """The room that what needs a person takes, with its mark and the gap after it."""
        if not self._facts.alert:
            return 0.0
        words = lettering.width([_ALERT.run(self._facts.alert)])
        return min(words + _MARK_ROOM + _GAP, self._room())

    def words(self) -> str:
        """What stands at the left at this width, after what needs a person."""
        room = self._room() - self._alert_width()
        choices = status_choices(self._facts.parts)
        for words in choices:
            if lettering.width([_WORDS.run(words)]) <= room:
                return words
        return choices[-1] if choices and not self._facts.alert else ""

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("foot"))
        margin = tokens.grid(self.width()).margin
        rect = QRectF(self.rect()).adjusted(margin, 0, -margin, 0)
        units = [_WORDS.run(self._facts.units)]
        lettering.draw(painter, rect, units, Side.RIGHT)
        rect.setWidth(self._room())
        if self._facts.alert:
            top = rect.center().y() - tokens.MARK_BADGE / 2
            marks.draw(painter, Mark.WARNING, rect.left(), top, tokens.MARK_BADGE)
            alert = rect.adjusted(_MARK_ROOM, 0, 0, 0)
            lettering.draw(painter, alert, [_ALERT.run(self._facts.alert)])
        rest = rect.adjusted(self._alert_width(), 0, 0, 0)
        lettering.draw(painter, rest, [_WORDS.run(self.words())])
