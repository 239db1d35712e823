"""Where the rows of a table are narrowed to those with some words, at the foot of its rows."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from honeyledger.desktop import look, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.models.line_figures import grouped
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.buttons import IconButton
from honeyledger.desktop.widgets.fields import FieldBox, FieldEdit
from honeyledger.desktop.widgets.text import Text

_GAP = 6


class TableFind(QWidget):
    """A field, how many rows are left, and the way back to all of them.

    Signals:
        wanted: what is typed now.
        entered: Enter: on to the rows that are left.
        left: all rows are wanted again.
    """

    wanted = Signal(str)
    entered = Signal()
    left = Signal()

    def __init__(self, density: Density) -> None:
        super().__init__()
        self.box = FieldBox(Density.DESK)
        self.editor = FieldEdit(Density.DESK)
        self.editor.setAccessibleName(self.tr("Find in the table"))
        self.editor.setPlaceholderText(self.tr("Find"))
        self.editor.setMinimumWidth(2 * tokens.STEPS[-1])
        self.box.row.addWidget(self.editor)
        self.has_totals = False
        self.counts = Text("", Hand(Type.CAPTION, density, colour="ink2"))
        self.away = IconButton("close", self.tr("Show all rows again"))
        row = QHBoxLayout(self)
        row.setContentsMargins(tokens.PANEL_SIDE - 1, _GAP, _GAP, _GAP)
        row.setSpacing(tokens.STEPS[2])
        row.addWidget(self.box, 3)
        row.addWidget(self.counts, 2)
        row.addWidget(self.away)
        self.setFixedHeight(tokens.control_height(Density.DESK) + 2 * _GAP)
        self.editor.textEdited.connect(self.wanted)
        self.editor.returnPressed.connect(self.entered)
        self.away.clicked.connect(self.leave)
        self.hide()

    def begin(self, shown: int, given: int) -> None:
        """Stand there with the keyboard."""
        self.show_counts(shown, given)
        self.show()
        self.editor.setFocus(Qt.FocusReason.OtherFocusReason)
        self.editor.selectAll()

    def show_counts(self, shown: int, given: int) -> None:
        """Say how many of the rows are left; totals, where there are any, are of all of them."""
        words = self.tr("all {all} rows")
        if shown != given:
            words = self.tr("{n} of {all} rows")
            if self.has_totals:
                words = self.tr("{n} of {all} rows; totals of all")
        self.counts.setText(words.format(n=grouped(shown), all=grouped(given)))

    def leave(self) -> None:
        """Show all rows again."""
        self.editor.clear()
        self.hide()
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.leave()
            return
        super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), look.colour("well"))
