"""A paper before it is printed: how many copies of it; Enter prints."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QApplication, QDialog, QVBoxLayout, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.desk import CopiesAsked
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.printing import COPIES_OFF, MOST_COPIES

_WIDE, _HIGH = 460, 300


class CopiesAsk(QDialog):
    """How many copies; `then` is told the number, 0 where it is not to be printed."""

    def __init__(
        self, asked: CopiesAsked, then: Callable[[int], None], parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self._then = then
        self.setWindowTitle(asked.title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.panel = Panel(density=Density.DESK)
        self.panel.set_heading(asked.title)
        self.slot = self.panel.add_slot(tall=True)
        self.copies = CountField(_tr("Copies"), least=1, most=MOST_COPIES, density=Density.DESK)
        self.copies.set_value(1)
        self.copies.submitted.connect(self.accept)
        body = QWidget()
        below = QVBoxLayout(body)
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
        room = parent.window().size() if parent is not None else None
        self.resize(min(_WIDE, room.width()) if room is not None else _WIDE, _HIGH)
        where = _tr("It is written as a PDF.")
        if asked.goes_to:
            where = _tr("It goes to {printer}.").format(printer=asked.goes_to)
        self.slot.set_next_step(f"{_tr('Enter prints, Esc does not.')} {where}")
        if asked.again:
            words = _tr("It was printed before: this is reprint {again}, and it says so.")
            self.slot.show_messages([Message(Mark.NOTE, words.format(again=asked.again))])
        self.copies.editor.setFocus()

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
        super().done(result)
        self._then(self.wanted() if result == QDialog.DialogCode.Accepted.value else 0)


def ask_copies(asked: CopiesAsked, then: Callable[[int], None]) -> CopiesAsk:
    """Ask in front of the window in use; the answer comes later, and 0 for none."""
    made = CopiesAsk(asked, then, QApplication.activeWindow())
    made.open()
    return made


def _tr(text: str) -> str:
    return QCoreApplication.translate("copies_ask", text)
