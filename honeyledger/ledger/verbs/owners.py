"""Other people's honey: runs pooled by agreement, and the settlement with their owners."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.in_run import RUN_UNKNOWN
from honeyledger.ledger.lookup import find_lot, read_code
from honeyledger.ledger.owners import POOLED, OwnersPart, Settlement, is_pooled, settlement_of
from honeyledger.ledger.places import place
from honeyledger.ledger.signing import check_signer
from honeyledger.ledger.title import HOUSE, find_party, owner_of, party_name, pass_title

SETTLED = "settled"

NO_AGREEMENT = Sentence("no-agreement", "Say what was agreed, and by whom, in a word or two.")
POOLED_ALREADY = Sentence("pooled-already", "{run} is pooled already. Nothing was changed.")
OWN_HONEY_ONLY = Sentence(
    "own-honey-only",
    "From a pooled run nobody gets the honey of their own hives alone: say so to the owners.",
)
CLOSE_FIRST = Sentence("close-first", "{run} is still open: close it, then settle it.")
SETTLED_ALREADY = Sentence(
    "settled-already",
    "{run} was settled with entry {entry}. Reverse that entry first, if it was wrong.",
)
NOTHING_TO_SETTLE = Sentence(
    "nothing-to-settle", "Nothing was loaded in {run}: there is nobody to settle with."
)
KEPT_RANGE = Sentence(
    "kept-range", "{kept} of a thousand cannot be kept by the house: type 0 to 1000."
)
NOT_AN_OWNER = Sentence("not-an-owner", "{owner} had no supers in {run}. Its owners are {owners}.")
DUE = Sentence(
    "due",
    "{owner}: {supers} supers, {honey} of honey by {basis}; {kept} kept by the house, {due} due; "
    "{cappings} of cappings.",
)


@dataclass(frozen=True, slots=True)
class Pool:
    """The owners agreed that a run is pooled."""

    kind: ClassVar[str] = "pool"
    agreement: str
    run: str = ""


@dataclass(frozen=True, slots=True)
class Settle:
    """A closed run is settled with its owners, by name; what was shared is frozen.

    Args:
        kept_permille: what the house keeps of other people's honey for its work, in a thousand.
        drums: drums that become an owner's with it, each with whose it is.
    """

    kind: ClassVar[str] = "settle"
    run: str = ""
    kept_permille: int = 0
    drums: tuple[tuple[str, str], ...] = ()
    note: str = ""


def _run(text: str, b: Booking) -> str:
    if text:
        b.act = replace(b.act, run=str(read_code(b.state, text, "run")))
    if not b.act.run or b.state.mark(place("run", b.act.run), "opened") is None:
        raise Refusal(RUN_UNKNOWN, field="run", run=b.act.run or "That")
    return b.act.run


def book_pool(facts: Pool, b: Booking) -> None:
    """A fact of the run."""
    run = _run(facts.run, b)
    if not facts.agreement.strip():
        raise Refusal(NO_AGREEMENT, field="agreement")
    if is_pooled(b.state, run):
        raise Refusal(POOLED_ALREADY, field="run", run=run)
    value = {"agreement": facts.agreement.strip(), "by": b.act.operator}
    b.mark(place("run", run), POOLED, value)
    b.note(OWN_HONEY_ONLY)


def book_settle(facts: Settle, b: Booking) -> None:
    """Freeze each owner's share as signed, and pass the title of the drums named."""
    run = _run(facts.run, b)
    check_signer(b)
    subject = place("run", run)
    if b.state.mark(subject, "closed") is None:
        raise Refusal(CLOSE_FIRST, field="run", run=run)
    if (before := b.state.mark(subject, SETTLED)) is not None:
        raise Refusal(SETTLED_ALREADY, field="run", run=run, entry=before.entry)
    if not 0 <= facts.kept_permille <= 1000:
        raise Refusal(KEPT_RANGE, field="kept_permille", kept=facts.kept_permille)
    settlement = settlement_of(b.state, run)
    if not settlement.parts:
        raise Refusal(NOTHING_TO_SETTLE, field="run", run=run)
    _pass_drums(facts, settlement, b)
    kept = {part.owner: kept_of(part, facts.kept_permille) for part in settlement.parts}
    b.mark(
        subject,
        SETTLED,
        {
            "basis": settlement.basis,
            "honey_g": settlement.honey_g,
            "cappings_g": settlement.cappings_g,
            "parts": [asdict(part) | {"kept_g": kept[part.owner]} for part in settlement.parts],
            "by": b.act.operator,
            "note": facts.note,
        },
    )
    for part in settlement.parts:
        _tell(part, kept[part.owner], settlement.basis, b)


def kept_of(part: OwnersPart, kept_permille: int) -> int:
    """What the house keeps of an owner's share, whole grams in the owner's favour."""
    return 0 if part.owner == HOUSE else part.honey_g * kept_permille // 1000


def _tell(part: OwnersPart, kept_g: int, basis: str, b: Booking) -> None:
    if part.owner != HOUSE:
        b.note(
            DUE,
            owner=party_name(b.state, part.owner),
            supers=part.supers,
            honey=format_mass(part.honey_g),
            basis="weight" if basis == "weighed" else "number of boxes",
            kept=format_mass(kept_g),
            due=format_mass(part.honey_g - kept_g),
            cappings=format_mass(part.cappings_g),
        )


def _pass_drums(facts: Settle, settlement: Settlement, b: Booking) -> None:
    owners = [part.owner for part in settlement.parts]
    names: Mapping[str, str] = {party_name(b.state, one).casefold(): one for one in owners}
    for code, text in facts.drums:
        lot = find_lot(b.state, code, "D", "drums")
        owner = names.get(text.strip().casefold()) or find_party(b.state, text, "drums")
        if owner not in owners:
            known = ", ".join(party_name(b.state, one) for one in owners)
            shown = party_name(b.state, owner)
            raise Refusal(
                NOT_AN_OWNER, field="drums", owner=shown, run=settlement.run, owners=known
            )
        if owner_of(b.state, lot) != owner:
            pass_title(b, lot, owner, settlement.run)
