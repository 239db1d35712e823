"""The seal on a closed drum: its number, so that whoever opens it is seen to have done so."""

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.state import State

SEAL = "seal"
_MOST_SIGNS = 40

SEAL_ON_OPEN = Sentence(
    "seal-on-open",
    "A seal goes on when a drum is closed: close it, or leave the seal for when you do.",
)
SEAL_TOO_LONG = Sentence(
    "seal-too-long", "The number of a seal has {most} signs at most: read it again."
)


def keep_seal(b: Booking, code: str, text: str) -> None:
    """Note the seal that was put on a drum as it was closed; nothing where there is none.

    Args:
        code: the lot in the drum; "" where the drum was not closed.

    Raises:
        Refusal: the drum stays open, or no seal has a number as long as that.
    """
    seal = " ".join(text.split())
    if not seal:
        return
    if not code:
        raise Refusal(SEAL_ON_OPEN, field="seal")
    if len(seal) > _MOST_SIGNS:
        raise Refusal(SEAL_TOO_LONG, field="seal", most=_MOST_SIGNS)
    b.mark(code, SEAL, seal)


def seal_of(state: State, code: str) -> str:
    """The number of the seal on a drum; "" where none was noted."""
    mark = state.mark(code, SEAL)
    return str(mark.value) if mark is not None else ""
