"""Which of the rows given to a table its model shows, and in which order.

A short list is ordered and narrowed at once. A long one would hold the window, so it is made
ready beside it where the table was told how; until then what is shown stays.
"""

from collections.abc import Callable, Iterable
from itertools import count
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.models.row_order import Given, Meant, meant_rows
from honeyledger.desktop.models.rows import Placed, RowsModel

AT_ONCE = 2_000

Then = Callable[[Any], None]
Beside = Callable[[Callable[[], Any], Then], object]
"""Runs a task beside the window and hands its value over in the window's thread."""


class TableRows(QObject):
    """The rows given, and those meant of them.

    Signals:
        changing: the model is about to show other rows.
        changed: it does.
    """

    changing = Signal()
    changed = Signal()

    def __init__(self, model: RowsModel[Any], parent: QObject) -> None:
        super().__init__(parent)
        self._model = model
        self._given: Given[Any] = Given((), ())
        self._asked = count(1)
        self._newest = 0
        self.meant = Meant()
        self.beside: Beside | None = None

    def give(self, rows: Iterable[Any]) -> None:
        """Take these rows in the place of those before; what is meant of them stays."""
        self._given = Given(tuple(rows), self._model.columns)
        self.refresh()

    def mean(self, meant: Meant) -> None:
        """Show others of the rows, or in another order."""
        self.meant = meant
        if self._given.columns != self._model.columns:
            self._given = Given(self._given.rows, self._model.columns)
        self.refresh()

    def count(self) -> int:
        """How many rows were given."""
        return len(self._given.rows)

    def is_waiting(self) -> bool:
        """Whether rows are being made ready beside the window."""
        return self._newest > 0

    def refresh(self) -> None:
        """Show what is meant of what was given."""
        given, meant, model = self._given, self.meant, self._model
        self._newest = 0
        if self.beside is None or meant.is_plain or len(given.rows) <= AT_ONCE:
            self._show(model.placed(meant_rows(given, meant)))
            return
        number = self._newest = next(self._asked)

        def ready(placed: Placed[Any] | None) -> None:
            if number == self._newest and placed is not None:
                self._newest = 0
                self._show(placed)

        self.beside(lambda: model.placed(meant_rows(given, meant)), ready)

    def _show(self, placed: Placed[Any]) -> None:
        self.changing.emit()
        self._model.show_placed(placed)
        self.changed.emit()
