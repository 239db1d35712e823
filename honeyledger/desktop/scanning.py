"""Tells a hand scanner from a typist, by speed, whatever has the keyboard.

A scanner types a code faster than any hand and ends it with Enter or Tab. The keys of a fast burst
are held back, their releases with them, until it is known what they are: a scan is taken out of
the stream whole, its ending key included, so that it never presses a button; anything else is
given to the widget it was meant for, in order. A double scan is reported twice; whoever receives
it must not act twice.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from time import perf_counter

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

# Common practice, no source: keyboard-wedge scanners send a key every 1 to 20 ms, while between
# the keys of a fast typist there are 80 ms and more.
LONGEST_GAP_MS = 35.0
# Nobody types four keys in a row so fast. What does may falter, as a scanner by radio will, and is
# still not a hand; the Enter of such a scan must not press a button either.
LONGEST_FALTER_MS = 120.0
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
_WATCHED = (QEvent.Type.KeyPress, QEvent.Type.KeyRelease, QEvent.Type.ShortcutOverride)
# The separator between the elements of a GS1 string, which a scanner types as a control key.
_GROUP_SEPARATOR = "\x1d"


def monotonic_ms() -> float:
    """Milliseconds that only go forward."""
    return perf_counter() * 1000


@dataclass(frozen=True, slots=True)
class Scan:
    """How a scan came: what was typed, how long it took, and the key that ended it."""

    text: str
    took_ms: float
    end: str


@dataclass(slots=True)
class _Held:
    """A press, or the release of one, on its way to a widget."""

    target: QWidget
    kind: QEvent.Type
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


def _may_end(event: QKeyEvent) -> bool:
    return event.key() in _ENDS and not event.modifiers() & ~_PLAIN


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
        self._presses = 0
        self._last_ms = float("-inf")
        # Keys of scans whose release is still to come, and when the last scan ended.
        self._taken: set[int] = set()
        self._ended_ms = float("-inf")
        self._giving_back = self._is_stopped = False
        self.last: Scan | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        # A busy window hears of its timer before the keys that came meanwhile: those go first.
        self._no_more = QTimer(self)
        self._no_more.setSingleShot(True)
        self._no_more.setInterval(0)
        self._timer.timeout.connect(self._no_more.start)
        self._no_more.timeout.connect(self.give_back)
        self._app = app
        self._rests = 0
        app.installEventFilter(self)

    @contextmanager
    def resting(self) -> Iterator[None]:
        """See nothing meanwhile: making a page sends thousands of events, none of them a key."""
        self._rests += 1
        self._app.removeEventFilter(self)
        try:
            yield
        finally:
            self._rests -= 1
            if not (self._rests or self._is_stopped):
                self._app.installEventFilter(self)

    def is_listening(self) -> bool:
        """Whether it takes keys: not any more once its window is closed."""
        return not self._is_stopped

    def stop(self) -> None:
        """See no key any more, whatever page is still being made: its window is gone."""
        self._is_stopped = True
        self._wait(0)
        self._take_held()
        self._app.removeEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # Every event of the program comes by here: what kind it is, is asked of keys alone.
        if not isinstance(event, QKeyEvent) or self._giving_back:
            return False
        kind = event.type()
        if kind not in _WATCHED or not isinstance(watched, QWidget):
            return False
        if kind == QEvent.Type.ShortcutOverride:
            return self._override(event)
        if kind == QEvent.Type.KeyRelease:
            return self._released(watched, event)
        return self._pressed(watched, event)

    def last_scan(self) -> Scan | None:
        """How the last scan came; None before the first."""
        return self.last

    def give_back(self) -> None:
        """The keys held were typed by a person: let their widgets have them."""
        self._wait(0)
        held = self._take_held()
        self._giving_back = True
        try:
            for key in held:
                if isValid(key.target):
                    again = QKeyEvent(key.kind, key.key, key.modifiers, key.text, False, 1)
                    QCoreApplication.sendEvent(key.target, again)
        finally:
            self._giving_back = False

    def _wait(self, ms: int) -> None:
        """Wait so long for another key; 0 for none."""
        self._no_more.stop()
        if ms:
            self._timer.start(ms)
        else:
            self._timer.stop()

    def _take_held(self) -> list[_Held]:
        held, self._held, self._presses = self._held, [], 0
        return held

    def _time(self, event: QKeyEvent) -> float:
        """When the key was pressed, by the window system where it says so.

        Its stamp holds even when the window was busy and takes several keys at once.
        """
        stamp = event.timestamp()
        return float(stamp) if stamp else self._clock_ms()

    def _longest_gap_ms(self) -> float:
        return LONGEST_FALTER_MS if self._presses >= SHORTEST_CODE else LONGEST_GAP_MS

    def _goes_on(self, at_ms: float) -> bool:
        return self._presses > 0 and at_ms - self._last_ms <= self._longest_gap_ms()

    def _override(self, event: QKeyEvent) -> bool:
        """A key that may be scanned is never a shortcut; it comes back as a press."""
        if _may_be_scanned(event) or (_may_end(event) and self._ends_a_scan(self._time(event))):
            event.accept()
            return True
        return False

    def _ends_a_scan(self, at_ms: float) -> bool:
        """Whether an ending key is the scanner's; a second one behind it (CR and LF) is, too."""
        if at_ms - self._ended_ms <= LONGEST_GAP_MS and not self._presses:
            return True
        return self._goes_on(at_ms) and self._presses >= SHORTEST_CODE

    def _pressed(self, watched: QWidget, event: QKeyEvent) -> bool:
        at_ms = self._time(event)
        if event.key() in _SILENT:
            return False
        self._taken.discard(event.key())
        if _may_be_scanned(event):
            if not self._goes_on(at_ms):
                self.give_back()
            self._hold(watched, event, at_ms)
            self._presses += 1
            self._last_ms = at_ms
            self._wait(int(self._longest_gap_ms()) + 5)
            return True
        if _may_end(event) and self._ends_a_scan(at_ms):
            self._ended_ms = at_ms
            self._taken.add(event.key())
            self._take_scan(event, at_ms)
            return True
        self.give_back()
        return False

    def _released(self, watched: QWidget, event: QKeyEvent) -> bool:
        """A release follows its press: into the widget, or out of the stream with the scan."""
        if event.isAutoRepeat() or event.key() in _SILENT:
            return False
        if event.key() in self._taken:
            self._taken.discard(event.key())
            return True
        if not any(one.key == event.key() for one in self._held):
            return False
        self._hold(watched, event, self._time(event))
        return True

    def _hold(self, watched: QWidget, event: QKeyEvent, at_ms: float) -> None:
        self._held.append(
            _Held(watched, event.type(), event.key(), event.modifiers(), event.text(), at_ms)
        )

    def _take_scan(self, event: QKeyEvent, at_ms: float) -> None:
        """The keys held were a scanner's."""
        self._wait(0)
        held = self._take_held()
        presses = [one for one in held if one.kind == QEvent.Type.KeyPress]
        if not presses:
            return  # The second ending key of a scan that is told already.
        released = {one.key for one in held if one.kind == QEvent.Type.KeyRelease}
        self._taken |= {one.key for one in presses} - released
        code = "".join(one.text for one in presses)
        end = "Tab" if event.key() == Qt.Key.Key_Tab else "Enter"
        self.last = Scan(code, at_ms - presses[0].at_ms, end)
        self.scanned.emit(code)
