"""A station's smaller forms in the place of its first one: turned to by a button, and back.

They are made when first turned to: a station is open sooner, and most days go by without them.
"""

import importlib
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.messages import Message
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.buttons import Button
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.spread import Leaves
from honeyledger.domain.refusals import Refusal

if TYPE_CHECKING:  # loaded by name, with the forms
    from honeyledger.desktop.models.asked import FormSpec
    from honeyledger.desktop.models.asking import Asking
    from honeyledger.desktop.widgets.asking_panel import AskingPanel


class SecondForms(QObject):
    """The forms, what a scan means to each, and the button that turns to them.

    Args:
        name: under which their drafts are kept.
        specs: makes the forms.
        first: the station's first panel, whose place they take.
        words: the panel's heading, and what stands above the buttons that choose a form.
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
        specs: "Callable[[], Sequence[FormSpec]]",
        first: Panel,
        words: tuple[str, str],
        taken: Mapping[str, str],
        density: Density,
    ) -> None:
        super().__init__()
        self._desk, self._first, self._taken = desk, first, taken
        self._name, self._specs, self._words, self._density = name, specs, words, density
        self._button: Button | None = None
        self._names = ("", "")
        self._made: tuple[Asking, AskingPanel] | None = None
        self._offered: dict[str, Sequence[Choice]] = {}
        self._page: tuple[Any, str, date] | None = None
        self.leaves = Leaves(first)

    @property
    def asking(self) -> "Asking":
        """What is typed in the forms."""
        return self._forms()[0]

    @property
    def form(self) -> "AskingPanel":
        """The forms' panel."""
        return self._forms()[1]

    def _forms(self) -> "tuple[Asking, AskingPanel]":
        if self._made is None:
            self._made = self._make()
            self.furnish(*self._made)
            self._offer_all(*self._made)
        return self._made

    def furnish(self, asking: "Asking", form: "AskingPanel") -> None:
        """The forms were just made: put in what their panel has besides."""

    def _make(self) -> "tuple[Asking, AskingPanel]":
        # By name: who opens a station does not wait for them.
        asks = importlib.import_module("honeyledger.desktop.models.asking")
        panels = importlib.import_module("honeyledger.desktop.widgets.asking_panel")
        asking: Asking = asks.Asking(self._desk, self._name, self._specs())
        form: AskingPanel = panels.AskingPanel(
            asking, *self._words, self._density, lambda _at, code: code
        )
        self.leaves.add(form.panel)
        asking.done.connect(self._done)
        asking.refused.connect(self._refused)
        asking.restored.connect(self._restored)
        return asking, form

    def _offer_all(self, asking: "Asking", form: "AskingPanel") -> None:
        for name, choices in self._offered.items():
            form.offer(name, choices)
        if self._page is not None:
            asking.show_page(*self._page)
            form.set_unit(self._desk.unit)

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
        return self.leaves.currentWidget() is not self._first

    def turn(self) -> None:
        """To these forms, or back to the first one."""
        self.leaves.setCurrentWidget(self._first if self.is_shown() else self.form.panel)
        self._name_button()
        self.turned.emit()

    def show_first(self) -> None:
        """Back to the first form, where a scan is for it."""
        if self.is_shown():
            self.turn()

    def offer_choices(self, name: str, choices: Sequence[Choice]) -> None:
        """Give every field that chooses from a list of the station these choices."""
        self._offered[name] = choices
        if self._made is not None:
            self.form.offer(name, choices)

    def show_page(self, page: Any, ledger: str, today: date) -> None:
        """The station's page has come."""
        self._page = page, ledger, today
        if self._made is not None:
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

    def _restored(self, kind: str) -> None:
        """What was left half typed came after the form was shown: go on where it ends."""
        if self.is_shown() and kind == self.asking.kind and self.form.form.isVisible():
            self.form.begin()

    def _refused(self, refusal: Refusal) -> None:
        self.refused.emit(refusal)
        self.form.show_refusal(refusal)
