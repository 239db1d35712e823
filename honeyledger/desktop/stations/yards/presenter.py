"""What the yards' station knows: the yards, the form in hand, the yard whose record it shows."""

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.stations.yards.asks import RECORD, values_of, yard_forms
from honeyledger.services.yards_page import YardRow, YardsPage, yards_page


class YardsPresenter(AskedPage):
    """The yards' page and its forms."""

    page: YardsPage | None

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk, "yards", yard_forms(), yards_page)
        self._in_form = ""
        self.asking.changed.connect(self._take_up)

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
