"""What a customer said of the sample of a lot: kept on the lot, and looked at before it leaves."""

from collections.abc import Mapping, Sequence

from honeyledger.domain.refusals import Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import key_of

APPROVED, REFUSED = "approved", "refused"
VERDICTS = (APPROVED, REFUSED)

SENT_REFUSED = Sentence(
    "sent-although-refused",
    "{customer} refused sample {sample} of {code}: {reason}. Ask them before it leaves.",
)
SENT_WAITING = Sentence(
    "sent-before-approval",
    "{customer} has not said yet what they think of sample {sample} of {code}. Ask them first.",
)


def offered(customer: str) -> str:
    """The name of the mark that a sample for a customer leaves on the lots it is of."""
    return f"offered/{key_of(customer)}"


def offer(
    b: Booking,
    lots: Sequence[Lot],
    customer: str,
    sample: str,
    verdict: str = "",
    reason: str = "",
) -> None:
    """Write down on the lots of a sample whom it was drawn for, and later what they said."""
    value = {"sample": sample, "verdict": verdict, "reason": reason}
    for lot in lots:
        b.mark(lot.code, offered(customer), value)


def note_verdict(b: Booking, lot: Lot, marks: Mapping[str, Json], customer: str) -> None:
    """A lot leaves for a customer who refused its sample, or has not answered."""
    said = marks.get(offered(customer))
    if not isinstance(said, Mapping) or said.get("verdict") == APPROVED:
        return
    shown = {"customer": name_of(b.state, customer), "sample": said["sample"], "code": lot.code}
    if said.get("verdict") == REFUSED:
        b.note(SENT_REFUSED, reason=said.get("reason", ""), **shown)
    else:
        b.note(SENT_WAITING, **shown)
