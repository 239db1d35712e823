"""What the page of exposure knows: the house as it is, and what would go with one code."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.services.exposure import Called, called_back
from honeyledger.services.exposure_page import ExposurePage, exposure_page


class ExposurePresenter(QObject):
    """The exposure of a house, asked for anew while somebody looks at it.

    Signals:
        shown: an `ExposurePage` has come.
        called: a `Called` has come: what would go with the code that was named.
        refused: the `Refusal` either ended with.
    """

    shown = Signal(object)
    called = Signal(object)
    refused = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: ExposurePage | None = None
        self.code = ""
        self._is_stale = True
        self._asked = 0
        self.is_seen: Callable[[], bool] = lambda: True
        desk.refresh.watch(EVERYTHING, self._changed)

    def _changed(self) -> None:
        self._is_stale = True
        if self.is_seen():
            self.open()

    def open(self) -> None:
        """Somebody looks at it from now on: ask, unless it is still true."""
        if not self._is_stale:
            return
        self._is_stale = False
        house, jobs = self._desk.house, self._desk.jobs
        self._asked += 1
        asked = self._asked
        page = partial(exposure_page, now_ms=house.clock())
        jobs.read(
            lambda: house.store.beside(page, lambda: asked == self._asked and not jobs.is_closing),
            self._answered,
            about=(self, "page"),
        )
        if self.code:
            self.name(self.code)

    def _answered(self, outcome: Outcome[ExposurePage]) -> None:
        if outcome.value is None:
            self._is_stale = True
            self.refused.emit(refusal_of(outcome))
            return
        self.page = outcome.value
        self._desk.unit = outcome.value.unit
        self.shown.emit(outcome.value)

    def name(self, text: str) -> None:
        """Ask what would go with a lot, a pallet, a run, a yard or a supplier today."""
        self.code = text.strip()
        house, wanted = self._desk.house, self.code
        self._desk.jobs.read(
            lambda: house.ask(lambda view: called_back(view, wanted)),
            self._named,
            about=(self, "called"),
        )

    def _named(self, outcome: Outcome[Called]) -> None:
        if outcome.value is None:
            self.refused.emit(refusal_of(outcome))
        else:
            self.called.emit(outcome.value)
