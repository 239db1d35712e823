"""Waiting for what a page asks for, not for ever: a page that never comes says why."""

import time
from collections.abc import Callable

from PySide6.QtWidgets import QApplication

LONGEST_WAIT_S = 60


def wait_for_page(presenter: object, page: Callable[[], object]) -> None:
    """Go on until a page has its first answer.

    Raises:
        TimeoutError: it has none after a minute; with what the presenter knows.
    """
    until = time.monotonic() + LONGEST_WAIT_S
    while page() is None:
        if time.monotonic() > until:
            known = {name: str(value)[:80] for name, value in vars(presenter).items()}
            raise TimeoutError(f"{type(presenter).__name__} was never answered: {known}")
        QApplication.processEvents()
