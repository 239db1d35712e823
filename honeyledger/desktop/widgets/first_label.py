"""Asks which label of a part-used sheet is the first free one, since a wrong print is wasted."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QFrame,
    QLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import style
from honeyledger.desktop.desk import PartUsed
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.sheet_look import SheetLook

_WIDE, _HIGH = 520, 560
# Of the labels about the one in hand, how much is seen besides.
_ABOUT = 24


class FirstLabel(QDialog):
    """The sheet with the first free label marked: arrows or a click take another, Enter prints."""

    def __init__(
        self, sheet: PartUsed, then: Callable[[int], None], parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self._then = then
        self.setWindowTitle(_tr("Where the sheet begins"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        panel = Panel(sheet.stock.name, density=Density.DESK)
        slot = panel.add_slot()
        slot.set_next_step(
            _tr("Which label is the first free one? Arrows go there, Enter prints.")
        )
        self.look = SheetLook(asks=True)
        self.look.show_stock(sheet.stock, sheet.first, sheet.labels)
        self.area = QScrollArea()
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        style.wear_bars(self.area)
        self.area.setWidgetResizable(True)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.area.viewport().setAutoFillBackground(False)
        self.look.setAutoFillBackground(False)
        self.area.setWidget(self.look)
        self.look.taken.connect(self._keep_in_view)
        panel.set_body(self.area)
        bar = panel.add_bar()
        self.print = bar.add_primary(_tr("Print"))
        self.leave = bar.add_secondary(_tr("Do not print"))
        for button in (self.print, self.leave):
            button.setAutoDefault(False)
        self.print.clicked.connect(self.accept)
        self.leave.clicked.connect(self.reject)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSizeConstraint(QLayout.SizeConstraint.SetNoConstraint)
        column.addWidget(panel)
        room = parent.window().size() if parent is not None else None
        wide = min(_WIDE, room.width()) if room is not None else _WIDE
        high = min(_HIGH, room.height()) if room is not None else _HIGH
        self.resize(wide, high)
        self.look.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.look.hasFocus():
            self.accept()
        else:
            super().keyPressEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._keep_in_view(self.look.first)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._keep_in_view(self.look.first)

    def _keep_in_view(self, number: int) -> None:
        """Scroll so that a label, and some of those about it, are seen."""
        cell = self.look.cell(number).toRect()
        x, y = cell.width() // 2 + _ABOUT, cell.height() // 2 + _ABOUT
        self.area.ensureVisible(cell.center().x(), cell.center().y(), x, y)

    def done(self, result: int) -> None:
        """Closed in any way: printing goes on from there, or not at all (0)."""
        super().done(result)
        self._then(self.look.first if result == QDialog.DialogCode.Accepted.value else 0)


def ask_first(sheet: PartUsed, then: Callable[[int], None]) -> FirstLabel:
    """Ask in front of the window in use; the answer comes later, and 0 for none."""
    asked = FirstLabel(sheet, then, QApplication.activeWindow())
    asked.open()
    return asked


def _tr(text: str) -> str:
    return QCoreApplication.translate("first_label", text)
