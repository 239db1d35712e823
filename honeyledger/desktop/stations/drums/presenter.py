"""What the drum room knows: its drums, which of them are meant, and the form in hand."""

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.stations.drums.asks import drum_forms
from honeyledger.desktop.stations.drums.finding import found
from honeyledger.services.drums_page import DrumRow, DrumsPage, drums_page


class DrumsPresenter(QObject):
    """The drum room's page and its forms.

    Signals:
        shown: a `DrumsPage` has come.
        narrowed: other drums are meant.
    """

    shown = Signal(object)
    narrowed = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.page: DrumsPage | None = None
        self.wanted = ""
        self.asking = Asking(desk, "drums", drum_forms())
        desk.refresh.watch(EVERYTHING, self.ask)

    def ask(self) -> None:
        """Ask for the drum room as it is now."""
        house = self._desk.house
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: drums_page(view, now_ms)),
            self._answered,
            about=(self, "page"),
        )

    def _answered(self, outcome: Outcome[DrumsPage]) -> None:
        page = outcome.value
        if page is None:
            return
        self.page = page
        self._desk.unit, self._desk.zone = page.unit, page.zone
        self.asking.show_page(page, page.ledger, page.today)
        self.shown.emit(page)

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
