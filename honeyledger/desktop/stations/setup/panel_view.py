"""The panel of the form in hand: what it says above the form, its buttons below."""

from collections.abc import Sequence

from PySide6.QtWidgets import QStackedWidget

from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.setup.asks import tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal

DOCK = "dock"


class FormPanel(Panel):
    """A slot, a stack of forms, and three buttons."""

    def __init__(self, density: Density) -> None:
        super().__init__(tr("Set up"), density=density)
        self.said = self.add_slot()
        self.forms = QStackedWidget()
        self.set_body(self.forms)
        bar = self.add_bar()
        self.save = bar.add_primary(tr("Save and go on"))
        self.skip = bar.add_secondary(tr("Skip"))
        self.more = bar.add_plain(tr("More facts"))

    def say_known(self) -> None:
        """The form shows a record that is there."""
        words = tr("Change it and save: the ledger keeps what it was before.")
        self.said.show_messages([Message(Mark.NOTE, tr("This one is registered."), words)])

    def say_notes(self, messages: Sequence[Message]) -> None:
        """What the ledger says to what was recorded stands until something else is said."""
        if self.said.shown() is None:
            self.said.show_messages(messages)

    def say_complete(self) -> None:
        """Nothing needed is missing, and the dock is offered."""
        words, offer = tr("Add more here, or go on to the dock."), tr("Receive a pallet")
        lead = tr("All that is needed is there.")
        self.said.show_messages([Message(Mark.READY, lead, words, offer, DOCK)])

    def say_refusal(self, refusal: Refusal) -> None:
        """Why it was not saved; of a table what is wrong stands beside, row by row."""
        text = refusal_words(refusal).partition("\n")[0]
        self.said.show_messages([Message(Mark.REFUSED, tr("Not saved."), text)])
