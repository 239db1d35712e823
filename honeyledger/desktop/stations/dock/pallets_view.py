"""What else happens at the dock, in the place of the receipt; what it makes gets its label."""

import importlib
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.label_print import print_label
from honeyledger.desktop.models.reading_asks import INSTRUMENTS
from honeyledger.desktop.printing import Paper, paper_message, paper_of
from honeyledger.desktop.stations.dock.words import (
    CONTAINERS,
    COUNT,
    JOIN,
    SPLIT,
    SUPPLIERS,
    TAKEN,
    tr,
)
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.second_forms import SecondForms
from honeyledger.services.dock_page import DockPage

if TYPE_CHECKING:  # loaded by name, with the forms
    from honeyledger.desktop.models.asked import FormSpec

ASKS = "honeyledger.desktop.stations.dock.pallet_asks"


class Pallets(QObject):
    """The forms, and the tag or label of what they made; `made` is told its code."""

    def __init__(
        self, desk: Desk, first: Panel, density: Density, made: Callable[[str], object]
    ) -> None:
        super().__init__()
        self._desk, self._tell = desk, made
        words = tr("At the dock"), tr("What happens")
        self.forms = SecondForms(desk, "dock-pallets", self._specs, first, words, TAKEN, density)

    def _specs(self) -> "Sequence[FormSpec]":
        # By name: the dock is what opens first, and no one waits for these.
        make: Callable[[Callable[[str], object]], Sequence[FormSpec]]
        make = importlib.import_module(ASKS).pallet_forms
        return make(self._made)

    def show_page(self, page: DockPage) -> None:
        """Offer what there is to choose from."""
        offer = self.forms.offer_choices
        offer(INSTRUMENTS, [Choice(one.code, one.name, one.detail) for one in page.instruments])
        offer(SUPPLIERS, [Choice(one.name, one.name) for one in page.suppliers])
        offer(CONTAINERS, [Choice(one.code, one.name) for one in page.containers])
        self.forms.show_page(page, page.ledger, page.today)

    def take_code(self, text: str) -> bool:
        """A code was scanned: whether the form in hand takes it."""
        return self.forms.take_code(text, self._second)

    def _second(self, code: str) -> bool:
        """The second pallet is the one below; a pull says of which yard."""
        asking = self.forms.asking
        typed = asking.now()
        if asking.kind == JOIN and code[:1] == "G" and typed.text("pallet") not in ("", code):
            asking.fill(typed.with_value("onto", code))
        elif asking.kind in (SPLIT, COUNT) and code[:1] == "S":
            asking.fill(typed.with_value("pull", code))
        else:
            return False
        self.forms.form.begin()
        return True

    def _made(self, code: str) -> None:
        if code:
            self._tell(code)
            print_label(self._desk, code, self._printed)

    def _printed(self, outcome: Outcome[Paper]) -> None:
        what = paper_of(outcome)
        if what is not None:
            words = tr("The label {code}"), tr("No label printed.")
            self.forms.form.say(paper_message(what, *words))
