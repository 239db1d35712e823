"""What needs a name or a reason: nobody closes a run, clears, releases or narrows in silence."""

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking

NO_REASON = Sentence("no-reason", "Give the reason in a word or two.")
NO_SIGNER = Sentence("no-signer", "Say who signs: scan a badge, or name a person who works here.")


def check_reason(text: str, field: str = "reason") -> None:
    """A reason was given.

    Raises:
        Refusal: it is blank.
    """
    if not text.strip():
        raise Refusal(NO_REASON, field=field)


def check_signer(b: Booking) -> None:
    """A person stands behind the entry.

    Raises:
        Refusal: nobody is signed in.
    """
    if not b.act.operator:
        raise Refusal(NO_SIGNER, field="operator")
