"""Dispatch: drums and jars to customers, what comes back, and what is thrown away."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.containers import home_again
from honeyledger.ledger.eligible import refuse_ineligible
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import refuse_held
from honeyledger.ledger.lookup import find_lot, find_record
from honeyledger.ledger.mixing import draw, name_of
from honeyledger.ledger.notes import DISPATCHED, find_note, is_note, lines_of, note_container
from honeyledger.ledger.offers import note_verdict
from honeyledger.ledger.once import check_once
from honeyledger.ledger.packs import Asked, by_lot, counted, left_with, pack_in
from honeyledger.ledger.places import (
    BARREL,
    CUSTOMER,
    DISCARDED,
    DRUM,
    FARM_GATE,
    GATE,
    JARS,
    PALLET,
    STORE,
    VESSEL,
    class_of,
    is_inside,
    place,
)
from honeyledger.ledger.plausible import SENT_BEFORE, note_order
from honeyledger.ledger.signing import check_reason
from honeyledger.ledger.sources import check_one, counted_in, number_of, refuse_gone, told_apart
from honeyledger.ledger.state import Holding
from honeyledger.ledger.title import CONSIGNOR, OWNER, find_party, note_owner, owner_of, pass_title
from honeyledger.ledger.whereabouts import forget_spot

SENT = "DJPKWTA"  # kinds of lots; a tank fill is told what to do instead
BY_ITSELF = (PALLET, DRUM, BARREL, JARS, STORE)

NOTHING_TO_SEND = Sentence("nothing-to-send", "Scan what goes on this dispatch first.")
FILL_FIRST = Sentence(
    "fill-first",
    "{code} is a tank fill: fill and bung a drum or compartment with it, then send that.",
)
NOT_SO_MANY_JARS = Sentence(
    "not-so-many-jars", "There {are} {there} of {code} here, not {asked}. Count again."
)
NOT_SO_MUCH = Sentence(
    "not-so-much", "There are {there} of {code} here, not {asked}. Weigh again."
)
BY_COUNT = Sentence("by-count", "{code} is counted in {things}: say how many {things}.")
HAS_NONE = Sentence(
    "has-none",
    "{customer} has nothing of {code} in the books: check the code on what came back.",
)
HAS_FEWER = Sentence(
    "has-fewer", "{customer} has {there} of {code} in the books, not {asked}. Count again."
)
NOT_THEIR_NOTE = Sentence(
    "not-their-note", "Dispatch note {note} went to {theirs}, not to {customer}. Check the note."
)
NOTHING_BACK = Sentence("nothing-back", "Scan what came back, or the dispatch note it went on.")
TITLE_THEIRS = Sentence(
    "title-still-theirs",
    "By the books {code} still belongs to {owner}: transfer its title back, if it is the house's "
    "again.",
)
MIXED = Sentence(
    "mixed", "{code} stands mixed in {vessel}. Say how many kilograms are thrown away there."
)


@dataclass(frozen=True, slots=True)
class DispatchLine:
    """A lot that goes: all of it, so many jars, or so many grams."""

    code: str
    jars: int | None = None
    net_g: int | None = None


@dataclass(frozen=True, slots=True)
class Dispatch:
    """Lots go to a customer ("gate" is the farm gate of that day) under one dispatch note.

    Args:
        reference: the customer's own number of the order.
        contract: the contract it is delivered on.
        vehicle: number plates of the truck, the trailer or the tanker.
        freight_container: the number on a freight container, or of a flexitank.
        seals: numbers of the seals put on.
        consignor: in whose name it goes, where that is not the house.
        owner: whose honey it is from now on, where title goes over with it.
    """

    kind: ClassVar[str] = "dispatch"
    customer: str
    lines: tuple[DispatchLine, ...]
    carrier: str = ""
    reference: str = ""
    contract: str = ""
    vehicle: str = ""
    freight_container: str = ""
    seals: tuple[str, ...] = ()
    consignor: str = ""
    owner: str = ""


@dataclass(frozen=True, slots=True)
class TakeBack:
    """Something a customer had comes back.

    Args:
        customer: who had it; may be left out where `code` is a dispatch note.
        code: a lot, or a dispatch note: all of it that the customer still has.
        lines: several lots at once, instead of `code`.
    """

    kind: ClassVar[str] = "take back"
    customer: str
    code: str
    reason: str
    jars: int | None = None
    net_g: int | None = None
    lines: tuple[DispatchLine, ...] = ()


@dataclass(frozen=True, slots=True)
class Discard:
    """Honey thrown away, with the reason."""

    kind: ClassVar[str] = "discard"
    code: str
    reason: str
    jars: int | None = None
    net_g: int | None = None


def customer_place(b: Booking, text: str) -> str:
    """The customer's place, or the farm gate of the entry's day."""
    if text.strip().casefold() == FARM_GATE:
        return place(GATE, b.day.isoformat())
    return find_record(b.state, CUSTOMER, text)[0]


def book_dispatch(facts: Dispatch, b: Booking) -> None:
    """Everything on the note leaves together, or nothing does."""
    if not facts.lines:
        raise Refusal(NOTHING_TO_SEND, field="lines")
    customer = customer_place(b, facts.customer)
    note = b.new_code("N")
    lines = by_lot(b, [Asked(line.code, line.jars, line.net_g) for line in facts.lines])
    lots = [find_lot(b.state, line.code, SENT, "code") for line in lines]
    # Of jars that are counted several lines may go: they may stand loose and in cases.
    whole = [lot.code for lot, one in zip(lots, lines, strict=True) if one.jars is None]
    check_once(whole, "code")
    if fills := [lot.code for lot in lots if lot.kind == "T"]:
        raise Refusal(FILL_FIRST, field="code", code=fills[0])
    refuse_held(b, [lot.id for lot in lots], "code")
    refuse_ineligible(b, lots, customer)
    parties = _parties(facts, b)
    sent: dict[str, tuple[int, int]] = {}
    for lot, line in zip(lots, lines, strict=True):
        here = shelf(b, lot)
        note_order(b, lot, SENT_BEFORE)
        grams, jars = part_of(lot, here, line.jars, line.net_g)
        carry(b, lot, here.place, customer, grams, jars)
        if class_of(here.place) == DRUM:
            # It may have been filled on before, by an entry that is still to come.
            b.draws(here.place, lot.id)
        before = sent.get(lot.code, (0, 0))
        sent[lot.code] = (before[0] + grams, before[1] + jars)
    for lot in {lot.id: lot for lot in lots}.values():
        grams, jars = sent[lot.code]
        b.mark(lot.code, f"note/{note}", {"grams": grams, "jars": jars})
        _note_title(b, lot, customer, parties)
    said = {
        "to": customer,
        "carrier": facts.carrier,
        "reference": facts.reference,
        "contract": facts.contract,
        "vehicle": facts.vehicle,
        "freight_container": facts.freight_container,
        "seals": facts.seals,
        **parties,
    }
    b.mark(place("note", note), DISPATCHED, said)
    note_container(b, facts.freight_container)


def _parties(facts: Dispatch, b: Booking) -> dict[str, str]:
    """Consignor and new owner, where they were told."""
    told = {CONSIGNOR: facts.consignor, OWNER: facts.owner}
    return {name: find_party(b.state, text, name) for name, text in told.items() if text.strip()}


def _note_title(b: Booking, lot: Lot, customer: str, parties: dict[str, str]) -> None:
    """Whose it is and in whose name it goes, and what is worth knowing before it leaves."""
    marks = {mark.name: mark.value for mark in b.state.marks(lot.code)}
    note_verdict(b, lot, marks, customer)
    note_owner(b, lot, marks.get(OWNER, 0), parties, customer)
    if CONSIGNOR in parties:
        b.mark(lot.code, CONSIGNOR, parties[CONSIGNOR])
    if OWNER in parties:
        pass_title(b, lot, parties[OWNER], "")


def shelf(b: Booking, lot: Lot) -> Holding:
    """Where a lot stands by itself, jars before what was scraped back, the most of it first."""
    rows = [row for row in _holdings(b, lot) if class_of(row.place) in BY_ITSELF]
    rows = [row for row in rows if row.grams > 0 or (lot.kind == "A" and row.pieces)]
    if not rows:
        raise refuse_gone(b, lot, "code")
    return max(rows, key=lambda row: (row.pieces > 0, row.grams))


def _holdings(b: Booking, lot: Lot) -> list[Holding]:
    """Inside holdings as this entry has left them: a lot may stand on two lines of a note."""
    places = [row.place for row in b.state.holdings(lot.id) if is_inside(row.place)]
    return [
        Holding(where, lot.id, row.grams, row.pieces)
        for where in places
        for row in b.standing(where)
        if row.lot.id == lot.id
    ]


def part_of(lot: Lot, here: Holding, jars: int | None, net_g: int | None) -> tuple[int, int]:
    """Grams and jars asked for; jars weigh their part, the last ones take the rest."""
    if jars is not None:
        check_one(jars, lot.code, "jars")
        if jars > here.pieces:
            are = "is" if here.pieces == 1 else "are"
            there = number_of(here.pieces, counted_in(lot))
            raise Refusal(
                NOT_SO_MANY_JARS, field="jars", code=lot.code, are=are, there=there, asked=jars
            )
        return here.grams * jars // here.pieces, jars
    if net_g is not None:
        if lot.kind in "JK" and here.pieces:
            raise Refusal(BY_COUNT, field="jars", code=lot.code, things=counted_in(lot))
        _check_there(lot, net_g, here.grams)
        return net_g, here.pieces if net_g == here.grams else 0
    return here.grams, here.pieces


def _check_there(lot: Lot, asked_g: int, there_g: int) -> None:
    if not 0 < asked_g <= there_g:
        shown = told_apart(there_g, asked_g)
        raise Refusal(
            NOT_SO_MUCH, field="net_g", code=lot.code, there=shown["there"], asked=shown["asked"]
        )


def carry(b: Booking, lot: Lot, start: str, end: str, grams: int, jars: int) -> None:
    """Grams and jars of a lot go from one place to another; what is empty stands nowhere."""
    b.move(lot.id, start, end, grams)
    b.pieces(lot.id, start, -jars)
    b.pieces(lot.id, end, jars)
    if not is_inside(start):
        return
    if not _keeps_last(start):
        for row in b.standing(start):
            if row.lot.id == lot.id and not row.grams and not row.pieces:
                b.leaves(start, lot.id)
    b.touches(start)


def _keeps_last(start: str) -> bool:
    """A drum keeps its last lot until it is washed; a pour may be scanned after it was sent."""
    return class_of(start) == DRUM


def book_take_back(facts: TakeBack, b: Booking) -> None:
    """Back into the house: jars to the jar store, a drum to a place of its own."""
    check_reason(facts.reason)
    customer, rows = _came_back(facts, b)
    lines = [counted(b, Asked(row.code, row.jars, row.net_g)) for row in rows]
    lots = [find_lot(b.state, line.code, "DJPKW", "code") for line in lines]
    check_once([lot.code for lot in lots], "code")
    for lot, line in zip(lots, lines, strict=True):
        _bring_back(facts, lot, line, customer, b)


def _came_back(facts: TakeBack, b: Booking) -> tuple[str, Sequence[DispatchLine]]:
    """Who had it, and what comes back: of a note, all that they still have of it."""
    if facts.lines:
        return customer_place(b, facts.customer), facts.lines
    if not facts.code.strip():
        raise Refusal(NOTHING_BACK, field="code")
    if (pack := pack_in(b, facts.code)) and (rows := left_with(b.state, str(pack))):
        packed = [DispatchLine(row.code, jars=row.pieces) for row in rows]
        return customer_place(b, facts.customer), packed
    if not is_note(b.state, facts.code):
        line = DispatchLine(facts.code, facts.jars, facts.net_g)
        return customer_place(b, facts.customer), (line,)
    note = find_note(b.state, facts.code, "code")
    if facts.customer.strip() and not _is(customer_place(b, facts.customer), note.customer):
        shown = {"customer": facts.customer, "theirs": _spoken(b, note.customer)}
        raise Refusal(NOT_THEIR_NOTE, field="customer", note=note.code, **shown)
    lines = []
    back = b.state.mark(place("note", note.code), "came back")
    for row in () if back else lines_of(b.state, note):
        theirs = _had(b, row.lot, note.customer)
        if theirs is None:
            continue
        if theirs.pieces:
            lines.append(DispatchLine(row.lot.code, jars=min(row.jars, theirs.pieces)))
        else:
            # Sent on this note alone, it is all that they have, whatever their scale said of it.
            sent = [one for one in b.state.marks(row.lot.code) if one.name.startswith("note/")]
            whole = len(sent) == 1 or theirs.grams <= row.grams
            lines.append(DispatchLine(row.lot.code, net_g=None if whole else row.grams))
    if not lines:
        shown = {"customer": _spoken(b, note.customer), "code": note.code}
        raise Refusal(HAS_NONE, field="code", **shown)
    b.mark(place("note", note.code), "came back", {"reason": facts.reason})
    return note.customer, lines


def _had(b: Booking, lot: Lot, customer: str) -> Holding | None:
    """Where a customer has most of a lot: the farm gate has one place a day."""
    rows = [row for row in b.state.holdings(lot.id) if row.grams > 0 and _is(row.place, customer)]
    return max(rows, key=lambda row: (row.pieces, row.grams, row.place), default=None)


def _bring_back(facts: TakeBack, lot: Lot, line: Asked, customer: str, b: Booking) -> None:
    held = _had(b, lot, customer)
    if held is None:
        raise Refusal(HAS_NONE, field="code", customer=_spoken(b, customer), code=lot.code)
    _check_had(line, lot, held, _spoken(b, customer))
    grams, jars = part_of(lot, held, line.jars, line.net_g)
    home = JARS if held.pieces else home_again(b, lot)
    b.comes(home, lot.id)
    carry(b, lot, held.place, home, grams, jars)
    b.mark(lot.code, "came back", {"grams": grams, "reason": facts.reason})
    forget_spot(b, lot.code)
    b.touches(home)
    if owner_of(b.state, lot) == customer:
        b.note(TITLE_THEIRS, code=lot.code, owner=_spoken(b, customer))


def _check_had(line: Asked, lot: Lot, held: Holding, customer: str) -> None:
    """No more comes back than the books say they had."""
    there, asked, field = "", "", ""
    if line.jars is not None and line.jars > held.pieces:
        there, asked, field = f"{held.pieces} jars", str(line.jars), "jars"
    elif line.jars is None and (line.net_g or 0) > held.grams and lot.kind != "J":
        shown = told_apart(held.grams, line.net_g or 0)
        there, asked, field = shown["there"], shown["asked"], "net_g"
    if field:
        raise Refusal(
            HAS_FEWER, field=field, code=lot.code, customer=customer, there=there, asked=asked
        )


def _is(where: str, customer: str) -> bool:
    """Whether a place is this customer's; what was sold at the gate comes back on any day."""
    return where == customer or (class_of(where) == class_of(customer) == GATE)


