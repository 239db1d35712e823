"""How far long work is: one line on standard error, drawn over, and only on a terminal.

Work that can end early with what there is by then is ended by Ctrl+C.
"""

import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Event

WIDTH = 24


@contextmanager
def bar(what: str) -> Iterator[Callable[..., None]]:
    """Show how far work is while it lasts; the step given is called with (done, of[, where])."""
    if not sys.stderr.isatty():
        yield lambda done, of, where="": None
        return
    longest = 0

    def step(done: int, of: int, where: str = "") -> None:
        nonlocal longest
        line = line_of(what, done, of, where)
        longest = max(longest, len(line))
        sys.stderr.write(f"\r{line.ljust(longest)}")
        sys.stderr.flush()

    try:
        yield step
    finally:
        sys.stderr.write(f"\r{' ' * longest}\r")
        sys.stderr.flush()


@contextmanager
def stoppable() -> Iterator[Event]:
    """Ctrl+C says that it is enough; a second one ends the program, as anywhere else."""
    enough = Event()

    def stop(_signal: int, _frame: object) -> None:
        enough.set()
        signal.signal(signal.SIGINT, before)

    before = signal.signal(signal.SIGINT, stop)
    try:
        yield enough
    finally:
        signal.signal(signal.SIGINT, before)


def line_of(what: str, done: int, of: int, where: str = "") -> str:
    """One line: what is done, a bar, how far, and where it is."""
    filled = WIDTH * done // of if of else 0
    drawn = "#" * filled + "-" * (WIDTH - filled)
    return f"{what} [{drawn}] {done}/{of} {where}".rstrip()
