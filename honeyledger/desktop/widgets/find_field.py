"""A field that narrows a list: where the window is low its label gives its room to the rows."""

from PySide6.QtGui import QResizeEvent, QShowEvent

from honeyledger.desktop.widgets.fields import TextField

_LOW = 480


class FindField(TextField):
    """What it is for stands above it, or in it where the window is low."""

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        is_low = self.window().height() < _LOW
        self.label.setVisible(not is_low)
        self.editor.setPlaceholderText(self.label.text() if is_low else "")
