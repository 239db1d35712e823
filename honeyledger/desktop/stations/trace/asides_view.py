"""The pages that open from a trace, each made when it is first wanted."""

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QStackedWidget

from honeyledger.desktop.desk import Desk, StationAsks
from honeyledger.desktop.stations.trace.recall_view import RecallView
from honeyledger.desktop.stations.trace.residue_view import ResidueView

Aside = RecallView | ResidueView


class Asides(QObject):
    """A call back, and what a residue comes to, in place of the trace.

    Signals:
        left: back to the trace.
    """

    left = Signal()

    def __init__(self, desk: Desk, stack: QStackedWidget, asks: StationAsks) -> None:
        super().__init__()
        self._desk, self._stack, self._asks = desk, stack, asks
        self._recall: RecallView | None = None
        self._residue: ResidueView | None = None

    def shown(self) -> Aside | None:
        """Which one is in place of the trace; None for the trace itself."""
        seen = self._stack.currentWidget()
        made = (self._recall, self._residue)
        return next((one for one in made if one is not None and one.widget is seen), None)

    def recall(self) -> RecallView:
        """The page of a call back."""
        if self._recall is None:
            self._recall = RecallView(self._desk)
            self._take_in(self._recall)
        return self._recall

    def residue(self) -> ResidueView:
        """The page of a residue."""
        if self._residue is None:
            self._residue = ResidueView(self._desk)
            self._take_in(self._residue)
        return self._residue

    def _take_in(self, made: Aside) -> None:
        self._stack.addWidget(made.widget)
        asks = made.asks
        asks.card.connect(self._asks.card)
        asks.say.connect(self._asks.say)
        asks.trace.connect(self._asks.trace)
        asks.open.connect(self._asks.open)
        asks.hand.connect(self._asks.hand)
        made.left.connect(self.left)
        self._asks.grown.emit()

    def show_recall(self, kind: str, code: str) -> None:
        """Show what goes with a code, with one of the forms in hand."""
        recall = self.recall()
        self._stack.setCurrentWidget(recall.widget)
        recall.open_for(code, kind)

    def show_residue(self, code: str) -> None:
        """Show what a residue in a code comes to; on the page of a call back, in its code."""
        seen = self.shown()
        if isinstance(seen, RecallView) and seen.presenter.code:
            code = seen.presenter.code
        residue = self.residue()
        self._stack.setCurrentWidget(residue.widget)
        residue.open_for(code)
