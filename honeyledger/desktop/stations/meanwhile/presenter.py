"""What such a page knows: its rows, as the ledger has them now."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.stations.meanwhile.page import Page


class MeanwhilePresenter(QObject):
    """One place's rows.

    Signals:
        shown: the rows have come.
    """

    shown = Signal(object)

    def __init__(self, desk: Desk, page: Page) -> None:
        super().__init__()
        self._desk = desk
        self.page = page
        self.rows: Sequence[Any] = ()

    def ask(self) -> None:
        """Ask for the rows as they are now."""
        house, page = self._desk.house, self.page
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: page.rows(view, now_ms)),
            self._answered,
            about=(self, "rows"),
        )

    def _answered(self, outcome: Outcome[Sequence[Any]]) -> None:
        if outcome.value is not None:
            self.rows = outcome.value
            self.shown.emit(self.rows)
