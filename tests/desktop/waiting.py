"""Waiting for what a page asks for, not for ever: a page that never comes says why."""

import sys
import threading
import time
import traceback
from collections.abc import Callable

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.main_window import MainWindow

LONGEST_WAIT_S = 60


def wait_until(is_so: Callable[[], object], *known: object) -> None:
    """Go on until something is so.

    Args:
        known: whose variables tell why, where it never is.

    Raises:
        TimeoutError: it is not after a minute; with what is known, and what each thread does.
    """
    until = time.monotonic() + LONGEST_WAIT_S
    while not is_so():
        if time.monotonic() > until:
            told = ["It never came.", *(_told(one) for one in known), *_threads()]
            raise TimeoutError("\n".join(told))
        QApplication.processEvents()


def wait_for_page(presenter: object, page: Callable[[], object]) -> None:
    """Go on until a page has its first answer. Raises as `wait_until`."""
    wait_until(lambda: page() is not None, presenter)


def wait_for_answers(window: MainWindow) -> None:
    """Go on until every question is answered. Raises as `wait_until`."""
    wait_until(window.desk.jobs.is_idle, window.desk.jobs)


def _told(one: object) -> str:
    names = [name for name in dir(one) if not name.startswith("__")]
    known = {name: getattr(one, name, None) for name in names}
    return f"{type(one).__name__}: " + ", ".join(
        f"{name} {str(value)[:80]}" for name, value in known.items() if not callable(value)
    )


def _threads() -> list[str]:
    names = {one.ident: one.name for one in threading.enumerate()}
    return [
        "".join([f"Thread {names.get(ident, ident)}:\n", *traceback.format_stack(frame)[-6:]])
        for ident, frame in sys._current_frames().items()
    ]
