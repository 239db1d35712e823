"""A field that narrows a list: where the window is low its label gives its room to the rows."""

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QShowEvent

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.fields import TextField

_LOW = 480


class FindField(TextField):
    """What it is for stands above it, or in it where the window is low.

    Args:
        label: what is typed into it, in words that fit into it.
    """

    def __init__(self, label: str, *, density: Density) -> None:
        super().__init__(label, density=density)
        self._watched: QObject | None = None

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._watched is not self.window():
            self._watched = self.window()
            self._watched.installEventFilter(self)
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._watched and event.type() == QEvent.Type.Resize:
            self._fit()
        return super().eventFilter(watched, event)

    def _fit(self) -> None:
        is_low = self.window().height() < _LOW
        self.label.setVisible(not is_low)
        self.editor.setPlaceholderText(self.label.text() if is_low else "")
