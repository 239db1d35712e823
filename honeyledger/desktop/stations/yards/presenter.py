"""What the yards' station knows: the yards, the form in hand, the yard whose record it shows."""

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.stations.yards.asks import RECORD, values_of, yard_forms
from honeyledger.services.yards_page import YardRow, YardsPage, yards_page


class YardsPresenter(QObject):
    """The yards' page and its forms.

    Signals:
        shown: a `YardsPage` has come.
    """

    shown = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._in_form = ""
        self.page: YardsPage | None = None
        self.asking = Asking(desk, "yards", yard_forms())
        self.asking.changed.connect(self._take_up)
        desk.refresh.watch(EVERYTHING, self.ask)

    def ask(self) -> None:
        """Ask for the yards as they are now."""
        house = self._desk.house
        now_ms = house.clock()
        self._desk.jobs.read(
            lambda: house.ask(lambda view: yards_page(view, now_ms)),
            self._answered,
            about=(self, "page"),
        )

    def _answered(self, outcome: Outcome[YardsPage]) -> None:
        page = outcome.value
        if page is None:
            return
        self.page = page
        self._desk.unit = page.unit
        self.asking.show_page(page, page.ledger, page.today)
        self.shown.emit(page)

    def row(self, text: str) -> YardRow | None:
        """A yard by its code or its name."""
        return self.page.row(text) if self.page else None

    def _take_up(self) -> None:
        """A yard that is there was named: its record is shown, so that it can be changed."""
        if self.asking.kind != RECORD:
            return
        row = self.row(self.asking.now().text("yard"))
        code = row.code if row else ""
        if code == self._in_form:
            return
        before, self._in_form = self._in_form, code
        if row is not None:
            self.asking.fill(FormTyped(values_of(row)))
        elif before:
            # Another name was typed over a yard's: its facts are not those of the new one.
            self.asking.fill(FormTyped({"yard": self.asking.now().text("yard")}))
