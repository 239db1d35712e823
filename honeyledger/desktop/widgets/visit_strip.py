"""The strip under the mast during a visit: that nothing is recorded, and what is hidden."""

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from honeyledger.desktop import look, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.text import Text


class VisitStrip(QWidget):
    """Says that it is a visit, for as long as it is one.

    Signals:
        ended: the visit is to end.
    """

    ended = Signal()

    def __init__(self) -> None:
        super().__init__()
        words = self.tr("Visit: read only; customers and coordinates are hidden.")
        self.words = Text(words, Hand(Type.BODY, Density.DESK, SEMIBOLD), wrap=True)
        self.pack = Button(self.tr("Print the pack"), Kind.SECONDARY, density=Density.DESK)
        self.pack.setToolTip(self.tr("Of the jar or lot that was scanned last"))
        self.end = Button(self.tr("End the visit"), Kind.SECONDARY, density=Density.DESK)
        self.end.clicked.connect(self.ended)
        row = QHBoxLayout(self)
        row.setContentsMargins(tokens.PANEL_SIDE, 2, tokens.PANEL_SIDE, 2)
        row.setSpacing(12)
        row.addWidget(self.words, 1, Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.pack)
        row.addWidget(self.end)
        self.setAccessibleName(words)
        self.setFixedHeight(tokens.MAST_HEIGHT)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("alert_tint"))
        painter.fillRect(QRectF(0, 0, tokens.SELECTION_BAR, self.height()), look.colour("alert"))
