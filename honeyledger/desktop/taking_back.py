"""Reverses what was just recorded; where others are built on it, offers to show them."""

from dataclasses import dataclass, replace

from PySide6.QtCore import QObject

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.widgets.toast import Toast
from honeyledger.ledger.verbs.corrections import BUILT_ON, Reverse
from honeyledger.services.house import Recorded

PUTTING_RIGHT = "entered wrongly"


@dataclass(frozen=True, slots=True)
class ChainMeant:
    """A toast offers to show what is built on an entry that was not reversed."""

    entry: int


class TakingBack(QObject):
    """What was recorded in one go, from the toast, a slot or a card: an entry, or several."""

    def __init__(self, desk: Desk, toast: Toast) -> None:
        super().__init__(toast)
        self._desk, self._toast = desk, toast

    def reverse(self, *entries: int) -> None:
        """Reverse entries that nothing is built on, the newest first: all of them, or none."""
        facts = [Reverse(entry, PUTTING_RIGHT) for entry in sorted(entries, reverse=True)]
        self._desk.record(
            facts, self._desk.said_now(), lambda outcome: self._reversed(entries, outcome)
        )

    def _reversed(self, entries: tuple[int, ...], outcome: Outcome[Recorded]) -> None:
        if outcome.value is not None:
            by = outcome.value.entries[-1].id
            words = self.tr("Entry {entry} is reversed by entry {by}.")
            if len(entries) > 1:
                words = self.tr("Entries {entry} to {last} are reversed, the last by entry {by}.")
            said = words.format(entry=min(entries), last=max(entries), by=by)
            self._toast.show_message(Message(Mark.REVERSED, said))
            return
        refusal = refusal_of(outcome)
        message = Message(Mark.REFUSED, self.tr("Not reversed."), refusal_words(refusal))
        if refusal.key == BUILT_ON.key:
            entry = int(str(refusal.facts["entry"]))
            words = self.tr("Others are built on entry {entry}.").format(entry=entry)
            offer = self.tr("Show them")
            message = replace(message, text=words, action=offer, about=ChainMeant(entry))
        self._toast.show_message(message)
