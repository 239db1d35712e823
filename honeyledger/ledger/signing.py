"""What needs a name or a reason: nobody closes a run, clears, releases or narrows in silence."""

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking

NO_REASON = Sentence("no-reason", "Give the reason in a word or two.")
NO_SIGNER = Sentence("no-signer", "Say who signs: scan a badge, or name a person who works here.")

NOBODYS_NAME = Sentence(
    "nobodys-name",
    "Nobody's name is on this entry, so nobody can be asked about it later: name the operator.",
)


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


def note_unsigned(b: Booking) -> None:
    """Remind of a name, in a house that knows the people who work there."""
    if not b.act.operator and b.state.marked("record", "operator/"):
        b.note(NOBODYS_NAME)
