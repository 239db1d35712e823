"""The first run in the states that are worth a picture."""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from PySide6.QtWidgets import QApplication

from honeyledger.desktop.drafts import Drafts
from honeyledger.desktop.first_run.steps import Step
from honeyledger.desktop.first_run.view import FirstRunWindow, Lent
from honeyledger.domain.refusals import Refusal
from honeyledger.exchange.delimited import NO_FILE
from honeyledger.services.beginning import Doors, Opened
from honeyledger.settings import Settings

STEPS = {
    "first_run-size": Step.SIZE,
    "first_run-way": Step.WAY,
    "first_run-missed": Step.WAY,
    "first_run-house": Step.HOUSE,
    "first_run-refused": Step.HOUSE,
    "first_run-file": Step.FILE,
}
PAGES = tuple(STEPS)
LONGEST_WAIT_S = 30


def _no_door(*_given: object) -> Opened:
    raise Refusal(NO_FILE, file="house.honeyledger")


def _settle(app: QApplication, window: FirstRunWindow) -> None:
    until = time.monotonic() + LONGEST_WAIT_S
    quiet = 0
    while quiet < 3 and time.monotonic() < until:
        app.processEvents()
        quiet = quiet + 1 if window.jobs.is_idle() else 0


@contextmanager
def at(
    app: QApplication, ground: Path, page: str, size: tuple[int, int]
) -> Iterator[FirstRunWindow]:
    """The window in one of the states, as long as one looks."""
    where = Path.home() / ".local" / "share" / "honeyledger" / "house.honeyledger"
    doors = Doors(
        *("Europe/Berlin", str(where), page.endswith("missed")),
        **dict.fromkeys(("make", "open", "sample"), _no_door),
    )
    lent = Lent(Drafts(ground / page), lambda _settings: None, lambda _parent: None)
    window = FirstRunWindow(doors, Settings(), lent)
    window.resize(*size)
    window.show()
    _settle(app, window)
    window.steps.turn(STEPS[page])
    if page.endswith("refused"):
        window.go.click()
    _settle(app, window)
    yield window
    window.close()
