"""A place whose station is not built yet: what it will show, and which command works meanwhile."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Part, Spread
from honeyledger.desktop.widgets.text import body


class MeanwhileView:
    """The page of one such place. See `StationView`."""

    def __init__(self, desk: Desk, key: str) -> None:
        self.widget = QWidget()
        self.asks = StationAsks()
        column = QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        panel = Panel(key)
        panel.set_body(body(f"honeyledger --help ({desk.settings.station})", wrap=True))
        column.addWidget(Spread([Part(panel, key, 12, 8)]))

    def begin(self) -> None:
        """Nothing is typed here."""

    def take_code(self, _code: str) -> bool:
        """Its card opens."""
        return False

    def handle(self, _action: str) -> bool:
        """No key does anything here."""
        return False
