"""A vessel's sight glass as five buttons, each with its mark drawn: where the honey stands."""

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen

from honeyledger.desktop import lettering, look, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.choice_buttons import ChoiceButton, ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice

MARKS = 5
_GLASS = 12.0
_INSET = 7.0
_WORDS = _INSET + _GLASS + 6


class _MarkButton(ChoiceButton):
    """One mark: the glass filled up to it, and what that is."""

    def sizeHint(self) -> QSize:
        wide = lettering.width([self._hand().run(self.text())])
        return QSize(max(tokens.TARGET_LEAST, int(wide + _WORDS + _INSET) + 1), self.height())

    def _hand(self) -> Hand:
        return Hand(Type.ENTRY, self._density)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = self.isChecked()
        fill = "act_tint" if chosen else "well" if self.underMouse() else "sheet"
        painter.setBrush(look.colour(fill))
        painter.setPen(QPen(look.colour("act" if chosen else "edge"), tokens.FIELD_EDGE))
        edge = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(edge, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        self._draw_glass(painter)
        words = QRectF(_WORDS, 0, self.width() - _WORDS - 4, self.height())
        lettering.draw(painter, words, [self._hand().run(self.text())], Side.LEFT)

    def _draw_glass(self, painter: QPainter) -> None:
        high = self.height() - 2 * _INSET
        glass = QRectF(_INSET, _INSET, _GLASS, high)
        part = high * int(self.choice.key) / MARKS
        painter.fillRect(glass, look.colour("sheet"))
        painter.fillRect(QRectF(_INSET, _INSET + high - part, _GLASS, part), look.colour("edge"))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(look.colour("ink"), 1))
        painter.drawRect(glass)
        for mark in range(1, MARKS):
            y = int(_INSET + high * mark / MARKS)
            painter.drawLine(int(_INSET + _GLASS - 4), y, int(_INSET + _GLASS), y)


class SightGlass(ChoiceButtons):
    """Five marks from the lowest to full."""

    def __init__(self, label: str, *, density: Density = Density.FLOOR) -> None:
        super().__init__(label, density=density)
        self.show_amounts([""] * MARKS)

    def made_button(self, choice: Choice) -> ChoiceButton:
        return _MarkButton(choice, self._density)

    def show_amounts(self, amounts: Sequence[str]) -> None:
        """Say what the honey weighs at each mark; the mark chosen stays."""
        key = self.key()
        self.set_choices([Choice(str(mark), amount) for mark, amount in enumerate(amounts, 1)])
        for mark, button in enumerate(self.buttons(), 1):
            words = self.tr("{label}: mark {n} of {of}, {amount}")
            button.setAccessibleName(
                words.format(label=self.label.text(), n=mark, of=MARKS, amount=amounts[mark - 1])
            )
            button.setMinimumHeight(tokens.TARGET_LEAST)
        self.set_key(key)
