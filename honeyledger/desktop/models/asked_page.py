"""A station of small forms, without its widgets: its page, asked for anew, and its forms.

The page is asked for whenever something was recorded, here or elsewhere, while somebody looks at
it; otherwise when it is opened next.
"""

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asked import FormSpec
from honeyledger.desktop.models.asking import Asking
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.services.store import View

NOT_SHOWN = Sentence(
    "page-not-shown",
    "What is shown here may be old: it could not be asked for ({why}). Open this place again to "
    "ask once more.",
)


class AskedPage(QObject):
    """What a station of small forms knows; its page has `ledger`, `unit`, `zone` and `today`.

    Args:
        name: under which its half-filled forms are kept.
        question: gives its page, at a moment.

    Signals:
        shown: the page has come.
        failed: a `Refusal`: the page could not be asked for; the one before stays.
    """

    shown = Signal(object)
    failed = Signal(object)

    def __init__(
        self,
        desk: Desk,
        name: str,
        specs: Sequence[FormSpec],
        question: Callable[[View, int], Any],
    ) -> None:
        super().__init__()
        self._desk, self._question = desk, question
        self.page: Any = None
        self.is_seen: Callable[[], bool] = lambda: True
        self.made_beside: Callable[[Any], object] = lambda _page: None
        """What a view makes of a page beside the window, before it is shown."""
        self._is_stale = False
        self.asking = Asking(desk, name, specs)
        desk.refresh.watch(EVERYTHING, self._changed)

    def _changed(self) -> None:
        if self.is_seen():
            self.ask()
        else:
            self._is_stale = True

    def opened(self) -> None:
        """Somebody looks at it from now on."""
        if self._is_stale:
            self.ask()

    def ask(self) -> None:
        """Ask for the page as it is now."""
        self._is_stale = False
        house, question = self._desk.house, self._question
        now_ms = house.clock()

        def read() -> Any:
            page = house.ask(lambda view: question(view, now_ms))
            self.made_beside(page)
            return page

        self._desk.jobs.read(read, self._answered, about=(self, "page"))

    def _answered(self, outcome: Outcome[Any]) -> None:
        page = outcome.value
        if page is None:
            self._is_stale = True
            why = type(outcome.error).__name__
            self.failed.emit(outcome.refusal or Refusal(NOT_SHOWN, why=why))
            return
        self.page = page
        self._desk.unit, self._desk.zone = page.unit, page.zone
        self.asking.show_page(page, page.ledger, page.today)
        self.came(page)
        self.shown.emit(page)

    def came(self, page: Any) -> None:
        """What else a station does with its page, before it is shown."""
