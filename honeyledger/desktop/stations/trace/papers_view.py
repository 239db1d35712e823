"""What is on the trace's page, written as pages or as a picture, and what is said of it."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QObject

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import shown_path
from honeyledger.desktop.stations.trace.bodies_view import Bodies
from honeyledger.desktop.stations.trace.paper import paper_of
from honeyledger.desktop.stations.trace.presenter import Timed, TracePresenter
from honeyledger.desktop.widgets.message_slot import MessageSlot
from honeyledger.domain.moments import moment_at
from honeyledger.domain.refusals import Refusal
from honeyledger.services.trace_page import TracePage


class TracePapers(QObject):
    """Prints a trace, and says in the slot how far it is and where it went."""

    def __init__(self, desk: Desk, presenter: TracePresenter, slot: MessageSlot) -> None:
        super().__init__()
        self._desk, self._presenter, self._slot = desk, presenter, slot
        presenter.printed.connect(self._printed)
        presenter.printing.connect(self._printing)

    def print(
        self, timed: Timed | None, heading: tuple[str, str], bodies: Bodies, *, picture: bool
    ) -> None:
        """Write an answer among the papers, with its river and all rows of its table."""
        if timed is None:
            words = self.tr("Trace a code first: its river and its table are what is printed.")
            self._slot.show_messages([Message(Mark.NOTE, words)])
            return
        page, table = timed.answer, bodies.table()
        if isinstance(page, TracePage):
            rows: Sequence[object] = self._presenter.yard_rows(page)
            lead = self._presenter.counted(page.trace.ancestors)
        else:
            rows, lead = self._presenter.reached_rows(page, in_full=True), ""
        paper = paper_of(
            timed,
            heading,
            (table.model.columns, rows),
            lead,
            bodies.totals(),
            moment_at(self._desk.house.clock(), self._desk.zone),
        )
        self._presenter.print(page, paper, picture=picture)

    def _printing(self, done: int, of: int) -> None:
        words = self.tr("page {n} of {of}").format(n=done, of=of)
        self._slot.show_messages([Message(Mark.WORKING, self.tr("Printing:"), words)])

    def _printed(self, what: Path | Refusal) -> None:
        if isinstance(what, Refusal):
            self._slot.show_messages(
                [Message(Mark.REFUSED, self.tr("Not printed."), refusal_words(what))]
            )
            return
        words = self.tr("is in {file}.").format(file=shown_path(what))
        self._slot.show_messages([Message(Mark.READY, self.tr("The trace"), words)])
        self._desk.open_paper(what)
