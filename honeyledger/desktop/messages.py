"""What a station has to tell the person in front of it: a kind, its first words, the rest.

The worst message is said first; a refusal outranks all. Where they are shown is the slot's affair.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.marks import Mark, severity


@dataclass(frozen=True, slots=True)
class Message:
    """One thing to say.

    Args:
        mark: what kind of thing it is.
        lead: its first words, said in the mark's colour.
        text: the rest of the sentence.
        action: what can be done about it at once ("Reverse"); empty for nothing.
        about: what the action is about, given back when it is pressed.
    """

    mark: Mark
    lead: str
    text: str = ""
    action: str = ""
    about: object = None

    @property
    def sentence(self) -> str:
        """The whole of it."""
        return f"{self.lead} {self.text}".strip()


def worst_first(messages: Iterable[Message]) -> list[Message]:
    """The messages in the order of how much they need a person; equals keep their order."""
    return sorted(messages, key=lambda message: -severity(message.mark))


def recorded(sentence: str, entry: object) -> Message:
    """The short line after recording, which offers to reverse the entry it names."""
    return Message(Mark.READY, sentence, action=tr_reverse(), about=entry)


def tr_reverse() -> str:
    """The word on the button that takes a recorded entry back."""
    return QCoreApplication.translate("messages", "Reverse")


def and_more(count: int) -> str:
    """How many messages stand behind the one shown."""
    return QCoreApplication.translate("messages", "and {n} more").format(n=count)
