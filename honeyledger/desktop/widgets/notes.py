"""Sentences one below the other, each with its mark: what is told whole, however long it is."""

from collections.abc import Iterable

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from honeyledger.desktop import look, marks, style, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.marks import COLOURS, GROUNDS, Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.text import Text

_GAP = 10
# Marks that say no more than the words do.
_QUIET = (Mark.READY, Mark.NOTE)


class _Note(QWidget):
    """One message: its mark, its first words, the rest below them."""

    def __init__(self, message: Message) -> None:
        super().__init__()
        self.message = message
        self.setAccessibleName(message.sentence)
        ink = "ink" if message.mark in _QUIET else COLOURS[message.mark]
        lead = Text(message.lead, Hand(Type.BODY, Density.DESK, SEMIBOLD, ink), wrap=True)
        words = QVBoxLayout()
        words.setSpacing(2)
        words.addWidget(lead)
        if message.text:
            words.addWidget(Text(message.text, Hand(Type.BODY, Density.DESK), wrap=True))
        row = QHBoxLayout(self)
        row.setContentsMargins(tokens.PANEL_SIDE - 1, _GAP, tokens.PANEL_SIDE - 1, _GAP)
        row.addSpacing(tokens.MARK_MESSAGE + _GAP)
        row.addLayout(words, 1)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        mark, rect = self.message.mark, QRectF(self.rect())
        if mark in GROUNDS:
            painter.fillRect(rect, look.colour(GROUNDS[mark]))
            bar = QRectF(0, 0, tokens.SELECTION_BAR, rect.height())
            painter.fillRect(bar, look.colour(COLOURS[mark]))
        marks.draw(painter, mark, tokens.PANEL_SIDE - 1, _GAP, tokens.MARK_MESSAGE)
        painter.setPen(QPen(look.colour("rule"), 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)


class Notes(QScrollArea):
    """Messages in the order given; they scroll where there is no room for all."""

    def __init__(self) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        sheet = QWidget()
        self._column = QVBoxLayout(sheet)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addStretch(1)
        self.setWidget(sheet)
        self.viewport().setAutoFillBackground(False)
        sheet.setAutoFillBackground(False)

    def show_messages(self, messages: Iterable[Message]) -> None:
        """Tell these and nothing else."""
        while self._column.count() > 1:
            item = self._column.takeAt(0)
            old = item.widget() if item is not None else None
            if old is not None:
                old.hide()
                old.deleteLater()
        notes = [_Note(message) for message in messages]
        for place, note in enumerate(notes):
            self._column.insertWidget(place, note)
        self.setAccessibleName("\n".join(note.message.sentence for note in notes))

    def sentences(self) -> list[str]:
        """What is told, in words."""
        items = [self._column.itemAt(at) for at in range(self._column.count())]
        notes = [item.widget() for item in items if item is not None]
        return [note.message.sentence for note in notes if isinstance(note, _Note)]