def _spoken(b: Booking, customer: str) -> str:
    return "The farm gate" if class_of(customer) == GATE else name_of(b.state, customer)


def book_discard(facts: Discard, b: Booking) -> None:
    """Honey leaves the books as discarded, with a reason."""
    check_reason(facts.reason)
    if pack_in(b, facts.code):
        for row in by_lot(b, [Asked(facts.code, facts.jars, facts.net_g)]):
            lot = find_lot(b.state, row.code)
            carry(b, lot, JARS, DISCARDED, *part_of(lot, shelf(b, lot), row.jars, None))
        return
    lot = find_lot(b.state, facts.code, "", "code")
    mixed = [row for row in _holdings(b, lot) if class_of(row.place) == VESSEL and row.grams > 0]
    if mixed and lot.kind in "ST":
        _discard_from(facts, lot, mixed[0].place, b)
        return
    here = shelf(b, lot)
    asked = counted(b, Asked(facts.code, facts.jars, facts.net_g))
    carry(b, lot, here.place, DISCARDED, *part_of(lot, here, asked.jars, asked.net_g))


def _discard_from(facts: Discard, lot: Lot, vessel: str, b: Booking) -> None:
    """What is thrown away out of a vessel is of all that stands there, as every draw is."""
    held = b.grams_at(vessel)
    only = [row.lot.id for row in b.standing(vessel)] == [lot.id]
    grams = facts.net_g if facts.net_g is not None or not only else held
    if grams is None:
        raise Refusal(MIXED, field="net_g", code=lot.code, vessel=name_of(b.state, vessel))
    _check_there(lot, grams, held)
    for taken, part in draw(b, vessel, grams):
        b.move(taken, vessel, DISCARDED, part)
