"""What was printed: a paper or label of a kind, of a code or of the house: a second print says so.

It moves no gram and touches no lot: a paper is printed as often as it takes, but nobody holds two
of them unawares. Of jars it is kept which serials were printed, since no two may carry one code.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.places import place
from honeyledger.ledger.state import State

PRINTED = "printed"
MOST_COPIES = 999
BY_THE_ROLL = {"retail code": 99_999}
"""What is printed once for each jar, though all are alike: so many at most."""

NOTHING_PRINTED = Sentence("nothing-printed", "Say which paper was printed, such as weigh-ticket.")
COPIES_OFF = Sentence(
    "copies-off", "{copies} copies cannot be right: say a number from 1 to {most}."
)
PRINTED_BEFORE = Sentence(
    "printed-before", "It was printed before: this is reprint {again}, and it says so."
)
SERIALS_BACK = Sentence(
    "serials-back", "Serials {first} to {last} are none: say the first one, then the last."
)
SERIALS_BEFORE = Sentence(
    "serials-before",
    "Some of these serials were printed before: no two jars may carry one code, so throw the "
    "older labels away.",
)


@dataclass(frozen=True, slots=True)
class Printed:
    """A paper was printed.

    Args:
        paper: its kind.
        of: the code or the words it is of; "" for the whole house.
        copies: how many of it.
        first, last: of a jar lot, the serials; 0 for what has none.
    """

    kind: ClassVar[str] = PRINTED
    paper: str
    of: str = ""
    copies: int = 1
    first: int = 0
    last: int = 0


def book_printed(facts: Printed, b: Booking) -> None:
    """A dated fact of the paper, with how often it was printed by now."""
    if not facts.paper.strip():
        raise Refusal(NOTHING_PRINTED, field="paper")
    most = BY_THE_ROLL.get(facts.paper, MOST_COPIES)
    if not 1 <= facts.copies <= most:
        raise Refusal(COPIES_OFF, field="copies", copies=facts.copies, most=most)
    before = prints_of(b.state, facts.paper, facts.of)
    subject = _subject(facts.paper, facts.of)
    value: dict[str, object] = {"times": before + 1, "copies": facts.copies}
    if facts.last:
        if not 1 <= facts.first <= facts.last:
            raise Refusal(SERIALS_BACK, field="first", first=facts.first, last=facts.last)
        ranges = serials_printed(b.state, facts.paper, facts.of)
        value["serials"] = joined([*ranges, (facts.first, facts.last)])
        b.mark(subject, PRINTED, value)
        if shared(ranges, facts.first, facts.last):
            b.note(SERIALS_BEFORE)
        return
    b.mark(subject, PRINTED, value)
    if before:
        b.note(PRINTED_BEFORE, again=before)


def prints_of(state: State, paper: str, of: str) -> int:
    """How often this paper was printed before; copies of one print are one."""
    times = _value(state, paper, of).get("times")
    return times if isinstance(times, int) else 0


def serials_printed(state: State, paper: str, of: str) -> list[tuple[int, int]]:
    """The serials of a jar lot whose labels of a kind were printed, in stretches."""
    kept = _value(state, paper, of).get("serials")
    stretches = kept if isinstance(kept, Sequence) and not isinstance(kept, str) else ()
    return [(int(first), int(last)) for first, last in stretches]


def joined(stretches: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """The same serials in as few stretches as there can be, in their order."""
    found: list[tuple[int, int]] = []
    for first, last in sorted(stretches):
        if found and first <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(found[-1][1], last))
        else:
            found.append((first, last))
    return found


def shared(
    stretches: Sequence[tuple[int, int]], first: int, last: int
) -> tuple[tuple[int, int], ...]:
    """What of these stretches lies in that one."""
    cut = ((max(one[0], first), min(one[1], last)) for one in stretches)
    return tuple(one for one in cut if one[0] <= one[1])


def _value(state: State, paper: str, of: str) -> Mapping[str, object]:
    mark = state.mark(_subject(paper, of), PRINTED)
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def _subject(paper: str, of: str) -> str:
    """What the marks of a paper are kept under."""
    return place("paper", "/".join((paper.strip(), " ".join(of.split()).casefold())))
