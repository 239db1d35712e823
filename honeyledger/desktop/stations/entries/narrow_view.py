"""The panel in which a reach is narrowed; what can be chosen follows the lot that is named."""

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import say
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.stations.entries.amends import tr
from honeyledger.desktop.stations.entries.narrow_asks import LOOSE, narrow_form
from honeyledger.desktop.stations.entries.presenter import EntriesPage
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.domain.moments import house_day
from honeyledger.services.narrowing import LooseRow, loose_rows


class NarrowPanel(QObject):
    """A lot, what is not in it, and why.

    Signals:
        done: a `Message` of what was recorded.
        left: nothing is to be narrowed.
    """

    done = Signal(object)
    left = Signal()

    def __init__(self, desk: Desk, density: Density) -> None:
        super().__init__()
        self._desk, self._lot = desk, ""
        self.asking = Asking(desk, "narrow", (narrow_form(),))
        words = tr("Narrow a reach"), tr("What is done")
        self.form = AskingPanel(self.asking, *words, density, lambda _at, code: code)
        self.panel = self.form.panel
        for row in self.form.kinds:
            row.setVisible(False)  # there is but one form
        assert self.panel.bar is not None
        self.back = self.panel.bar.add_plain(tr("Leave it"))
        self.back.clicked.connect(self.left)
        self.asking.done.connect(lambda _kind, message: self.done.emit(message))
        self.asking.refused.connect(self.form.show_refusal)
        self.asking.filled.connect(lambda _kind: self._ask())
        self.asking.changed.connect(self._ask)

    def show_page(self, page: EntriesPage) -> None:
        """The page has come; with the first one, what was left half typed."""
        today = house_day(self._desk.house.clock(), self._desk.zone)
        self.asking.show_page(page, page.head.ledger_id, today)
        self._lot = ""
        self._ask()

    def about(self, lot: str) -> None:
        """Begin with a lot."""
        if lot and lot != self.asking.now().text("lot"):
            self.asking.clear()
            self.asking.scan(lot)
        self.form.begin()

    def take_code(self, code: str) -> bool:
        """A label was scanned: it is the lot that is meant."""
        self.about(code)
        return True

    def _ask(self) -> None:
        """What of the lot named can be narrowed."""
        lot = self.asking.now().text("lot")
        if lot == self._lot:
            return
        self._lot = lot
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(lambda view: loose_rows(view, lot)),
            self._offer,
            about=(self, "loose"),
        )

    def _offer(self, outcome: Outcome[tuple[LooseRow, ...]]) -> None:
        rows = outcome.value or ()
        self.form.offer(LOOSE, [Choice(row.key, say(row.name), say(row.why)) for row in rows])
