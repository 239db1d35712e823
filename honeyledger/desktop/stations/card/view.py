"""The card beside the page."""

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.widgets.card import LotCard


class CardView(QObject):
    """The card of a lot."""

    closed = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.card = LotCard()
        self.widget: QWidget = self.card
        self.asks = StationAsks()
        self.card.closed.connect(self.closed)

    def show_code(self, code: str) -> None:
        """Show it."""
