"""Claims judged again: a record that was wrong as jars were bottled is put right by name.

What was sealed with the bottling stays in its entry; from now on the label is held against what
the books say today.
"""

from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.claims import Claims, Ruling
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.claims import CLAIMS, as_kept, claims_of, frozen
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.signing import check_reason, check_signer

SAME_CLAIMS = Sentence(
    "same-claims",
    "The books say of {code} what they said as it was bottled: nothing to judge again. Put the "
    "records right first.",
)
JUDGED_AGAIN = Sentence(
    "claims-judged-again",
    "The claims of {code} are judged again: {changed} otherwise than before.",
)


@dataclass(frozen=True, slots=True)
class JudgeClaims:
    """The claims of a jar lot are judged by the books as they are now; by name, with a reason."""

    kind: ClassVar[str] = "judge claims"
    lot: str
    reason: str = ""


def book_judge_claims(facts: JudgeClaims, b: Booking) -> None:
    """Seal anew what may be claimed; the entry of the bottling is left as it is."""
    lot = find_lot(b.state, facts.lot, "J", "lot")
    check_reason(facts.reason)
    check_signer(b)
    now, before = claims_of(b.state, {lot.id: lot.made_g}), frozen(b.state, lot.code)
    if now is None or as_kept(now) == (before and as_kept(before)):
        raise Refusal(SAME_CLAIMS, field="lot", code=lot.code)
    b.mark(lot.code, CLAIMS, as_kept(now))
    b.note(JUDGED_AGAIN, code=lot.code, changed=_changed(now, before))


def _changed(now: Claims, before: Claims | None) -> str:
    """The names of the claims that are ruled otherwise."""
    names = [
        one.claim.partition("/")[2] or one.claim
        for one in now.claims
        if before is None or _ruling(before, one.claim) is not one.ruling
    ]
    return ", ".join(names) or "nothing"


def _ruling(claims: Claims, claim: str) -> Ruling:
    return claims.of(claim).ruling
