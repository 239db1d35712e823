"""The card beside the page, whichever station is open; made when the first one is asked for."""

import importlib
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.language import say
from honeyledger.desktop.stations.card.presenter import CardPresenter

if TYPE_CHECKING:  # loaded by name, with the first card or its first paper
    from honeyledger.desktop.models.lot_card import LotCardFacts
    from honeyledger.desktop.sheets import Sheets
    from honeyledger.desktop.widgets.card import LotCard

WIDGET = "honeyledger.desktop.widgets.card"
SHEETS = "honeyledger.desktop.sheets"
KINDS = "honeyledger.services.paper_kinds"


class CardView(QObject):
    """The card of a lot, or of a place.

    Signals:
        made: the card's widget, before it is shown for the first time.
        found: the card asked for is ready to be shown.
        not_found: the `Refusal` a code ended with.
        closed: the person put it away.
    """

    made = Signal(object)
    found = Signal()
    not_found = Signal(object)
    closed = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.asks = StationAsks()
        self._desk = desk
        self._sheets: Sheets | None = None
        self._widget: LotCard | None = None
        self._turns = desk.jobs.turns
        self.presenter = CardPresenter(desk)
        self.presenter.found.connect(self._found)
        self.presenter.renewed.connect(lambda facts: self.widget.show_facts(facts))
        self.presenter.refused.connect(self.not_found)
        self.presenter.say.connect(self.asks.say)

    @property
    def widget(self) -> "LotCard":
        """What is seen of it."""
        if self._widget is None:
            self._widget = self._make()
            self.made.emit(self._widget)
        return self._widget

    def _make(self) -> "LotCard":
        widget: LotCard = importlib.import_module(WIDGET).LotCard()
        widget.print_asked.connect(self.presenter.print_label)
        widget.trace_asked.connect(self._trace)
        widget.sheet_asked.connect(self._print_sheet)
        widget.papers_asked.connect(self._offer_papers)
        widget.complaint_asked.connect(self._complain)
        widget.takes_complaints = not self._desk.is_visit
        widget.entry_asked.connect(self.presenter.offer_reversal)
        widget.closed.connect(self.closed)
        widget.hide()
        return widget

    def holds(self, widget: QWidget | None) -> bool:
        """Whether a widget stands in the card."""
        return bool(widget and self._widget and self._widget.isAncestorOf(widget))

    def show_code(self, code: str) -> None:
        """Find the card of a code; `found` or `not_found` follows."""
        self.presenter.show(code)
        # While it is being found.
        self.widget.ensurePolished()

    def take_focus(self) -> None:
        """Put the keyboard on what is done next."""
        self.widget.take_focus()

    def handle(self, action: str) -> bool:
        """The keys that mean the lot on the card."""
        code = self.presenter.code
        if not code or action not in ("print", "trace-this"):
            return False
        if action == "print":
            self.presenter.print_label(code)
        else:
            self._trace(code)
        return True

    def _print_sheet(self, code: str) -> None:
        """The pull sheet of the yard on the card, for the printer."""
        self._print_kind(code, "pull-sheet")

    def _offer_papers(self, code: str) -> None:
        """What there is on paper of the lot on the card, to choose one of."""
        kinds = importlib.import_module(KINDS)
        words = [
            (kind, say(kinds.KINDS[kind].title))
            for kind in kinds.offered(self._desk.letter_of(code))
        ]
        self.widget.choose_paper(words, lambda kind: self._print_kind(code, kind))

    def _print_kind(self, code: str, kind: str) -> None:
        if self._sheets is None:
            made = importlib.import_module(SHEETS).Sheets
            self._sheets = made(self._desk, self.asks.say.emit, opens=True)
        self._sheets.print_kind(kind, code)

    def _trace(self, code: str) -> None:
        self.asks.trace.emit(self.presenter.traced(code))

    def _complain(self, code: str) -> None:
        """A complaint is about the very jar that was scanned, where it was one."""
        self.asks.complain.emit(self.presenter.traced(code))

    def _found(self, facts: "LotCardFacts") -> None:
        self.widget.show_facts(facts)
        # Making room for it lays the page out anew: in a turn of its own.
        self._turns.add(lambda: self.found.emit() if self.presenter.code else None)

    def put_away(self) -> None:
        """No card is shown any more."""
        self.presenter.put_away()
