"""Notices when the window's thread does not come back for longer than a person overlooks.

The event loop is asked for a beat every few milliseconds; where one comes late, the thread was
busy meanwhile. A second thread looks on and takes down where the busy one stands, since that is
gone by the time it comes back. What is done about it is for whoever listens.
"""

import linecache
import sys
import threading
import traceback
from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from honeyledger.desktop.scanning import monotonic_ms

EVERY_MS = 20
# What performance asks of the window: its thread is never held longer.
LONGEST_MS = 50.0
_MOST_LINES = 12


@dataclass(frozen=True, slots=True)
class Block:
    """One time the window's thread was held: for how long, and in which calls, innermost last."""

    ms: float
    where: tuple[str, ...] = ()

    def __str__(self) -> str:
        """Say it in a line, and the calls below it."""
        return "\n".join((f"The window was held for {self.ms:.0f} ms.", *self.where))


class Watchdog(QObject):
    """Watches the thread it is started in.

    Args:
        clock_ms: milliseconds that only go forward.
        longest_ms: what is not worth a word.

    Signals:
        blocked: a `Block`, told when the thread is back.
    """

    blocked = Signal(object)

    def __init__(
        self,
        clock_ms: Callable[[], float] = monotonic_ms,
        *,
        longest_ms: float = LONGEST_MS,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._clock_ms, self._longest_ms = clock_ms, longest_ms
        self._last_ms = clock_ms()
        self._seen: tuple[str, ...] = ()
        self._thread_id = 0
        self._stopped = threading.Event()
        self._looking: threading.Thread | None = None
        self._timer = QTimer(self)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.setInterval(EVERY_MS)
        self._timer.timeout.connect(self.beat)

    def start(self) -> None:
        """Begin to watch the thread that calls this."""
        self._thread_id = threading.get_ident()
        self._last_ms = self._clock_ms()
        self._stopped.clear()
        self._looking = threading.Thread(target=self._look_on, name="watchdog", daemon=True)
        self._looking.start()
        self._timer.start()

    def stop(self) -> None:
        """Watch no more."""
        self._timer.stop()
        self._stopped.set()
        if self._looking is not None:
            self._looking.join()
            self._looking = None

    def beat(self) -> None:
        """The thread is here: say how long it was away, where that was too long."""
        now_ms = self._clock_ms()
        away_ms = now_ms - self._last_ms - EVERY_MS
        seen, self._seen = self._seen, ()
        self._last_ms = now_ms
        if away_ms > self._longest_ms:
            self.blocked.emit(Block(away_ms, seen))

    def look(self) -> bool:
        """From another thread: take down where the thread stands, if it is away too long."""
        if self._clock_ms() - self._last_ms - EVERY_MS <= self._longest_ms:
            return False
        stands = _stack_of(self._thread_id)[-_MOST_LINES:]
        if stands:
            lines = traceback.StackSummary.from_list(stands).format()
            self._seen = tuple(line.rstrip() for line in lines)
        return bool(self._seen)

    def _look_on(self) -> None:
        while not self._stopped.wait(EVERY_MS / 1000):
            self.look()


def _stack_of(thread_id: int) -> list[tuple[str, int, str, str]]:
    """Where a thread stands, outermost first.

    Its frames are let go of before a line of source is read: reading lets that thread go on, and
    what a frame still held would then outlive the paint or the event it was lent for.
    """
    frame = sys._current_frames().get(thread_id)
    places: list[tuple[str, int, str]] = []
    while frame is not None:
        code = frame.f_code
        # Between two lines a frame stands in none.
        places.append((code.co_filename, frame.f_lineno or code.co_firstlineno, code.co_name))
        frame = frame.f_back
    return [(file, line, name, linecache.getline(file, line)) for file, line, name in places[::-1]]
