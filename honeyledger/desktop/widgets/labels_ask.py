"""Labels before they are printed: as they will print, how many of each, and from which label of a
part-used sheet on, since a wrong print is wasted.
"""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QPoint, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QBoxLayout,
    QDialog,
    QFrame,
    QLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import style, tokens
from honeyledger.desktop.desk import LabelsAsked, LabelsWanted, Seen
from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.paper_look import PaperLook
from honeyledger.desktop.widgets.sheet_look import SheetLook
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_count
from honeyledger.ledger.verbs.printing import COPIES_OFF, MOST_COPIES

_WIDE, _HIGH = 980, 640
# From here on the label is seen beside what is asked, else above it.
_BESIDE_FROM = 760
_LABEL_HIGH = 210
_WHOLE = "whole"
_TYPED_MS = 200  # a figure is typed sign by sign
# Of the labels about the one in hand, how much is seen besides.
_ABOUT = 24


class LabelsAsk(QDialog):
    """The label, copies, and the sheet with its first free label marked; Enter prints."""

    def __init__(
        self,
        asked: LabelsAsked,
        then: Callable[[LabelsWanted | None], None],
        parent: QWidget | None,
    ) -> None:
        super().__init__(parent)
        self._then, self._asked = then, asked
        self.setWindowTitle(_tr("Labels before they are printed"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.panel = Panel(density=Density.DESK)
        self.slot = self.panel.add_slot(tall=True)
        self.label = PaperLook(asked.jobs)
        self._sees = QTimer(self, singleShot=True, interval=_TYPED_MS)
        self._sees.timeout.connect(self._see)
        self._is_seen: LabelsWanted | None = None
        self._is_open = True
        self.forms = ChoiceButtons(_tr("As"), density=Density.DESK, in_row=2)
        self.copies = CountField(
            _tr("Copies of each"), least=1, most=MOST_COPIES, density=Density.DESK
        )
        self.forms.chosen.connect(self._turn)
        self.forms.submitted.connect(lambda: self.copies.editor.setFocus())
        self.copies.set_value(1)
        self.copies.edited.connect(lambda _text: self._tell())
        self.copies.submitted.connect(self.accept)
        self.look = SheetLook(asks=True)
        self.look.taken.connect(self._keep_in_view)
        self.look.taken.connect(lambda _number: self._sees.start())
        self.look.show_stock(asked.stock, asked.first, asked.labels)
        self.area = self._made_area()
        self.panel.set_body(self.area)
        bar = self.panel.add_bar()
        self.print = bar.add_primary(_tr("Print"))
        self.leave = bar.add_secondary(_tr("Do not print"))
        for button in (self.print, self.leave):
            button.setAutoDefault(False)
        self.print.clicked.connect(self.accept)
        self.leave.clicked.connect(self.reject)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSizeConstraint(QLayout.SizeConstraint.SetNoConstraint)
        column.addWidget(self.panel)
        room = parent.window().size() if parent is not None else None
        wide = min(_WIDE, room.width()) if room is not None else _WIDE
        high = min(_HIGH, room.height()) if room is not None else _HIGH
        self.resize(wide, high)
        self._show(asked)
        (self.look if asked.stock.cells > 1 else self.copies.editor).setFocus()

    def _made_area(self) -> QScrollArea:
        """What is seen and asked; it scrolls in a low window."""
        asks = QWidget()
        below = QVBoxLayout(asks)
        side = tokens.PANEL_SIDE - 1
        below.setContentsMargins(side, 8, side, 8)
        below.setSpacing(tokens.STEPS[2])
        for part in (self.forms, self.copies):
            below.addWidget(part)
        below.addWidget(self.look, 1000)
        below.addStretch(1)
        body = QWidget()
        self._beside = QBoxLayout(QBoxLayout.Direction.LeftToRight, body)
        self._beside.setContentsMargins(0, 0, 0, 0)
        self._beside.addWidget(self.label, 5)
        self._beside.addWidget(asks, 4)
        area = QScrollArea()
        area.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(area)
        area.setWidgetResizable(True)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.viewport().setAutoFillBackground(False)
        area.setWidget(body)
        for one in (body, asks):
            one.setAutoFillBackground(False)
        return area

    # What is shown.

    def _show(self, asked: LabelsAsked) -> None:
        self._asked = asked
        stock = asked.stock
        self.panel.set_heading(stock.name)
        self._is_seen = None
        if asked.see is None:
            self.label.show_paper(None)
        self.forms.set_choices([Choice(form or _WHOLE, word) for form, word in asked.forms])
        self.forms.set_key(asked.form or _WHOLE)
        self.forms.setVisible(bool(asked.forms))
        self.look.setVisible(stock.cells > 1)
        where = _tr("It is written as a PDF.")
        if asked.goes_to:
            where = _tr("It goes to {printer}.").format(printer=asked.goes_to)
        step = _tr("Enter prints, Esc does not.")
        if stock.cells > 1:
            step = _tr("Which label is the first free one? Arrows go there, Enter prints.")
        self.slot.set_next_step(f"{step} {where}")
        self.look.show_stock(stock, asked.first, asked.labels)
        self._tell()
        self._see()

    def _tell(self) -> None:
        """How many labels so many copies are, and what is worth knowing of them."""
        copies = self.copies.value() or 1
        asked, first = self._asked, self.look.first
        self.look.show_stock(asked.stock, first, asked.labels * min(copies, MOST_COPIES))
        notes = [Message(Mark.WARNING, say(note)) for note in asked.notes(copies)]
        self.slot.show_messages(notes)
        self._sees.start()

    def _see(self) -> None:
        """Have them drawn as they are wanted now, unless that is what is seen."""
        asked = self._asked
        try:
            wanted = self.wanted()
        except Refusal:
            return  # said when it is printed
        if asked.see is None or wanted == self._is_seen:
            return
        self._is_seen = wanted

        def told(seen: Seen) -> None:
            if self._is_open and self._is_seen is wanted:
                self.label.show_paper(seen)

        def drawn(done: int, of: int) -> None:
            if self._is_open and self._is_seen is wanted:
                self.label.show_progress(done, of)

        asked.see(wanted, told, drawn)

    def _turn(self, key: str) -> None:
        """Another label of the same."""
        form = "" if key == _WHOLE else key
        if self._asked.other is not None and form != self._asked.form:
            self._asked.other(form, self._turned)

    def _turned(self, what: LabelsAsked | Refusal) -> None:
        if isinstance(what, Refusal):
            self.forms.set_key(self._asked.form or _WHOLE)
            self._refuse(what)
        else:
            self._show(what)

    def _refuse(self, refusal: Refusal) -> None:
        words = Message(Mark.REFUSED, _tr("Not printed."), refusal_words(refusal))
        self.slot.show_messages([words])

    # What is answered.

    def wanted(self) -> LabelsWanted:
        """From which label on, and how many of each.

        Raises:
            Refusal: the copies are no number, or more than anybody prints.
        """
        copies = parse_count(self.copies.text(), "a number of copies", field="copies")
        if not 1 <= copies <= MOST_COPIES:
            raise Refusal(COPIES_OFF, field="copies", copies=copies, most=MOST_COPIES)
        return LabelsWanted(self.look.first, copies)

    def accept(self) -> None:
        """Print, unless what is typed cannot be read."""
        try:
            self.wanted()
        except Refusal as refusal:
            self._refuse(refusal)
            self.copies.editor.setFocus()
        else:
            super().accept()

    def done(self, result: int) -> None:
        """Closed in any way: printing goes on like that, or not at all."""
        self._is_open = False
        self._sees.stop()
        super().done(result)
        is_meant = result == QDialog.DialogCode.Accepted.value
        self._then(self.wanted() if is_meant else None)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.look.hasFocus():
            self.accept()
        else:
            super().keyPressEvent(event)

    # Where there is room.

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        # Where there is little room all is laid out anew first.
        QTimer.singleShot(0, self, lambda: self._keep_in_view(self.look.first))
        self._keep_in_view(self.look.first)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        is_wide = self.width() >= _BESIDE_FROM
        way = QBoxLayout.Direction.LeftToRight if is_wide else QBoxLayout.Direction.TopToBottom
        self._beside.setDirection(way)
        self.label.setMinimumHeight(0 if is_wide else _LABEL_HIGH)
        self._keep_in_view(self.look.first)

    def _keep_in_view(self, number: int) -> None:
        """Scroll so that a label, and some of those about it, are seen; else where one types."""
        if not self.look.isVisibleTo(self):
            self.area.ensureWidgetVisible(self.copies, 0, _ABOUT)
            return
        cell = self.look.cell(number).toRect()
        body = self.area.widget()
        assert body is not None
        at = self.look.mapTo(body, QPoint(cell.center()))
        x, y = cell.width() // 2 + _ABOUT, cell.height() // 2 + _ABOUT
        self.area.ensureVisible(at.x(), at.y(), x, y)


def ask_labels(asked: LabelsAsked, then: Callable[[LabelsWanted | None], None]) -> LabelsAsk:
    """Ask in front of the window in use; the answer comes later, and None for none."""
    made = LabelsAsk(asked, then, QApplication.activeWindow())
    made.open()
    return made


def _tr(text: str) -> str:
    return QCoreApplication.translate("labels_ask", text)
