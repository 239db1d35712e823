"""The three ways to begin, one below the other, each with what it means."""

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from honeyledger.desktop import icons, lettering, look, tokens
from honeyledger.desktop.lettering import Hand
from honeyledger.desktop.tokens import SEMIBOLD, Density, Type

_ICON = 24
_SIDE = 20
_HIGH = 80
_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class _Way(QPushButton):
    """One way: its name, and below it what it means."""

    def __init__(self, icon: str, name: str, meaning: str) -> None:
        super().__init__(name)
        self._icon, self.meaning = icon, meaning
        self.setAccessibleDescription(meaning)
        self.setToolTip(meaning)
        self.setAutoDefault(False)
        self.setFixedHeight(_HIGH)
        self.setProperty("ring", "here")

    def sizeHint(self) -> QSize:
        return QSize(280, _HIGH)

    def minimumSizeHint(self) -> QSize:
        return QSize(160, _HIGH)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _KEYS:
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(look.colour("well" if self.underMouse() else "sheet"))
        painter.setPen(QPen(look.colour("act"), tokens.FIELD_EDGE))
        edge = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(edge, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        icons.draw(painter, self._icon, _SIDE, (_HIGH - _ICON) / 2, _ICON, "act")
        left = _SIDE + _ICON + 16
        name = Hand(Type.ENTRY, Density.DESK, SEMIBOLD, "act")
        words = Hand(Type.CAPTION, colour="ink2")
        room = self.width() - left - _SIDE
        lines = lettering.run_lines([words.run(self.meaning)], room, 2)
        top = (_HIGH - name.line - words.line * len(lines)) / 2
        lettering.draw(painter, QRectF(left, top, room, name.line), [name.run(self.text())])
        top += name.line
        for line in lines:
            lettering.draw(painter, QRectF(left, top, room, words.line), line)
            top += words.line


class Ways(QWidget):
    """Ways to choose from; arrows move, Enter takes one.

    Signals:
        taken: the key of a way.
        moved: the way the keyboard is on, to be kept in view.
    """

    taken = Signal(str)
    moved = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.ways: dict[str, _Way] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(tokens.PANEL_SIDE - 1, 8, tokens.PANEL_SIDE - 1, 8)
        self._column.setSpacing(12)
        self._column.addStretch(1)

    def add(self, key: str, icon: str, name: str, meaning: str) -> None:
        """One more way."""
        made = self.ways[key] = _Way(icon, name, meaning)
        made.clicked.connect(lambda: self.taken.emit(key))
        self._column.insertWidget(self._column.count() - 1, made)

    def take_focus(self) -> None:
        """Put the keyboard on the first way."""
        next(iter(self.ways.values())).setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        by = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()))
        made = list(self.ways.values())
        at = next((place for place, way in enumerate(made) if way.hasFocus()), None)
        if by is not None and at is not None:
            after = made[(at + by) % len(made)]
            after.setFocus(Qt.FocusReason.OtherFocusReason)
            self.moved.emit(after)
            return
        super().keyPressEvent(event)
