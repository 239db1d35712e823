"""What the page of recalls knows: all cases, the one in hand, the form in hand."""

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.stations.recalls.asks import OPEN, recall_forms
from honeyledger.services.recalls_page import RecallsPage, recalls_page
from honeyledger.services.store import View


class RecallsPresenter(AskedPage):
    """The page of recalls and its forms."""

    page: RecallsPage | None

    def __init__(self, desk: Desk) -> None:
        self.case = ""

        def question(view: View, now_ms: int) -> RecallsPage:
            return recalls_page(view, now_ms, self.case)

        super().__init__(desk, "recalls", recall_forms(), question)
        self.asking.done.connect(self._done)

    def _done(self, kind: str, _message: object) -> None:
        """The case that was just opened is in hand."""
        if kind == OPEN:
            self.case = ""
            self.ask()

    def take(self, code: str) -> None:
        """Another case is in hand."""
        if code and code != self.case:
            self.case = code
            self.ask()

    def call_back(self, code: str) -> None:
        """A lot is to be called back: the form that opens a case has it."""
        self.asking.choose(OPEN)
        typed = self.asking.typed[OPEN]
        codes = dict.fromkeys((*typed.codes("lots"), code))
        self.asking.fill(typed.with_value("lots", ", ".join(codes)))
