"""What the card knows: the code in hand, its card, what is done with it.

What finds a card is loaded with the first one: the window does not wait for it.
"""

import importlib
from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import EVERYTHING, Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.label_print import print_label
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message, tr_reverse
from honeyledger.desktop.printing import Paper, paper_message
from honeyledger.services.store import View

if TYPE_CHECKING:
    from honeyledger.desktop.models.lot_card import LotCardFacts

_FINDING = "honeyledger.desktop.stations.card.rows"


class CardPresenter(QObject):
    """One card at a time.

    Signals:
        found: a `LotCardFacts` that was asked for has come.
        renewed: the same card, after something was recorded.
        refused: a `Refusal`: the code names nothing.
        say: a `Message` for the toast line.
    """

    found = Signal(object)
    renewed = Signal(object)
    refused = Signal(object)
    say = Signal(object)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.code = ""
        self._jar = ""
        desk.refresh.watch(EVERYTHING, self.again)

    def show(self, code: str) -> None:
        """Find the card of a code; of a jar it is its lot's."""
        jar = self._desk.code_of(code) if self._desk.letter_of(code) == "J" else ""
        self._ask(code, lambda outcome: self._found(jar, outcome))

    def traced(self, code: str) -> str:
        """What is traced of a card: the very jar that was scanned, where it was one."""
        return self._jar if self._jar and code == self.code else code

    def again(self) -> None:
        """Something was recorded: the card may have changed."""
        if self.code:
            self._ask(self.code, self._renewed)

    def put_away(self) -> None:
        """No card is shown any more."""
        self.code = ""

    def _ask(self, code: str, then: "Callable[[Outcome[LotCardFacts]], object]") -> None:
        desk = self._desk
        now_ms = desk.house.clock()

        def find(view: View) -> "LotCardFacts":
            facts: Callable[..., LotCardFacts] = importlib.import_module(_FINDING).facts_of
            return facts(view, code, now_ms, desk.unit)

        desk.jobs.read(lambda: desk.house.ask(find), then, about=(self, "card"))  # type: ignore[arg-type]

    def _found(self, jar: str, outcome: "Outcome[LotCardFacts]") -> None:
        if outcome.refusal is not None:
            self.refused.emit(outcome.refusal)
        elif outcome.value is not None:
            self.code, self._jar = outcome.value.code, jar
            self.found.emit(outcome.value)

    def _renewed(self, outcome: "Outcome[LotCardFacts]") -> None:
        if outcome.value is not None and self.code:
            self.renewed.emit(outcome.value)

    def print_label(self, code: str) -> None:
        """Show its label, ask how many, and print it."""
        print_label(self._desk, code, self._printed, looks=True)

    def _printed(self, outcome: Outcome[Paper]) -> None:
        paper = outcome.value
        if paper is not None:
            # What a printer takes, or is about to, needs no window of its own.
            if not paper.printer and paper.to_ask is None:
                self._desk.open_paper(paper.file)
            lead, where = self.tr("The label of {code}"), self.tr("is in {file}.")
            self.say.emit(paper_message(paper, lead, "", where))
            return
        why = refusal_of(outcome).text
        self.say.emit(Message(Mark.REFUSED, self.tr("Not printed."), why))

    def offer_reversal(self, entry: int) -> None:
        """An entry of the history was pressed: it may be taken back."""
        words = self.tr("Entry {n}: reverse it if it was entered wrongly.").format(n=entry)
        self.say.emit(Message(Mark.NOTE, words, action=tr_reverse(), about=entry))
