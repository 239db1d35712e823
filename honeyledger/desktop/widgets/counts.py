"""A count with a large minus and plus, for gloves; the arrow keys do the same."""

from PySide6.QtCore import QEvent, QObject, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QWidget

from honeyledger.desktop import icons, look, tokens
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.fields import Field


class StepButton(QAbstractButton):
    """The minus or the plus; held down, it goes on."""

    def __init__(self, icon: str, name: str, size: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._icon_name = icon
        self.setFixedSize(size, size)
        self.setAccessibleName(name)
        self.setToolTip(name)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAutoRepeat(True)
        self.setAutoRepeatDelay(400)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        fill = "act_tint" if self.isDown() or self.underMouse() else "well"
        # The field's own edge stays visible round the button.
        inner = QRectF(self.rect()).adjusted(2, 2, -2, -2)
        painter.fillRect(inner, look.colour(fill))
        middle = inner.center()
        icons.draw(painter, self._icon_name, middle.x() - 12, middle.y() - 12, 24, "act")


class CountField(Field):
    """A whole number of things: supers, drums, jars.

    It holds text like every field, so that "12,5" can be refused in words; the steps count only
    from a whole number, and from nothing they begin at the least.
    """

    stepped = Signal(object)

    def __init__(
        self,
        label: str,
        *,
        least: int = 0,
        most: int = 9999,
        density: Density = Density.FLOOR,
    ) -> None:
        super().__init__(label, density=density)
        self._least, self._most = least, most
        size = tokens.control_height(density)
        self.minus = StepButton("minus", self.tr("one less"), size)
        self.plus = StepButton("plus", self.tr("one more"), size)
        self.box.row.setContentsMargins(0, 0, 0, 0)
        self.box.row.setSpacing(0)
        self.box.row.insertWidget(0, self.minus)
        self.box.row.addWidget(self.plus)
        self.editor.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.minus.clicked.connect(lambda: self._step(-1))
        self.plus.clicked.connect(lambda: self._step(1))
        self.editor.installEventFilter(self)

    def value(self) -> int | None:
        """The count, or None where what is typed is not a whole number."""
        text = self.text().strip()
        return int(text) if text.isascii() and text.isdigit() else None

    def set_value(self, value: int) -> None:
        """Show a count."""
        self.set_text(str(value))

    def _step(self, by: int) -> None:
        now = self.value()
        if now is None and self.text().strip():
            return
        after = self._least if now is None else now + by
        after = min(self._most, max(self._least, after))
        self.set_value(after)
        self._typed(str(after))
        self.stepped.emit(after)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            by = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}.get(Qt.Key(event.key()))
            if by is not None:
                self._step(by)
                return True
        return super().eventFilter(watched, event)
