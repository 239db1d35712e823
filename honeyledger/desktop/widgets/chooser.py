"""Buttons for what to look at; where they have no room, one field to choose it from."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, QSize, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from honeyledger.desktop import tokens
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button, Kind
from honeyledger.desktop.widgets.choice_buttons import BUTTON_GAP, ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField


class Chooser(QWidget):
    """One of a few looks.

    Args:
        label: what is chosen, as a screen reader says it.
        prints: whether a button that prints stands behind it where it is narrow.

    Signals:
        chosen: the key of another one.
        second_chosen: the key of another one of the second choice.
    """

    chosen = Signal(str)
    second_chosen = Signal(str)

    def __init__(self, choices: Sequence[Choice], label: str = "", *, prints: bool = True) -> None:
        super().__init__()
        self._prints = prints
        self._prints_all = False
        self.choices = tuple(choices)
        self._seconds: tuple[Choice, ...] = ()
        label = label or QCoreApplication.translate("chooser", "Look at")
        self.buttons = ChoiceButtons(label, choices, density=Density.DESK)
        self.buttons.label.hide()
        self.field = ChoiceField(label, density=Density.DESK)
        self.field.set_choices(choices)
        self.field.hide()
        self.field.label.hide()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(tokens.STEPS[1])
        row.addWidget(self.buttons, 1)
        row.addWidget(self.field, 1)
        within = QCoreApplication.translate("chooser", "Within it")
        self.second = ChoiceField(within, density=Density.DESK)
        self.second.label.hide()
        self.second.hide()
        row.addWidget(self.second, 1)
        # Where the bar has no room for it, or gives way, one prints here.
        words = QCoreApplication.translate("chooser", "Print")
        self.print_it = Button(words, Kind.SECONDARY, density=Density.DESK, icon="print")
        self.print_it.hide()
        row.addWidget(self.print_it)
        words = QCoreApplication.translate("chooser", "Print all")
        self.print_all = Button(words, Kind.SECONDARY, density=Density.DESK)
        self.print_all.hide()
        row.addWidget(self.print_all)
        self.buttons.chosen.connect(self.chosen)
        self.field.chosen.connect(self.chosen)
        self.second.chosen.connect(self.second_chosen)

    def key(self) -> str:
        """Which one is looked at."""
        return self.buttons.key()

    def set_key(self, key: str) -> None:
        """Show which one is looked at."""
        self.buttons.set_key(key)
        self.field.set_key(key)

    def offer_second(self, choices: Sequence[Choice], key: str) -> None:
        """Offer a choice within the one in hand beside its field, in a narrow window; or none.

        Where the buttons have room, buttons of its own stand where it belongs.
        """
        if tuple(choices) != self._seconds:
            self._seconds = tuple(choices)
            self.second.set_choices(choices)
        self.second.set_key(key)
        self._fit()

    def offer_all(self, *, all_of_it: bool) -> None:
        """Whether all that is chosen together can be printed as one, too."""
        self._prints_all = all_of_it
        self._fit()

    def take_focus(self) -> None:
        """Put the keyboard on it."""
        if self.is_wide():
            self.buttons.take_focus()
        else:
            self.field.take_focus()

    def is_wide(self) -> bool:
        """Whether there is room for the buttons."""
        buttons = self.buttons.buttons()
        # Any of them may be the chosen one, which has its tick besides.
        wanted = sum(made.minimumSizeHint().width() for made in buttons) + BUTTON_GAP * (
            len(buttons) - 1
        )
        return self.width() >= wanted

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        wide = self.is_wide()
        self.buttons.setVisible(wide)
        self.field.setVisible(not wide)
        self.second.setVisible(bool(self._seconds) and not wide)
        self.print_it.setVisible(self._prints and not wide)
        self.print_all.setVisible(self._prints and self._prints_all and not wide)

    def minimumSizeHint(self) -> QSize:
        """It never forces the panel to be wide."""
        hint = super().minimumSizeHint()
        hint.setWidth(tokens.BUTTON_LEAST_WIDTH)
        return hint
