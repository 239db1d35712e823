"""What the drum room knows: its drums, which of them are meant, and the form in hand."""

from PySide6.QtCore import Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.stations.drums.asks import drum_forms
from honeyledger.desktop.stations.drums.finding import found
from honeyledger.services.drums_page import DrumRow, DrumsPage, drums_page


class DrumsPresenter(AskedPage):
    """The drum room's page and its forms.

    Signals:
        narrowed: other drums are meant.
    """

    page: DrumsPage | None
    narrowed = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "drums", drum_forms(), drums_page)
        self.wanted = ""

    def find(self, text: str) -> None:
        """Only the drums of which this is true are meant."""
        if text != self.wanted:
            self.wanted = text
            self.narrowed.emit()

    def rows(self) -> list[DrumRow]:
        """The drums that are meant."""
        return found(self.page.rows, self.wanted) if self.page else []

    def row(self, code: str) -> DrumRow | None:
        """A drum by its code, or its container's."""
        return self.page.row(code) if self.page else None

    def scan(self, code: str) -> str:
        """A drum or its container was scanned: the code of the drum that is meant."""
        row = self.row(code)
        plain = row.code if row else code
        self.asking.scan(plain)
        return plain

    def not_read(self) -> list[str]:
        """The drums nobody has read yet, the oldest first."""
        rows = [row for row in self.rows() if row.moisture is None and row.state != "not closed"]
        return [row.code for row in sorted(rows, key=lambda row: (-row.age_days, row.code))]
