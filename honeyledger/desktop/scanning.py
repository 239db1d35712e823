"""Tells a hand scanner from a typist, by speed, whatever has the keyboard.

A scanner types a code faster than any hand and ends it with Enter or Tab. The keys of a fast burst
are held back until it is known what they are: a scan is taken out of the stream whole, its ending
key included, so that it never presses a button; anything else is given to the widget it was meant
for, in order. A double scan is reported twice; whoever receives it must not act twice.
"""

from collections.abc import Callable
from dataclasses import dataclass
from time import perf_counter

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

# Common practice, no source: keyboard-wedge scanners send a key every 1 to 20 ms, while between
# the keys of a fast typist there are 80 ms and more.
LONGEST_GAP_MS = 35.0
SHORTEST_CODE = 4

_ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab)
_SILENT = (
    Qt.Key.Key_Shift,
    Qt.Key.Key_CapsLock,
    Qt.Key.Key_Control,
    Qt.Key.Key_Alt,
    Qt.Key.Key_AltGr,
    Qt.Key.Key_NumLock,
)
_PLAIN = (
    Qt.KeyboardModifier.ShiftModifier
    | Qt.KeyboardModifier.KeypadModifier
    | Qt.KeyboardModifier.GroupSwitchModifier
)
# The separator between the elements of a GS1 string, which a scanner types as a control key.
_GROUP_SEPARATOR = "\x1d"


def monotonic_ms() -> float:
    """Milliseconds that only go forward."""
    return perf_counter() * 1000


@dataclass(slots=True)
class _Held:
    target: QWidget
    key: int
    modifiers: Qt.KeyboardModifier
    text: str
    at_ms: float


def _may_be_scanned(event: QKeyEvent) -> bool:
    """Whether a key could be part of a code: printable, not repeated by holding it down."""
    text = event.text()
    if event.isAutoRepeat() or not text:
        return False
    if text == _GROUP_SEPARATOR:
        return True
    return text.isprintable() and not event.modifiers() & ~_PLAIN


class Scanner(QObject):
    """Watches the keys of the whole application.

    Args:
        clock_ms: the time of a key that carries none, in milliseconds.

    Signals:
        scanned: the code as the scanner typed it, prefix and case included.
    """

    scanned = Signal(str)

    def __init__(
        self,
        app: QCoreApplication,
        clock_ms: Callable[[], float] = monotonic_ms,
    ) -> None:
        super().__init__(app)
        self._clock_ms = clock_ms
        self._held: list[_Held] = []
        self._giving_back = False
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.setInterval(int(LONGEST_GAP_MS) + 5)
        self._timer.timeout.connect(self.give_back)
        app.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind not in (QEvent.Type.KeyPress, QEvent.Type.ShortcutOverride):
            return False
        if self._giving_back or not isinstance(watched, QWidget):
            return False
        if not isinstance(event, QKeyEvent):
            return False
        if kind == QEvent.Type.ShortcutOverride:
            return self._override(event)
        return self._pressed(watched, event)

    def give_back(self) -> None:
        """The keys held were typed by a person: let their widgets have them."""
        self._timer.stop()
        held, self._held = self._held, []
        self._giving_back = True
        try:
            for key in held:
                if isValid(key.target):
                    again = QKeyEvent(
                        QEvent.Type.KeyPress, key.key, key.modifiers, key.text, False, 1
                    )
                    QCoreApplication.sendEvent(key.target, again)
        finally:
            self._giving_back = False

    def _time(self, event: QKeyEvent) -> float:
        """When the key was pressed, by the window system where it says so.

        Its stamp holds even when the window was busy and takes several keys at once.
        """
        stamp = event.timestamp()
        return float(stamp) if stamp else self._clock_ms()

    def _goes_on(self, at_ms: float) -> bool:
        return bool(self._held) and at_ms - self._held[-1].at_ms <= LONGEST_GAP_MS

    def _override(self, event: QKeyEvent) -> bool:
        """A key that may be scanned is never a shortcut; it comes back as a press."""
        if _may_be_scanned(event) or (event.key() in _ENDS and self._is_scan(self._time(event))):
            event.accept()
            return True
        return False

    def _is_scan(self, at_ms: float) -> bool:
        return self._goes_on(at_ms) and len(self._held) >= SHORTEST_CODE

    def _pressed(self, watched: QWidget, event: QKeyEvent) -> bool:
        at_ms = self._time(event)
        if event.key() in _SILENT:
            return False
        if _may_be_scanned(event):
            if not self._goes_on(at_ms):
                self.give_back()
            held = _Held(watched, event.key(), event.modifiers(), event.text(), at_ms)
            self._held.append(held)
            self._timer.start()
            return True
        if event.key() in _ENDS and not event.modifiers() & ~_PLAIN and self._is_scan(at_ms):
            code = "".join(key.text for key in self._held)
            self._held = []
            self._timer.stop()
            self.scanned.emit(code)
            return True
        self.give_back()
        return False
