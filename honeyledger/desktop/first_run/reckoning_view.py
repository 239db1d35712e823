"""The calculator in a window of its own, for whoever has no house yet."""

from datetime import date

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QMainWindow, QVBoxLayout, QWidget

from honeyledger.desktop import look, tokens
from honeyledger.desktop.stations.calculator.view import Calculator


class _Ground(QWidget):
    """What the two panels stand on."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), look.colour("ground"))


class Reckoning(QMainWindow):
    """The calculator; Esc closes it."""

    def __init__(self, today: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.calculator = Calculator(today)
        self.setWindowTitle(self.tr("Calculator"))
        ground = _Ground()
        column = QVBoxLayout(ground)
        gap = tokens.PANEL_GAP
        column.setContentsMargins(gap, gap, gap, gap)
        column.addWidget(self.calculator.spread)
        self.setCentralWidget(ground)
        self.resize(1120, 700)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.WindowActivate:
            self.calculator.begin()
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.close()
            return
        super().keyPressEvent(event)
