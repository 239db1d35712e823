"""A paper before it is printed: its pages as they will print, how many copies; Enter prints."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, Qt, QTimer
from PySide6.QtWidgets import QApplication, QDialog, QHBoxLayout, QVBoxLayout, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.desk import CopiesAsked, Seen
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.paper_look import PaperLook
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.printing import COPIES_OFF, MOST_COPIES

_WIDE, _HIGH = 460, 300
_WIDE_SEEN, _HIGH_SEEN = 1200, 1040
_TYPED_MS = 200  # a figure is typed sign by sign


class CopiesAsk(QDialog):
    """How many copies; `then` is told the number, 0 where it is not to be printed."""

    def __init__(
        self, asked: CopiesAsked, then: Callable[[int], None], parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self._then, self._asked = then, asked
        self._is_seen, self._is_open = 0, True
        self.setWindowTitle(asked.title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.panel = Panel(density=Density.DESK)
        self.panel.set_heading(asked.title)
        self.slot = self.panel.add_slot(tall=True)
        self.copies = CountField(_tr("Copies"), least=1, most=MOST_COPIES, density=Density.DESK)
        self.copies.set_value(1)
        self.copies.submitted.connect(self.accept)
        self.paper = PaperLook(asked.jobs)
        self._sees = QTimer(self, singleShot=True, interval=_TYPED_MS)
        self._sees.timeout.connect(self._see)
        self.copies.edited.connect(lambda _text: self._sees.start())
        body, asks = QWidget(), QWidget()
        beside = QHBoxLayout(body)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.addWidget(self.paper, 5)
        beside.addWidget(asks, 2 if asked.see is not None else 5)
        below = QVBoxLayout(asks)
        side = tokens.PANEL_SIDE - 1
        below.setContentsMargins(side, 8, side, 8)
        below.addWidget(self.copies)
        below.addStretch(1)
        self.panel.set_body(body)
        bar = self.panel.add_bar()
        self.print = bar.add_primary(_tr("Print"))
        self.leave = bar.add_secondary(_tr("Do not print"))
        for button, act in ((self.print, self.accept), (self.leave, self.reject)):
            button.setAutoDefault(False)
            button.clicked.connect(act)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.panel)
        wide, high = (_WIDE, _HIGH) if asked.see is None else (_WIDE_SEEN, _HIGH_SEEN)
        if parent is not None:
            room = parent.window().size()
            wide, high = min(wide, room.width()), min(high, room.height())
        self.resize(wide, high)
        where = _tr("It is written as a PDF.")
        if asked.goes_to:
            where = _tr("It goes to {printer}.").format(printer=asked.goes_to)
        self.slot.set_next_step(f"{_tr('Enter prints, Esc does not.')} {where}")
        if asked.again:
            words = _tr("It was printed before: this is reprint {again}, and it says so.")
            self.slot.show_messages([Message(Mark.NOTE, words.format(again=asked.again))])
        if asked.see is None:
            self.paper.show_paper(None)
        self._see()
        self.copies.editor.setFocus()

    def _see(self) -> None:
        """Have so many copies drawn, unless they are what is seen."""
        try:
            copies = self.wanted()
        except Refusal:
            return  # said when it is printed
        if self._asked.see is None or copies == self._is_seen:
            return
        self._is_seen = copies

        def told(seen: Seen) -> None:
            if self._is_open and self._is_seen == copies:
                self.paper.show_paper(seen)

        def drawn(page: int, of: int) -> None:
            if self._is_open and self._is_seen == copies:
                self.paper.show_progress(page, of)

        self._asked.see(copies, told, drawn)

    def wanted(self) -> int:
        """How many.

        Raises:
            Refusal: it is no number, or more than anybody prints.
        """
        copies = parse_count(self.copies.text(), "a number of copies", field="copies")
        if not 1 <= copies <= MOST_COPIES:
            raise Refusal(COPIES_OFF, field="copies", copies=copies, most=MOST_COPIES)
        return copies

    def accept(self) -> None:
        """Print, unless what is typed cannot be read."""
        try:
            self.wanted()
        except Refusal as refusal:
            words = Message(Mark.REFUSED, _tr("Not printed."), refusal_words(refusal))
            self.slot.show_messages([words])
            self.copies.editor.setFocus()
        else:
            super().accept()

    def done(self, result: int) -> None:
        """Closed in any way: printing goes on like that, or not at all."""
        self._is_open = False
        self._sees.stop()
        super().done(result)
        self._then(self.wanted() if result == QDialog.DialogCode.Accepted.value else 0)


def ask_copies(asked: CopiesAsked, then: Callable[[int], None]) -> CopiesAsk:
    """Ask in front of the window in use; the answer comes later, and 0 for none."""
    made = CopiesAsk(asked, then, QApplication.activeWindow())
    made.open()
    return made


def _tr(text: str) -> str:
    return QCoreApplication.translate("copies_ask", text)
