"""The page of a station of small forms: what is done at the left, its list at the right.

Where a refusal is shown, what is said of what was recorded, and the keys that mean the row in hand
are the same on all of them.
"""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Leaves, Part, Spread
from honeyledger.desktop.widgets.table import Table
from honeyledger.domain.refusals import Refusal

TOTALS_HEIGHT = 48


class AskingPage(QObject):
    """What such pages have in common. See `StationView`.

    A page makes its form, its list and its table, and then lays them out.
    """

    form: AskingPanel
    table: Table
    at_left: Leaves | None = None
    """What stands at the left where that is more than the form."""

    def __init__(self, desk: Desk, presenter: AskedPage, density: Density) -> None:
        super().__init__()
        self.widget = QWidget()
        self.asks = StationAsks()
        self.desk, self.density = desk, desk.density(density)
        self.asked = presenter
        presenter.is_seen = lambda: not self.widget.isHidden()

    def lay_out(
        self, tab: str, listed: Panel, list_tab: str, above: QWidget | None = None
    ) -> None:
        """Put the form at the left and the list at the right, and ask for what they show."""
        self.listed = listed
        parts = [Part(self.at_left or self.form.panel, tab, 5, 8), Part(listed, list_tab, 7, 8)]
        self.spread = Spread(parts, above=above)
        self.spread.fill(self.widget)
        presenter = self.asked
        presenter.failed.connect(self._failed)
        presenter.asking.refused.connect(self._refused)
        presenter.asking.done.connect(self._done)
        presenter.ask()

    # What happened.

    def _failed(self, refusal: Refusal) -> None:
        self.form.say(Message(Mark.WARNING, refusal_words(refusal)))

    def _refused(self, refusal: Refusal) -> None:
        self.spread.show_part(0)
        self.form.show_refusal(refusal)

    def _done(self, _kind: str, message: Message) -> None:
        self.asks.told(message)
        self.form.begin()

    def go_on(self) -> None:
        """The form took something: the keyboard goes where it goes on."""
        self.spread.show_part(0)
        self.form.begin()

    # What the window asks of a station.

    def begin(self) -> None:
        """Put the keyboard where the form goes on."""
        self.asked.opened()
        self.form.begin()

    def handle(self, action: str) -> bool:
        """The keys of this station."""
        keys = {
            "clear": self.clear,
            "card": lambda: self._of_row(self.asks.card.emit),
            "trace-this": lambda: self._of_row(self.asks.trace.emit),
        }
        doing = (keys | dict(self.own_keys())).get(action)
        if doing is not None:
            doing()
        return doing is not None

    def own_keys(self) -> Mapping[str, Callable[[], object]]:
        """What other keys mean here."""
        return {}

    def clear(self) -> None:
        """Empty the form in hand."""
        self.asked.asking.clear()
        self.form.begin()

    def _of_row(self, ask: Callable[[str], object]) -> None:
        if code := self.table.selected_key():
            ask(code)
