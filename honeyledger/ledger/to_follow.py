"""Weights that follow: which fills of a drum were guessed, and what each is off by in the end.

The scale says what is in a drum, not who put how much of it there. What it finds off is shared
out over the fills that were guessed, in proportion to their guesses; a fill that was weighed keeps
its weight. Each fill's part is a mark of its entry, so that the balance of its run has it.
"""

from collections.abc import Sequence

from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.places import place
from honeyledger.ledger.state import State

PENDING = "pending"  # a mark on what still waits for its weight: a lot, or an open container
GUESSED = "guessed"  # a mark beside it: the fills that were guessed, with the grams of each
OFF_BY = "off by"  # a mark on the entry of such a fill, once the drum is weighed
_ENTRY = "entry"

Guess = tuple[int, int]


def guesses_of(state: State, subject: str) -> list[Guess]:
    """The fills of a drum whose weight is still to follow: their entries, and what was guessed."""
    pending = state.mark(subject, PENDING)
    mark = state.mark(subject, GUESSED) if pending and pending.value else None
    if mark is None or not isinstance(mark.value, Sequence):
        return []
    return [(int(str(row[0])), int(str(row[1]))) for row in mark.value if isinstance(row, list)]


def keep_guesses(b: Booking, subject: str, guesses: Sequence[Guess]) -> None:
    """These fills of a lot, or of an open container, are guessed; none where all are weighed."""
    if guesses:
        b.mark(subject, PENDING, 1)
        b.mark(subject, GUESSED, [list(guess) for guess in guesses])
        return
    pending = b.state.mark(subject, PENDING)
    if pending and pending.value:
        b.mark(subject, PENDING, 0)


def settle_guesses(b: Booking, subject: str, off_g: int) -> bool:
    """The drum is weighed: share out what its guesses were off by. Says whether there were any."""
    guesses = guesses_of(b.state, subject)
    if not guesses:
        return False
    weights = [grams for _, grams in guesses]
    parts = largest_remainder(off_g, weights if any(weights) else [1] * len(weights))
    for (entry, _), part in zip(guesses, parts, strict=True):
        b.mark(place(_ENTRY, str(entry)), OFF_BY, part)
    b.mark(subject, PENDING, 0)
    return True


def off_by(state: State, entry: int) -> int | None:
    """What a guessed fill was off by, grams; None where its drum was not weighed since."""
    mark = state.mark(place(_ENTRY, str(entry)), OFF_BY)
    return mark.value if mark and isinstance(mark.value, int) else None
