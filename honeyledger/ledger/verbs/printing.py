"""What was printed: a paper of a kind, of a code or of the house, so that a second print says so.

It moves no gram and touches no lot: a paper is printed as often as it takes, but nobody holds two
of them unawares.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.places import place
from honeyledger.ledger.state import State

PRINTED = "printed"
MOST_COPIES = 999

NOTHING_PRINTED = Sentence("nothing-printed", "Say which paper was printed, such as weigh-ticket.")
COPIES_OFF = Sentence(
    "copies-off", "{copies} copies cannot be right: say a number from 1 to {most}."
)
PRINTED_BEFORE = Sentence(
    "printed-before", "It was printed before: this is reprint {again}, and it says so."
)


@dataclass(frozen=True, slots=True)
class Printed:
    """A paper was printed.

    Args:
        paper: its kind.
        of: the code or the words it is of; "" for the whole house.
        copies: how many of it.
    """

    kind: ClassVar[str] = PRINTED
    paper: str
    of: str = ""
    copies: int = 1


def book_printed(facts: Printed, b: Booking) -> None:
    """A dated fact of the paper, with how often it was printed by now."""
    if not facts.paper.strip():
        raise Refusal(NOTHING_PRINTED, field="paper")
    if not 1 <= facts.copies <= MOST_COPIES:
        raise Refusal(COPIES_OFF, field="copies", copies=facts.copies, most=MOST_COPIES)
    before = prints_of(b.state, facts.paper, facts.of)
    subject = _subject(facts.paper, facts.of)
    b.mark(subject, PRINTED, {"times": before + 1, "copies": facts.copies})
    if before:
        b.note(PRINTED_BEFORE, again=before)


def prints_of(state: State, paper: str, of: str) -> int:
    """How often this paper was printed before; copies of one print are one."""
    mark = state.mark(_subject(paper, of), PRINTED)
    times = mark.value.get("times") if mark and isinstance(mark.value, Mapping) else 0
    return times if isinstance(times, int) else 0


def _subject(paper: str, of: str) -> str:
    """What the marks of a paper are kept under."""
    return place("paper", "/".join((paper.strip(), " ".join(of.split()).casefold())))
