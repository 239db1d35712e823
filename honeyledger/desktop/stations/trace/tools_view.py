"""What a river can be looked at with: larger, smaller, and its yards on a map."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from honeyledger.desktop.stations.trace.words import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.figures import Answer


class _Tool(Button):
    """A button that is all icon: its name is its tip."""

    def __init__(self, icon: str, words: str) -> None:
        super().__init__("", Kind.PLAIN, density=Density.DESK, icon=icon)
        self.setAccessibleName(words)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setToolTip(self.accessibleName())


class AnswerRow(QWidget):
    """The answer, and beside it the tools.

    Signals:
        zoomed: steps larger or smaller.
        map_wanted: the map is wanted, or not any more.
    """

    zoomed = Signal(int)
    map_wanted = Signal()

    def __init__(self, answer: Answer) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(answer, 1)
        self.map = Button(tr("Map"), Kind.SECONDARY, density=Density.DESK)
        self.smaller = self._zoom("minus", -1, tr("Draw the river smaller"))
        self.larger = self._zoom("plus", 1, tr("Draw the river larger"))
        for button in (self.smaller, self.larger, self.map):
            row.addWidget(button)
        self.map.clicked.connect(self.map_wanted)

    def _zoom(self, icon: str, steps: int, words: str) -> Button:
        made = _Tool(icon, words)
        made.clicked.connect(lambda: self.zoomed.emit(steps))
        return made

    def show_tools(self, *, river: bool, with_map: bool, map_shown: bool) -> None:
        """Show what there is something to do with."""
        for button in (self.smaller, self.larger):
            button.setVisible(river)
        self.map.setVisible(with_map)
        self.map.setText(tr("Hide map") if map_shown else tr("Map"))
