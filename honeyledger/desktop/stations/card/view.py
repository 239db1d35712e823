"""The card beside the page, whichever station is open."""

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.models.lot_card import LotCardFacts
from honeyledger.desktop.stations.card.presenter import CardPresenter
from honeyledger.desktop.widgets.card import LotCard


class CardView(QObject):
    """The card of a lot, or of a place.

    Signals:
        found: the card asked for is ready to be shown.
        not_found: the `Refusal` a code ended with.
        closed: the person put it away.
    """

    found = Signal()
    not_found = Signal(object)
    closed = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.asks = StationAsks()
        self.widget = LotCard()
        self.presenter = CardPresenter(desk)
        self.presenter.found.connect(self._found)
        self.presenter.renewed.connect(self.widget.show_facts)
        self.presenter.refused.connect(self.not_found)
        self.presenter.say.connect(self.asks.say)
        self.widget.print_asked.connect(self.presenter.print_label)
        self.widget.trace_asked.connect(self.asks.trace)
        self.widget.entry_asked.connect(self.presenter.offer_reversal)
        self.widget.closed.connect(self.closed)
        self.widget.hide()

    def show_code(self, code: str) -> None:
        """Find the card of a code; `found` or `not_found` follows."""
        self.presenter.show(code)

    def take_focus(self) -> None:
        """Put the keyboard on what is done next."""
        self.widget.take_focus()

    def handle(self, action: str) -> bool:
        """The keys that mean the lot on the card."""
        code = self.presenter.code
        if not code or action not in ("print", "trace-this"):
            return False
        if action == "print":
            self.presenter.print_label(code)
        else:
            self.asks.trace.emit(code)
        return True

    def _found(self, facts: LotCardFacts) -> None:
        self.widget.show_facts(facts)
        self.found.emit()

    def put_away(self) -> None:
        """No card is shown any more."""
        self.presenter.put_away()
