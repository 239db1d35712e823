"""A station's smaller forms in the place of its first one: turned to by a button, and back."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked import FormSpec
from honeyledger.desktop.models.asking import Asking
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.asking_panel import AskingPanel
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Leaves
from honeyledger.domain.refusals import Refusal


class SecondForms(QObject):
    """The forms, what a scan means to each, and the button that turns to them.

    Args:
        name: under which their drafts are kept.
        first: the station's first panel, whose place they take.
        heading, what: the panel's heading, and what stands above the buttons that choose a form.
        taken: by form, the letters of the codes its scanned answer takes.

    Signals:
        turned: the other of the two is shown now.
        done: a `Message` of what was recorded.
        refused: a `Refusal`; it stands in the form.
    """

    turned = Signal()
    done = Signal(object)
    refused = Signal(object)

    def __init__(
        self,
        desk: Desk,
        name: str,
        specs: Sequence[FormSpec],
        first: Panel,
        words: tuple[str, str],
        taken: Mapping[str, str],
        density: Density,
    ) -> None:
        super().__init__()
        self._desk, self._first, self._taken = desk, first, taken
        self._button: Button | None = None
        self._names = ("", "")
        self.asking = Asking(desk, name, specs)
        self.form = AskingPanel(self.asking, *words, density, lambda _at, code: code)
        self.leaves = Leaves(first, self.form.panel)
        self.asking.done.connect(self._done)
        self.asking.refused.connect(self._refused)

    def use_button(self, button: Button, there: str, back: str) -> None:
        """The button that turns, with what it says on either side."""
        self._button, self._names = button, (there, back)
        button.clicked.connect(self.turn)
        self._name_button()

    def _name_button(self) -> None:
        if self._button is not None:
            self._button.setText(self._names[self.is_shown()])

    def is_shown(self) -> bool:
        """Whether these forms are in hand, and not the first one."""
        return self.leaves.currentWidget() is self.form.panel

    def turn(self) -> None:
        """To these forms, or back to the first one."""
        self.leaves.setCurrentWidget(self._first if self.is_shown() else self.form.panel)
        self._name_button()
        self.turned.emit()

    def show_first(self) -> None:
        """Back to the first form, where a scan is for it."""
        if self.is_shown():
            self.turn()

    def show_page(self, page: Any, ledger: str, today: date) -> None:
        """The station's page has come."""
        self.asking.show_page(page, ledger, today)
        self.form.set_unit(self._desk.unit)

    def take_code(self, text: str, use: Callable[[str], bool] = lambda _code: False) -> bool:
        """A code was scanned: whether the form in hand takes it, or `use` does."""
        letter, code = self._desk.letter_of(text), self._desk.code_of(text)
        if not letter or not self.is_shown():
            return False
        if use(code):
            return True
        if letter not in self._taken.get(self.asking.kind, ""):
            return False
        self.asking.scan(code)
        self.form.begin()
        return True

    def clear(self) -> bool:
        """Empty the form in hand, where these are in hand."""
        if self.is_shown():
            self.asking.clear()
            self.form.begin()
        return self.is_shown()

    def _done(self, _kind: str, message: Message) -> None:
        self.done.emit(message)
        self.form.begin()

    def _refused(self, refusal: Refusal) -> None:
        self.refused.emit(refusal)
        self.form.show_refusal(refusal)
