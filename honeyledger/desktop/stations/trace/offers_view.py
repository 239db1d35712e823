"""Why a code was not traced, and the codes that exist and may have been meant, to press."""

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from honeyledger.desktop import look, tokens
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.desktop.widgets.text import caption
from honeyledger.domain.refusals import Refusal

MOST_OFFERS = 3


class Offers(QWidget):
    """A refusal at the top of the panel; hidden while there is none.

    Signals:
        taken: the code that was meant.
    """

    taken = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.slot = MessageSlot(density=Density.DESK)
        self._row = QWidget()
        row = QHBoxLayout(self._row)
        row.setContentsMargins(tokens.PANEL_SIDE - 1, 12, tokens.PANEL_SIDE - 1, 12)
        row.setSpacing(8)
        row.addWidget(caption(self.tr("Was it one of these?")))
        self.buttons = [
            Button("", Kind.SECONDARY, density=Density.DESK) for _ in range(MOST_OFFERS)
        ]
        for button in self.buttons:
            row.addWidget(button)
            button.clicked.connect(lambda _on=False, it=button: self.taken.emit(it.text()))
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.slot)
        column.addWidget(self._row)
        self.hide()

    def show_refusal(self, refusal: Refusal) -> None:
        """Say why, and offer what may have been meant."""
        self.slot.show_messages(
            [Message(Mark.REFUSED, self.tr("Not traced."), refusal_words(refusal))]
        )
        offers = refusal.offers[:MOST_OFFERS]
        self._row.setVisible(bool(offers))
        for at, button in enumerate(self.buttons):
            button.setVisible(at < len(offers))
            if at < len(offers):
                button.setText(offers[at])
                button.setAccessibleName(self.tr("Trace {code}").format(code=offers[at]))
        self.show()

    def take_focus(self) -> None:
        """Put the keyboard on the first offer, so that Enter takes it."""
        if not self._row.isHidden():
            self.buttons[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(QRectF(self.rect()), look.colour("sheet"))
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
