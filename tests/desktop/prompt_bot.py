"""A test's hand on the window: it looks again after a millisecond, not after ten."""

from collections.abc import Callable
from time import monotonic

from PySide6.QtCore import QEventLoop, QTimer
from pytestqt.exceptions import TimeoutError as NeverCame
from pytestqt.qtbot import QtBot

_AGAIN_MS = 1


class PromptBot(QtBot):
    """Waits as the library does, in an event loop, but hardly longer than it has to."""

    def waitUntil(  # noqa: N802 - the library's own name
        self, callback: Callable[[], bool | None], *, timeout: int = 5_000
    ) -> None:
        """Go on until the callback gives true, or none without an assertion that fails."""
        until = monotonic() + timeout / 1_000
        while True:
            trouble = None
            try:
                if callback() is not False:
                    return
            except AssertionError as failed:
                trouble = failed
            if monotonic() > until:
                raise NeverCame(f"waitUntil timed out in {timeout} milliseconds") from trouble
            loop = QEventLoop()
            QTimer.singleShot(_AGAIN_MS, loop.quit)
            loop.exec()
