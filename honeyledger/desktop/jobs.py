"""Runs what must not block the window, in three lanes, and brings the outcome back to its thread.

*write* has one thread: every command, one after the other. *read* has two: questions to the store.
*work* has the rest: papers, exports, parsing; no store. A task takes plain data and gives back a
value; what it raises comes back as a value too, for the presenter to tell apart. Answers to
questions that have been asked anew are dropped. Each outcome has a turn of the window's thread to
itself.
"""

import logging
import sys
import traceback
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from functools import partial
from itertools import count
from threading import Lock
from typing import Any, Generic, TypeVar

from PySide6.QtCore import (
    QCoreApplication,
    QObject,
    QRunnable,
    Qt,
    QThread,
    QThreadPool,
    QTimer,
    Signal,
)

from honeyledger.desktop.tokens import PROGRESS_AFTER_MS
from honeyledger.desktop.turns import Turns
from honeyledger.domain.refusals import BrokenRule, Damage, Refusal

T = TypeVar("T")
_GIVE_WAY_S = 0.001
_LOG = logging.getLogger("honeyledger.window")


class NotWantedAnyMore(Exception):
    """What a task makes was asked for otherwise meanwhile, or the window closes: no fault."""


class LaneClosed(Exception):
    """Nothing more is taken: the window closes, or a command found the ledger damaged."""


@dataclass(frozen=True, slots=True)
class Outcome(Generic[T]):
    """What became of a task: its value, or the error it ended with."""

    value: T | None = None
    error: Exception | None = None

    @property
    def refusal(self) -> Refusal | None:
        """The refusal, where the task was refused."""
        return self.error if isinstance(self.error, Refusal) else None

    @property
    def is_fatal(self) -> bool:
        """Whether our own code or the stored data is wrong: nothing more may be written."""
        return isinstance(self.error, BrokenRule | Damage)


@dataclass(slots=True)
class Ticket:
    """One task under way; `about` names a question that a newer one replaces."""

    number: int
    about: Hashable = None
    started: bool = False
    dropped: bool = False


Then = Callable[[Outcome[Any]], None]
Report = Callable[[int, int], None]


class _Task(QRunnable):
    """A plain runnable: it holds data and a bound signal, and knows no window."""

    def __init__(self, run: Callable[[], None]) -> None:
        super().__init__()
        self._run = run

    def run(self) -> None:
        self._run()


