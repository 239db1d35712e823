"""What needs a name or a reason: nobody closes a run, clears, releases or narrows in silence."""

from collections.abc import Mapping

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import key_of
from honeyledger.ledger.state import State

NO_REASON = Sentence("no-reason", "Give the reason in a word or two.")
NO_SIGNER = Sentence("no-signer", "Say who signs: scan a badge, or name a person who works here.")

NOBODYS_NAME = Sentence(
    "nobodys-name",
    "Nobody's name is on this entry, so nobody can be asked about it later: name the operator.",
)
NO_SECOND = Sentence(
    "no-second-person",
    "In this house two people free what is on hold: name the second one, who agrees.",
)
SAME_SECOND = Sentence(
    "second-is-the-first",
    "{name} signs already: the second person has to be somebody else.",
)
TWO_FREE = "two_free"  # a fact of the house's record
OPERATOR = "operator"


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


def two_free(state: State) -> bool:
    """Whether in this house a hold is cleared or released by two people."""
    mark = state.mark("house", "record")
    return bool(mark and isinstance(mark.value, Mapping) and mark.value.get(TWO_FREE) == 1)


def check_second(b: Booking, text: str) -> dict[str, str]:
    """Who agrees beside the person who signs, as it is written down; {} where nobody has to.

    Raises:
        Refusal: the house asks for a second person and none is named; or it is the same one.
    """
    if not text.strip():
        if two_free(b.state):
            raise Refusal(NO_SECOND, field="second")
        return {}
    subject, record = find_record(b.state, OPERATOR, text, "second")
    name = str(record.get("name", ""))
    if b.act.operator.casefold() in (key_of(subject).casefold(), name.casefold()):
        raise Refusal(SAME_SECOND, field="second", name=name)
    return {"second": key_of(subject)}
