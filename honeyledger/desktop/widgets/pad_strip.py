"""The strip under the mast while entries are typed in from the paper pad: when it happened."""

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from honeyledger.desktop import look, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.fields import TextField
from honeyledger.desktop.widgets.text import Text

ASKING_HEIGHT = 96
USUAL_MIN = "30"


class PadStrip(QWidget):
    """Either asks when it happened and how sure that is, or says so.

    Signals:
        answered: the time and the minutes it may be off, as typed.
        again: another time is wanted.
        ended: what happens now is typed now.
        left: Esc: nothing changes.
    """

    answered = Signal(str, str)
    again = Signal()
    ended = Signal()
    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        tr = self.tr
        self.words = Text("", Hand(Type.BODY, Density.DESK, SEMIBOLD))
        self.time = TextField(tr("On the pad: when, such as 14:20"), density=Density.DESK)
        choices = [
            Choice("10", tr("10 min")),
            Choice(USUAL_MIN, tr("30 min")),
            Choice("60", tr("1 h")),
            Choice("240", tr("4 h")),
        ]
        self.unsure = ChoiceButtons(tr("Give or take"), choices, density=Density.DESK)
        self.other = Button(tr("Another time"), Kind.SECONDARY, density=Density.DESK)
        self.now = Button(tr("Back to now"), Kind.PLAIN, density=Density.DESK)
        self._row = QHBoxLayout(self)
        self._row.setSpacing(12)
        self._row.addWidget(self.words, 1)
        low = Qt.AlignmentFlag.AlignBottom
        self._row.addWidget(self.time, 2, low)
        self._row.addWidget(self.unsure, 3, low)
        self._row.addWidget(self.other)
        self._row.addWidget(self.now)
        self.time.submitted.connect(self.unsure.take_focus)
        self.unsure.submitted.connect(
            lambda: self.answered.emit(self.time.text(), self._minutes())
        )
        self.other.clicked.connect(self.again)
        self.now.clicked.connect(self.ended)
        self.unsure.set_key(USUAL_MIN)
        self.say("")

    def _minutes(self) -> str:
        return self.unsure.key() or USUAL_MIN

    def say(self, words: str) -> None:
        """Say when what is typed happened; "" takes the strip away."""
        self._show(asks=False, words=words)
        self.setVisible(bool(words))

    def ask(self, words: str = "") -> None:
        """Ask for the time; the words say why the last one was none."""
        self._show(asks=True, words=words)
        self.time.set_refused(bool(words))
        self.show()
        self.time.take_focus()

    def is_asking(self) -> bool:
        """Whether a time is being typed."""
        return self.time.isVisibleTo(self)

    def _show(self, *, asks: bool, words: str) -> None:
        self.words.setText(words)
        self.words.setVisible(not asks or bool(words))
        self.setAccessibleName(words)
        for field in (self.time, self.unsure):
            field.setVisible(asks)
        self.other.setVisible(not asks)
        side = tokens.PANEL_SIDE
        low = 8 if asks else 2
        self._row.setContentsMargins(side, 2, side, low)
        self.setFixedHeight(ASKING_HEIGHT if asks else tokens.MAST_HEIGHT)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            return
        super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("alert_tint"))
        bar = QRectF(0, 0, tokens.SELECTION_BAR, self.height())
        painter.fillRect(bar, look.colour("alert"))
