"""One of a few, as buttons side by side: sealed, mixed, green; or the reasons for a reversal."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QRadioButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from honeyledger.desktop import lettering, look, marks, tokens
from honeyledger.desktop.lettering import Hand, Side
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.tokens import Density, Type
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.text import caption

BUTTON_GAP = 8
# How much narrower a button may become before its text is cut.
_GIVES_WAY = 8


def button_width(text: str, density: Density) -> int:
    """The room a button wants: its text, a tick before it, and what is free at both sides."""
    width = lettering.width([Hand(Type.ENTRY, density).run(text)]) + tokens.MARK_TABLE + 32
    return max(tokens.TARGET_LEAST, int(width))


class ChoiceButton(QRadioButton):
    """One of the buttons; the chosen one carries a tick and a tint."""

    def __init__(self, choice: Choice, density: Density) -> None:
        super().__init__()
        self._density = density
        self.setFixedHeight(tokens.control_height(density))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.stand_for(choice)

    def stand_for(self, choice: Choice) -> None:
        """Offer this choice from now on."""
        self.choice = choice
        self.setText(choice.text)
        self.setAccessibleDescription(choice.note)

    def sizeHint(self) -> QSize:
        return QSize(button_width(self.text(), self._density), self.height())

    def minimumSizeHint(self) -> QSize:
        """Where room is short: the whole text with its tick, and little free at the sides."""
        hint = self.sizeHint()
        return QSize(max(tokens.TARGET_LEAST, hint.width() - _GIVES_WAY), hint.height())

    def hitButton(self, _position: object) -> bool:
        return True

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = self.isChecked()
        fill = "act_tint" if chosen else "well" if self.underMouse() else "sheet"
        painter.setBrush(look.colour(fill))
        painter.setPen(QPen(look.colour("act" if chosen else "edge"), tokens.FIELD_EDGE))
        rect = QRectF(self.rect())
        edge = rect.adjusted(1, 1, -1, -1)
        painter.drawRoundedRect(edge, tokens.RADIUS_CONTROL, tokens.RADIUS_CONTROL)
        run = Hand(Type.ENTRY, self._density).run(self.text())
        before = tokens.MARK_TABLE + 6 if chosen else 0
        left = rect.center().x() - (run.width + before) / 2
        if chosen:
            top = rect.center().y() - tokens.MARK_TABLE / 2
            marks.draw(painter, Mark.READY, left, top, tokens.MARK_TABLE)
        words = QRectF(left + before, 0, rect.width() - left - before - 6, rect.height())
        lettering.draw(painter, words, [run], Side.LEFT)


_ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)


def _stop_before(widget: QWidget) -> QWidget:
    """Where Tab stops last before it comes to this one; itself where there is no such place."""
    found = widget.previousInFocusChain()
    while found is not None and found is not widget:
        if found.focusPolicy() & Qt.FocusPolicy.TabFocus:
            return found
        found = found.previousInFocusChain()
    return widget


class ChoiceButtons(QWidget):
    """A labelled row of buttons of which one is chosen; arrows move, Enter moves on.

    `is_by_arrow` says whether the last choice was made with an arrow, on the way to another one.

    Args:
        in_row: how many stand side by side at most; 0 for all of them.
    """

    chosen = Signal(str)
    submitted = Signal()

    def __init__(
        self,
        label: str,
        choices: Sequence[Choice] = (),
        *,
        density: Density = Density.FLOOR,
        in_row: int = 0,
    ) -> None:
        super().__init__()
        self._density = density
        self._in_row = in_row
        self.is_by_arrow = False
        self.label = caption(label)
        self._group = QButtonGroup(self)
        self._row = QGridLayout()
        self._row.setSpacing(BUTTON_GAP)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(tokens.LABEL_GAP)
        column.addWidget(self.label)
        column.addLayout(self._row)
        self._group.buttonClicked.connect(lambda: self.chosen.emit(self.key()))
        self.set_choices(choices)

    def buttons(self) -> list[ChoiceButton]:
        """The buttons, in order."""
        return [made for made in self._group.buttons() if isinstance(made, ChoiceButton)]

    def set_choices(self, choices: Sequence[Choice]) -> None:
        """Offer other choices; none is chosen.

        Buttons that are there are used again, and new ones come behind them: so Tab still comes
        to them where it did.
        """
        there = self.buttons()
        for old in there[len(choices) :]:
            self._group.removeButton(old)
            self._row.removeWidget(old)
            old.hide()
            old.deleteLater()
        for made, choice in zip(there, choices, strict=False):
            made.stand_for(choice)
        for choice in choices[len(there) :]:
            made = self.made_button(choice)
            made.installEventFilter(self)
            # The first comes where these buttons stand, and not behind all else in the window.
            before = [_stop_before(self), *self.buttons()][-1]
            self._group.addButton(made)
            self._place(made)
            if self.window() is not self:
                QWidget.setTabOrder(before, made)
        self.set_key("")
        self._name()

    def _place(self, made: ChoiceButton) -> None:
        """Behind the others, in a new row where this one is full."""
        at = len(self.buttons()) - 1
        row, column = divmod(at, self._in_row or at + 1)
        self._row.addWidget(made, row, column)
        self._row.setColumnStretch(column, 1)

    def made_button(self, choice: Choice) -> ChoiceButton:
        """The button of a choice, before it stands here."""
        return ChoiceButton(choice, self._density)

    def set_label(self, label: str) -> None:
        """Change what stands above the buttons."""
        self.label.setText(label)
        self._name()

    def _name(self) -> None:
        for made in self.buttons():
            made.setAccessibleName(f"{self.label.text()}: {made.choice.text}")

    def key(self) -> str:
        """The key of what is chosen, or ""."""
        at = self._group.checkedButton()
        return at.choice.key if isinstance(at, ChoiceButton) else ""

    def set_key(self, key: str) -> None:
        """Choose by key; "" chooses none. `chosen` is not sent."""
        self._group.setExclusive(False)
        for made in self.buttons():
            made.setChecked(made.choice.key == key)
        self._group.setExclusive(True)
        self._stop_at_one()

    def _stop_at_one(self) -> None:
        """Tab stops at the chosen one, from either side; the arrows lead on to the others."""
        key = self.key()
        for made in self.buttons():
            stops = not key or made.isChecked()
            made.setFocusPolicy(Qt.FocusPolicy.StrongFocus if stops else Qt.FocusPolicy.ClickFocus)

    def take_focus(self) -> None:
        """Put the keyboard on the chosen button, else on the first."""
        at = self._group.checkedButton() or next(iter(self.buttons()), None)
        if at is not None:
            at.setFocus(Qt.FocusReason.OtherFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            self.is_by_arrow = event.key() in _ARROWS
        elif isinstance(event, QMouseEvent) and event.type() == QEvent.Type.MouseButtonPress:
            self.is_by_arrow = False
        return super().eventFilter(watched, event)

    def keyPressEvent(self, event: object) -> None:
        key = getattr(event, "key", int)()
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            focused = self.focusWidget()
            if isinstance(focused, ChoiceButton) and not focused.isChecked():
                focused.click()
            self.submitted.emit()
            return
        super().keyPressEvent(event)  # type: ignore[arg-type]
