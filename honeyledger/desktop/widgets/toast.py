"""The line that says what was just recorded, and offers to reverse it.

It stands over the status bar and the margin above it, so that it covers nothing a hand could be on
its way to; in a narrow window, which has no status bar, over the line.
"""

from PySide6.QtCore import QEvent, QObject, QRectF, Qt, QTimer, Signal, SignalInstance
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QMoveEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QHBoxLayout, QWidget

from honeyledger.desktop import lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.marks import COLOURS, GROUNDS, Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import BOLD, Density, Type
from honeyledger.desktop.widgets.buttons import Button, IconButton, Kind
from honeyledger.desktop.widgets.shell import Shell

STAYS_MS = 12_000
_STAYING = (Mark.REFUSED, Mark.WARNING, Mark.WORKING)


class Toast(QWidget):
    """One message for a while; the next one takes its place.

    Signals:
        acted: what the message's action is about, when it is pressed.
    """

    acted = Signal(object)

    def __init__(self, shell: Shell) -> None:
        super().__init__(shell)
        self._shell = shell
        self._message: Message | None = None
        self._waiting: Message | None = None
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 4, 4, 4)
        row.setSpacing(8)
        row.addStretch(1)
        self.action = Button("", Kind.PLAIN, density=Density.DESK)
        self.action.setFixedHeight(tokens.TARGET_LEAST)
        self.action.clicked.connect(self.act)
        self.away = IconButton("close", self.tr("Close this message"))
        self.away.clicked.connect(self.put_away)
        row.addWidget(self.action)
        row.addWidget(self.away)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(STAYS_MS)
        self._timer.timeout.connect(self._time_over)
        self.hide()
        shell.installEventFilter(self)
        shell.line.installEventFilter(self)

    def show_message(self, message: Message) -> None:
        """Say this; a refusal or a warning stays until it is put away, and a note waits for it."""
        said = self.message()
        if said is not None and said.mark is Mark.WARNING and message.mark is Mark.NOTE:
            self._waiting = message
            return
        self._message = message
        self.action.setVisible(bool(message.action))
        if message.action:
            self.action.setText(message.action)
            self.action.setFixedWidth(self.action.sizeHint().width())
        refused = message.mark is Mark.REFUSED
        self.action.set_ink("on_state" if refused else "")
        self.away.set_ink("on_state" if refused else "ink")
        self.setAccessibleName(message.sentence)
        self.setToolTip(message.sentence)
        self._place()
        self.show()
        self.raise_()
        if message.mark in _STAYING:
            self._timer.stop()
        else:
            self._timer.start()
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.Alert))
        self.update()

    def message(self) -> Message | None:
        """What is said at this moment."""
        return None if self.isHidden() else self._message

    def act(self) -> None:
        """Do what the message offers, once."""
        message = self.message()
        if message is not None and message.action:
            self.put_away()
            self.acted.emit(message.about)

    def put_away(self) -> None:
        """Take the message away."""
        self._timer.stop()
        self.hide()
        waiting, self._waiting = self._waiting, None
        if waiting is not None:
            self.show_message(waiting)

    def listen(self, failed: SignalInstance, overcome: SignalInstance) -> None:
        """Say what failed, until it matters no more."""
        failed.connect(self.show_message)
        overcome.connect(self.take_back)

    def take_back(self, message: Message) -> None:
        """Take this message away, where it is what is said."""
        if self.message() is message:
            self.put_away()

    def _time_over(self) -> None:
        # Nobody's hand or keyboard may be on it when it goes.
        if self.underMouse() or self.action.hasFocus() or self.away.hasFocus():
            self._timer.start()
        else:
            self.put_away()

    def _place(self) -> None:
        high = tokens.SLOT_HEIGHT
        if self._shell.is_narrow():
            self.setGeometry(self._shell.line.geometry())
            return
        self.setGeometry(0, self._shell.height() - high, self._shell.width(), high)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QResizeEvent | QMoveEvent):
            self._place()
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._message is None:
            return
        painter = QPainter(self)
        mark = self._message.mark
        refused = mark is Mark.REFUSED
        ground = "alert" if refused else GROUNDS.get(mark, "act_tint")
        painter.fillRect(self.rect(), look.colour(ground))
        bar = QRectF(0, 0, tokens.SELECTION_BAR, self.height())
        painter.fillRect(bar, look.colour("on_state" if refused else "act"))
        margin = float(tokens.grid(self.width()).margin)
        top = (self.height() - tokens.MARK_MESSAGE) / 2
        ink = "on_state" if refused else ""
        marks.draw(painter, mark, margin, top, tokens.MARK_MESSAGE, ink)
        left = margin + tokens.MARK_MESSAGE + 10
        end = self.action.x() if not self.action.isHidden() else self.away.x()
        lead_ink = ink or ("ink" if mark is Mark.READY else COLOURS[mark])
        words = lettering.runs(self._message.lead, Hand(Type.BODY, Density.DESK, BOLD, lead_ink))
        if self._message.text:
            rest = Hand(Type.BODY, Density.DESK, colour=ink or "ink")
            words += lettering.runs(" " + self._message.text, rest)
        lettering.draw(painter, QRectF(left, 0, end - left - 12, self.height()), words)

    def focus_action(self) -> None:
        """Put the keyboard on the offer."""
        if not self.action.isHidden():
            self.action.setFocus(Qt.FocusReason.OtherFocusReason)
