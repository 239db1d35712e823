"""What the page of recalls knows: all cases, the one in hand, the form in hand."""

from collections.abc import Callable
from zlib import crc32

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asked_page import AskedPage
from honeyledger.desktop.stations.recalls.asks import OPEN, recall_forms
from honeyledger.desktop.stations.recalls.passing import Passing
from honeyledger.desktop.stations.recalls.words import tr
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.recalls import DRILL
from honeyledger.services.drills import draw
from honeyledger.services.recalls_page import RecallsPage, recalls_page
from honeyledger.services.store import View


class RecallsPresenter(AskedPage):
    """The page of recalls and its forms.

    A case that is taken in hand comes in two answers: what is in it, then all that is asked of it.
    """

    page: RecallsPage | None

    def __init__(self, desk: Desk) -> None:
        self.case = ""
        self._round = 0
        self._is_first = True

        def question(view: View, now_ms: int) -> RecallsPage:
            return recalls_page(view, now_ms, self.case, first=self._is_first)

        self.passing = Passing(desk, lambda: self.asking.pause.start())
        super().__init__(desk, "recalls", recall_forms(self.passing.lots), question)
        self.asking.done.connect(self._done)
        self.asking.changed.connect(lambda: self.passing.look(self.asking.typed[OPEN]))

    def ask(self) -> None:
        """Ask for the page; a case that is shown whole already stays until it comes anew."""
        self._round += 1
        shown = self.page.case.code if self.page and self.page.case else ""
        self._is_first = not shown or shown != self.case
        super().ask()

    def came(self, page: RecallsPage) -> None:
        """After the first answer the rest is asked for; one for another case is not waited for."""
        self.passing.look(self.asking.typed[OPEN], anew=True)
        if page.scope is None:
            self.case = page.case.code if page.case else ""
            return
        house, code, number = self._desk.house, page.scope.code, self._round
        now_ms = house.clock()

        def whole(outcome: Outcome[RecallsPage]) -> None:
            if number == self._round:
                self._answered(outcome)

        self._desk.jobs.read(
            lambda: house.ask(lambda view: recalls_page(view, now_ms, code)),
            whole,
            about=(self, "whole"),
        )

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

    def draw(self, then: Callable[[Refusal | None], object]) -> None:
        """A jar lot at random is to be rehearsed with: the form that opens a drill has it."""
        house = self._desk.house
        number = crc32(house.new_id().encode())  # a new id is by chance, and passed in

        def drawn(outcome: Outcome[str]) -> None:
            if outcome.value is None:
                then(refusal_of(outcome))
                return
            self.asking.choose(OPEN)
            said = {"about": tr("drill on {code}").format(code=outcome.value), "sort": DRILL}
            typed = self.asking.typed[OPEN].with_value("lots", outcome.value)
            for key, value in said.items():
                typed = typed.with_value(key, value)
            self.asking.fill(typed)
            then(None)

        self._desk.jobs.read(
            lambda: house.ask(lambda view: draw(view, number)), drawn, about=(self, "drawn")
        )

    def call_back(self, code: str) -> None:
        """A lot is to be called back: the form that opens a case has it."""
        self.asking.choose(OPEN)
        typed = self.asking.typed[OPEN]
        codes = dict.fromkeys((*typed.codes("lots"), code))
        self.asking.fill(typed.with_value("lots", ", ".join(codes)))