class Jobs(QObject):
    """The three lanes.

    Signals:
        stopped: the error after which the write lane takes nothing more.
    """

    stopped = Signal(object)
    _ended = Signal(object, object)
    _moved = Signal(object, object, object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        # What the lanes compute gives way to the window's thread: five times as often as usual.
        sys.setswitchinterval(_GIVE_WAY_S)
        self.turns = Turns(self)
        self._numbers = count(1)
        self._then: dict[int, Then] = {}
        self._progress: dict[int, Report] = {}
        self._latest: dict[Hashable, int] = {}
        self._lock = Lock()
        self._closed = False
        self._write_stopped = False
        self._write = QThreadPool(self)
        self._write.setMaxThreadCount(1)
        # A thread of the write lane stays, so that its connection to the store does too.
        self._write.setExpiryTimeout(-1)
        self._read = QThreadPool(self)
        self._read.setMaxThreadCount(2)
        self._read.setExpiryTimeout(-1)
        self._work = QThreadPool(self)
        self._work.setMaxThreadCount(max(1, QThread.idealThreadCount() - 1))
        self._ended.connect(self._arrived, Qt.ConnectionType.QueuedConnection)
        self._moved.connect(self._tell_progress, Qt.ConnectionType.QueuedConnection)

    def write(self, task: Callable[[], T], then: Callable[[Outcome[T]], None]) -> Ticket:
        """Run a command after those before it."""
        ticket = self._ticket(then)
        self._start(self._write, ticket, task, writes=True)
        return ticket

    def read(
        self,
        task: Callable[[], T],
        then: Callable[[Outcome[T]], None],
        *,
        about: Hashable = None,
    ) -> Ticket:
        """Ask a question; with `about`, only the newest answer about it arrives."""
        ticket = self._ticket(then, about)
        if about is not None:
            self._latest[about] = ticket.number
        self._start(self._read, ticket, task)
        return ticket

    def work(
        self,
        task: Callable[[Report], T],
        then: Callable[[Outcome[T]], None],
        *,
        progress: Report | None = None,
    ) -> Ticket:
        """Do something long; progress is told only once it has taken a while."""
        ticket = self._ticket(then)
        if progress is not None:
            QTimer.singleShot(
                PROGRESS_AFTER_MS, self, lambda: self._show_progress(ticket, progress)
            )

        def report(done: int, of: int) -> None:
            self._moved.emit(ticket, done, of)

        self._start(self._work, ticket, lambda: task(report))
        return ticket

    def cancel(self, ticket: Ticket) -> bool:
        """Drop a task that has not begun, and forget the answer of one that has.

        Returns:
            Whether it will not run at all; a command that has begun is always finished.
        """
        with self._lock:
            ticket.dropped = True
            never_runs = not ticket.started
        self._then.pop(ticket.number, None)
        return never_runs

    def is_idle(self) -> bool:
        """Whether no answer is awaited, and nothing is left to be done with those that came."""
        return not self._then and self.turns.is_idle()

    @property
    def is_closing(self) -> bool:
        """Whether the window closes: what is long and only looked at ends then."""
        return self._closed

    def close(self) -> None:
        """Take nothing more, finish every command that was given, and deliver their outcomes."""
        self._closed = True
        self._read.clear()
        self._work.clear()
        for pool in (self._write, self._read, self._work):
            pool.waitForDone(-1)
        QCoreApplication.sendPostedEvents(self)
        self.turns.hurry()

    def _ticket(self, then: Callable[[Outcome[Any]], None], about: Hashable = None) -> Ticket:
        ticket = Ticket(next(self._numbers), about)
        self._then[ticket.number] = then
        return ticket

    def _start(
        self,
        pool: QThreadPool,
        ticket: Ticket,
        task: Callable[[], Any],
        *,
        writes: bool = False,
    ) -> None:
        if self._closed or (writes and self._write_stopped):
            self._ended.emit(ticket, Outcome(error=LaneClosed()))
            return
        pool.start(_Task(lambda: self._run(ticket, task, writes=writes)))

    def _run(self, ticket: Ticket, task: Callable[[], Any], *, writes: bool) -> None:
        """In the lane's thread."""
        with self._lock:
            if ticket.dropped:
                return
            ticket.started = True
        if ticket.about is not None and self._latest.get(ticket.about) != ticket.number:
            self._ended.emit(ticket, Outcome())
            return
        if writes and self._write_stopped:
            self._ended.emit(ticket, Outcome(error=LaneClosed()))
            return
        try:
            outcome: Outcome[Any] = Outcome(task())
        except Exception as error:  # noqa: BLE001 - whatever it is, the window has to hear of it
            outcome = Outcome(error=error)
            if not isinstance(error, Refusal | NotWantedAnyMore):
                # The person is told what kind of fault it is; where it came from stands here. A
                # server's own error, further up the chain, may quote rows of customers.
                lines = traceback.format_exception(error, chain=False)
                _LOG.error("a task of the window failed\n%s", "".join(lines))
        if writes and outcome.is_fatal:
            self._write_stopped = True
        self._ended.emit(ticket, outcome)

    def _arrived(self, ticket: Ticket, outcome: Outcome[Any]) -> None:
        self.turns.add(partial(self._deliver, ticket, outcome))

    def _deliver(self, ticket: Ticket, outcome: Outcome[Any]) -> None:
        """In the window's thread."""
        self._progress.pop(ticket.number, None)
        then = self._then.pop(ticket.number, None)
        if ticket.about is not None:
            if self._latest.get(ticket.about) != ticket.number:
                return
            del self._latest[ticket.about]
        if then is None:
            return
        if outcome.is_fatal:
            self.stopped.emit(outcome.error)
        then(outcome)

    def _show_progress(self, ticket: Ticket, progress: Report) -> None:
        if ticket.number in self._then:
            self._progress[ticket.number] = progress

    def _tell_progress(self, ticket: Ticket, done: int, of: int) -> None:
        tell = self._progress.get(ticket.number)
        if tell is not None:
            tell(done, of)
