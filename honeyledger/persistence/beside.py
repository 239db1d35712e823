"""What can be done beside the window: half an audit, or a long answer, in a process of its own.

It is a plain new Python, told over its input what to check and heard over its output: no copy of
this process, in which a window or a server's driver may run, and not the script that was started,
which would do its work twice. It is worth its start only over many entries, and where there is a
core for it; a house in memory is seen by nobody else. Where it cannot be started, or fails by
itself, its half is done here, so that what is wrong comes up where it can be told. Of one that was
ended from outside just that is said: nothing it had not yet checked is ever called sound.
"""

import os
import pickle
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager, suppress
from threading import Thread
from typing import Any, TypeAlias

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.persistence.broken import Broken
from honeyledger.persistence.engine import Where, for_reading, make_engine
from honeyledger.persistence.reader import Reader
from honeyledger.persistence.sealed import Kept, Told, check_rows
from honeyledger.services.store import Head

CUT_SHORT = Sentence(
    "audit-cut-short",
    "The audit was ended from outside before it was done, so nothing is known yet. Run it again; "
    "close other programs first if the computer is short of memory.",
)
FROM_ENTRIES = 20_000
"""Below this many entries a process takes longer to start than it saves."""

CORES = os.cpu_count() or 1
_SAID_EVERY = 5_000
_LOOK_S = 0.2
_FAILED_BY_ITSELF = 1
_NO_CONSOLE = getattr(subprocess, "CREATE_NO_WINDOW", 0)
_START = (
    "import pickle, sys; sys.path[:] = pickle.load(sys.stdin.buffer); "
    "from honeyledger.persistence.beside import check_there; check_there()"
)

Found: TypeAlias = tuple[Broken, bool]
"""What is broken, and whether all rows are as they were sealed."""


def pays_off(where: Where, entries: int) -> bool:
    """Whether a second process makes an audit quicker."""
    has_python = bool(sys.executable) and not getattr(sys, "frozen", False)
    return has_python and not where.in_memory and entries >= FROM_ENTRIES and CORES > 1


@contextmanager
def begun(where: Where, head: Head, kept: Kept) -> Iterator["Other"]:
    """The check of all rows of a house up to a head, going on meanwhile, ended at the end."""
    with told_to(_START, where, head, tuple(kept)) as other:
        yield other


@contextmanager
def told_to(start: str, *parts: object) -> Iterator["Other"]:
    """A new Python that does what `start` says with these parts, ended at the end."""
    try:
        process = subprocess.Popen(
            [sys.executable, "-c", start],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            creationflags=_NO_CONSOLE,
        )
    except OSError:
        process = None  # no more processes, or no memory for one
    other = Other(process)
    try:
        other.tell(sys.path, parts)
        yield other
    finally:
        other.end()


class Other:
    """The other process, as seen from here."""

    def __init__(self, process: "subprocess.Popen[bytes] | None") -> None:
        self._process = process
        self._done = 0
        self._found: Any = None
        self._ear = Thread(target=self._hear, daemon=True)

    def tell(self, *parts: object) -> None:
        """What it is to do; from now on it is heard."""
        if self._process is None:
            return
        assert self._process.stdin
        with suppress(OSError):  # it has ended already, which is heard
            for part in parts:
                pickle.dump(part, self._process.stdin)
            self._process.stdin.close()
        self._ear.start()

    def _hear(self) -> None:
        assert self._process
        assert self._process.stdout
        with suppress(EOFError, OSError, pickle.UnpicklingError):
            while True:
                said = pickle.load(self._process.stdout)
                if isinstance(said, int):
                    self._done = said
                else:
                    self._found = said
                    return

    def done(self) -> int:
        """How many entries it has checked by now."""
        return self._done

    def found(self, told: Told, ended: Sentence = CUT_SHORT) -> Any:
        """What it found, waited for; None where it could not do it, so that it is done here.

        Args:
            ended: what is said of one that was ended from outside.

        Raises:
            Refusal: it was ended from outside.
        """
        if self._process is None:
            return None
        while self._ear.is_alive():
            self._ear.join(_LOOK_S)
            told(self._done)
        if self._found is None and self._process.wait() != _FAILED_BY_ITSELF:
            raise Refusal(ended, field="house")
        return self._found

    def end(self) -> None:
        """End it, if it has not ended."""
        if self._process is not None:
            self._process.kill()
            self._process.wait()
            self._ear.join()
            assert self._process.stdout
            self._process.stdout.close()


def check_there() -> None:
    """In the other process: do what its input says, tell how far it is, and what is found."""
    # A key that ends the program is for the first process, which ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    where, head, kept = pickle.load(sys.stdin.buffer)

    def say(said: object) -> None:
        pickle.dump(said, sys.stdout.buffer)
        sys.stdout.buffer.flush()

    say(_checked(where, head, kept, _now_and_then(say)))


def _now_and_then(say: Callable[[int], None]) -> Told:
    last = 0

    def told(done: int) -> None:
        nonlocal last
        if done - last >= _SAID_EVERY:
            say(done)
            last = done

    return told


def _checked(where: Where, head: Head, kept: Kept, told: Told) -> Found:
    with reading_there(where) as (cursor, dialect):
        view = Reader(cursor, dialect)
        view.check_file(where)
        return check_rows(view, head, kept, told)


@contextmanager
def reading_there(where: Where) -> Iterator[tuple[Any, str]]:
    """In the other process: a cursor that sees one moment and changes nothing, and its dialect."""
    engine = make_engine(where)
    try:
        with for_reading(engine).connect() as connection:
            connection.begin()
            if where.is_sqlite:
                connection.exec_driver_sql("PRAGMA query_only = ON")
            with closing(connection.connection.cursor()) as cursor:
                yield cursor, connection.dialect.name
    finally:
        engine.dispose()
