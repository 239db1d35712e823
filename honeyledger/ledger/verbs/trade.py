"""Bulk trade: what a customer says of a sample, weighs and sends back empty; whose honey it is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from honeyledger.domain.moments import format_day, house_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, format_share, format_weight, largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.containers import container_at
from honeyledger.ledger.empties import BACK, is_out
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.lookup import find_lot, find_record
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.notes import find_note, is_note, lines_of
from honeyledger.ledger.offers import REFUSED, VERDICTS, offer
from honeyledger.ledger.once import check_once
from honeyledger.ledger.places import BARREL, CUSTOMER, DRUM, GATE, class_of, place
from honeyledger.ledger.signing import check_reason
from honeyledger.ledger.sources import TO_FOLLOW, Weight, net_of, refuse_gone
from honeyledger.ledger.title import OWNER, find_party, owner_of, party_name, pass_title

BY_WEIGHT = "DPWK"
STORED = "DPW"
FAR_PERMILLE = 20  # of a load between two good scales; common practice, no source

UNKNOWN_VERDICT = Sentence("unknown-verdict", "{verdict} is no verdict: say approved or refused.")
WHO_JUDGED = Sentence(
    "who-judged", "{sample} was drawn for no customer: say which customer judged it."
)
SCALE_SAYS = Sentence(
    "buyers-scale-says", "Type the net weight of the buyer's ticket, or its gross and tare."
)
SOLD_BY_COUNT = Sentence(
    "sold-by-count",
    "Note {note} carries jars, which are sold by count. Give the buyer's weight of each drum on "
    "it by the drum's code.",
)
NOT_WITH_ANYONE = Sentence(
    "not-with-anyone",
    "No customer has anything of {code} in the books. Enter its dispatch first, or check the "
    "code.",
)
WHOSE_SCALE = Sentence(
    "whose-scale", "{code} is with {customers}: say whose scale it was that weighed it."
)
BUYER_DIFFERS = Sentence(
    "buyer-differs",
    "The buyer's scale says {now} for {code}: {off} {than} than the {before} of the books, "
    "{part}.",
)
FAR_BUYER = Sentence(
    "far-buyer",
    "That is far for two scales: check gross against tare, pounds against kilograms, and whether "
    "it was this load.",
)
NOTHING_OF_TITLE = Sentence("nothing-of-title", "Scan the drums whose title goes over, once each.")
NO_DOCUMENT = Sentence(
    "no-document", "Name the document by which title goes over, such as the number of the invoice."
)
ALREADY_THEIRS = Sentence(
    "already-theirs", "{code} belongs to {owner} already. Leave it off this list."
)
NO_EMPTIES = Sentence("no-empties", "Scan the containers that came back empty.")
STILL_FULL = Sentence(
    "still-full",
    "{container} holds {code} with {grams} in the books: it did not come back empty. Scan the "
    "right container, or record first what became of the honey.",
)
BACK_ALREADY = Sentence(
    "back-already",
    "{container} was recorded as back from {customer} on {day} already. If this is the same load, "
    "reverse this entry.",
)
WAS_NOT_THERE = Sentence(
    "was-not-there",
    "By the books {container} was not with {customer} but {where}. It counts as here from now on.",
)


@dataclass(frozen=True, slots=True)
class Approve:
    """A customer's verdict on a sample; it counts for the lots the sample is of.

    Args:
        verdict: "approved" or "refused", the latter with a reason.
        customer: who judged it, where the sample was drawn for nobody in particular.
        reference: the customer's own number of the report or letter.
    """

    kind: ClassVar[str] = "approve"
    sample: str
    verdict: str = VERDICTS[0]
    reason: str = ""
    reference: str = ""
    customer: str = ""


@dataclass(frozen=True, slots=True)
class BuyersWeight:
    """What the buyer's scale says of a whole dispatch note, or of one drum.

    Args:
        of: the code of the note, or of the lot.
        customer: whose scale it was, where several customers have something of the lot.
        reference: the number of the weighing ticket.
    """

    kind: ClassVar[str] = "buyer's weight"
    of: str
    weight: Weight = TO_FOLLOW
    customer: str = ""
    reference: str = ""


@dataclass(frozen=True, slots=True)
class TransferTitle:
    """Drums get another owner and stay where they stand.

    Args:
        owner: a customer or a supplier, or "house" for the house itself.
        document: the invoice, warrant or contract by which title goes over.
        despite_hold: why the title of held honey goes over, by name; it stays held.
    """

    kind: ClassVar[str] = "transfer title"
    lots: tuple[str, ...]
    owner: str
    document: str
    despite_hold: str = ""


@dataclass(frozen=True, slots=True)
class Empties:
    """Containers a customer had are back empty, or will never come back, and why."""

    kind: ClassVar[str] = "empties"
    customer: str
    containers: tuple[str, ...]
    kept: str = ""


def book_approve(facts: Approve, b: Booking) -> None:
    """The verdict stands on the sample and on each lot it is made of."""
    sample = find_lot(b.state, facts.sample, "X", "sample")
    verdict = facts.verdict.strip().casefold()
    if verdict not in VERDICTS:
        raise Refusal(UNKNOWN_VERDICT, field="verdict", verdict=facts.verdict)
    if verdict == REFUSED:
        check_reason(facts.reason)
    drawn_for = facts.customer or str(sample.attributes.get("customer", ""))
    if not drawn_for.strip():
        raise Refusal(WHO_JUDGED, field="customer", sample=sample.code)
    customer, _ = find_record(b.state, CUSTOMER, drawn_for)
    said = {
        "customer": customer,
        "verdict": verdict,
        "reason": facts.reason,
        "reference": facts.reference,
    }
    b.mark(sample.code, "verdict", said)
    parents = [edge.parent for edge in b.state.origins(sample.id) if edge.grams]
    lots = [b.lot(parent) for parent in dict.fromkeys(parents)]
    offer(b, lots, customer, sample.code, verdict, facts.reason)


def book_buyers_weight(facts: BuyersWeight, b: Booking) -> None:
    """The buyer's scale is right at the buyer's: the gap goes to weighing difference there.

    Of a whole load each drum takes its part of the gap, by largest remainder.
    """
    net = net_of(facts.weight, None)
    if net is None:
        raise Refusal(SCALE_SAYS, field="net_g")
    weighed_as, rows = _weighed(facts, b)
    before = [grams for _, _, grams in rows]
    for (lot, where, grams), now in zip(rows, largest_remainder(net, before), strict=True):
        b.differ(lot.id, where, now - grams)
        b.mark(lot.code, "buyer's weight", {"grams": now, "reference": facts.reference})
    _note_gap(b, weighed_as, sum(before), net)


def _note_gap(b: Booking, code: str, before_g: int, now_g: int) -> None:
    off = abs(now_g - before_g)
    if not off:
        return
    b.note(
        BUYER_DIFFERS,
        now=format_mass(now_g),
        code=code,
        off=format_weight(off),
        than="less" if now_g < before_g else "more",
        before=format_mass(before_g),
        part=format_share(Fraction(off, before_g), 2),
    )
    if off * 1000 > before_g * FAR_PERMILLE:
        b.note(FAR_BUYER)


def _weighed(facts: BuyersWeight, b: Booking) -> tuple[str, list[tuple[Lot, str, int]]]:
    """What was on the scale: each lot, where it is, and the grams the books see there."""
    if not is_note(b.state, facts.of):
        lot = find_lot(b.state, facts.of, BY_WEIGHT, "of")
        where = _with_whom(facts, lot, b)
        held = next(row.grams for row in b.state.holdings(lot.id) if row.place == where)
        return lot.code, [(lot, where, held)]
    note = find_note(b.state, facts.of, "of")
    lines = lines_of(b.state, note)
    if any(line.lot.kind == "J" for line in lines):
        raise Refusal(SOLD_BY_COUNT, field="of", note=note.code)
    theirs = []
    for line in lines:
        notes = [one for one in b.state.marks(line.lot.code) if one.name.startswith("note/")]
        for row in b.state.holdings(line.lot.id):
            if row.place == note.customer and row.grams > 0:
                # Of a drum sent in parts, the part that went on this note.
                most = row.grams if len(notes) == 1 else min(row.grams, line.grams)
                theirs.append((line.lot, row.place, most))
    if not theirs:
        raise Refusal(NOT_WITH_ANYONE, field="of", code=note.code)
    return note.code, theirs


def _with_whom(facts: BuyersWeight, lot: Lot, b: Booking) -> str:
    """The customer who has the lot; of several the one that is named."""
    wanted = find_record(b.state, CUSTOMER, facts.customer)[0] if facts.customer.strip() else ""
    places = [
        row.place
        for row in b.state.holdings(lot.id)
        if row.grams > 0
        and class_of(row.place) in (CUSTOMER, GATE)
        and (not wanted or row.place == wanted)
    ]
    if not places:
        raise Refusal(NOT_WITH_ANYONE, field="of", code=lot.code)
    if len(places) > 1:
        names = " and ".join(name_of(b.state, where) for where in places)
        raise Refusal(WHOSE_SCALE, field="customer", code=lot.code, customers=names)
    return places[0]


def book_transfer_title(facts: TransferTitle, b: Booking) -> None:
    """No gram moves; the owner is a dated fact of each lot."""
    lots = [find_lot(b.state, text, STORED, "lots") for text in facts.lots]
    if not lots:
        raise Refusal(NOTHING_OF_TITLE, field="lots")
    check_once([lot.code for lot in lots], "lots")
    owner = find_party(b.state, facts.owner, OWNER)
    if not facts.document.strip():
        raise Refusal(NO_DOCUMENT, field="document")
    for lot in lots:
        there = [row.place for row in b.state.holdings(lot.id) if row.grams > 0]
        if not any(class_of(where) in (DRUM, BARREL, CUSTOMER) for where in there):
            raise refuse_gone(b, lot, "lots")
        if owner_of(b.state, lot) == owner:
            shown = party_name(b.state, owner)
            raise Refusal(ALREADY_THEIRS, field="lots", code=lot.code, owner=shown)
    ask_held(b, [lot.id for lot in lots], facts.despite_hold, "lots")
    for lot in lots:
        pass_title(b, lot, owner, facts.document.strip())


def book_empties(facts: Empties, b: Booking) -> None:
    """Each container is here again, whatever the books thought, or owed no more."""
    if not facts.containers:
        raise Refusal(NO_EMPTIES, field="containers")
    customer, _ = find_record(b.state, CUSTOMER, facts.customer)
    for drum in _containers(facts.containers, b):
        name = container_at(b, drum).name
        full = [row for row in b.standing(drum) if row.grams]
        if full:
            shown = {"code": full[-1].lot.code, "grams": format_mass(full[-1].grams)}
            raise Refusal(STILL_FULL, field="containers", container=name, **shown)
        out = is_out(b.state, drum)
        back = b.state.mark(drum, BACK)
        if out is None and back and _is_same(back.value, customer, facts.kept):
            day = format_day(house_day(back.at_ms, b.rules.zone))
            b.note(BACK_ALREADY, container=name, customer=name_of(b.state, customer), day=day)
        elif out is None or out.customer != customer:
            where = f"with {name_of(b.state, out.customer)}" if out else "here"
            their = name_of(b.state, customer)
            b.note(WAS_NOT_THERE, container=name, customer=their, where=where)
        b.mark(drum, BACK, {"from": customer, "kept": facts.kept})


def _is_same(value: Json, customer: str, kept: str) -> bool:
    """Whether a container was recorded as back from this customer before, in the same way."""
    said = value if isinstance(value, Mapping) else {}
    return said.get("from") == customer and str(said.get("kept", "")) == kept.strip()


def _containers(texts: Sequence[str], b: Booking) -> list[str]:
    """Containers by name, number, code, or the label of the drum that went out in them."""
    found = []
    for text in texts:
        if text.strip()[:1].upper() in "DP" and (lot := b.state.lot_by_code(text.strip().upper())):
            container = str(lot.attributes.get("container", ""))
            if container:
                found.append(place(DRUM, container))
                continue
        found.append(find_record(b.state, DRUM, text, "containers")[0])
    return list(dict.fromkeys(found))
