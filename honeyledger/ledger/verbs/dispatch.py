"""Dispatch: drums and jars to customers, what comes back, and what is thrown away."""

from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import refuse_held
from honeyledger.ledger.lookup import find_lot, find_record
from honeyledger.ledger.places import (
    CUSTOMER,
    DISCARDED,
    DRUM,
    FARM_GATE,
    GATE,
    JARS,
    class_of,
    is_inside,
    key_of,
    place,
)
from honeyledger.ledger.state import Holding

NOTHING_TO_SEND = Sentence("nothing-to-send", "Scan what goes on this dispatch first.")
NOT_IN_HOUSE = Sentence("not-in-house", "{code} is no longer in the house: nothing of it is left.")
NOT_SO_MANY_JARS = Sentence(
    "not-so-many-jars", "There are {there} jars of {code} here, not {asked}. Count the pallet."
)
NOT_SO_MUCH = Sentence(
    "not-so-much", "There are {there} of {code} here, not {asked}. Weigh it again."
)
NEVER_THERE = Sentence(
    "never-there", "{customer} never had {code}: check the code on the jar or drum that came back."
)
NO_REASON = Sentence("no-reason", "Give the reason in a word or two.")


@dataclass(frozen=True, slots=True)
class DispatchLine:
    """A lot that goes: all of it, so many jars, or so many grams."""

    code: str
    jars: int | None = None
    net_g: int | None = None


@dataclass(frozen=True, slots=True)
class Dispatch:
    """Lots go to a customer ("gate" is the farm gate of that day) under one dispatch note."""

    kind: ClassVar[str] = "dispatch"
    customer: str
    lines: tuple[DispatchLine, ...]
    carrier: str = ""
    reference: str = ""


@dataclass(frozen=True, slots=True)
class TakeBack:
    """Something a customer had comes back."""

    kind: ClassVar[str] = "take back"
    customer: str
    code: str
    reason: str
    jars: int | None = None
    net_g: int | None = None


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
    lots = [find_lot(b.state, line.code, "DJPKWTA", "code") for line in facts.lines]
    refuse_held(b, [lot.id for lot in lots], "code")
    for lot, line in zip(lots, facts.lines, strict=True):
        here = _where(b, lot)
        grams, jars = part_of(lot, here, line.jars, line.net_g)
        _carry(b, lot, here.place, customer, grams, jars)
        b.mark(lot.code, f"note/{note}", {"grams": grams, "jars": jars})
    b.mark(
        place("note", note),
        "dispatched",
        {"to": customer, "carrier": facts.carrier, "reference": facts.reference},
    )


def _where(b: Booking, lot: Lot) -> Holding:
    """The place in the house that holds most of a lot; jars scraped back are jars no more."""
    rows = [row for row in _holdings(b, lot) if is_inside(row.place) and row.grams > 0]
    if not rows:
        raise Refusal(NOT_IN_HOUSE, field="code", code=lot.code)
    return max(rows, key=lambda row: (row.pieces > 0, row.grams))


def _holdings(b: Booking, lot: Lot) -> list[Holding]:
    """Holdings as this entry has left them: the same lot may stand on two lines of a note."""
    rows = []
    for row in b.state.holdings(lot.id):
        now = {one.lot.id: one for one in b.standing(row.place)} if is_inside(row.place) else {}
        seen = now.get(lot.id)
        grams, pieces = (seen.grams, seen.pieces) if seen else (row.grams, row.pieces)
        if is_inside(row.place) and seen is None:
            grams = pieces = 0
        rows.append(Holding(row.place, row.lot, grams, pieces))
    return rows


def part_of(lot: Lot, here: Holding, jars: int | None, net_g: int | None) -> tuple[int, int]:
    """Grams and jars asked for; jars weigh their part, the last ones take the rest."""
    if jars is not None:
        if not 0 < jars <= here.pieces:
            raise Refusal(
                NOT_SO_MANY_JARS, field="jars", there=here.pieces, code=lot.code, asked=jars
            )
        return here.grams * jars // here.pieces, jars
    if net_g is not None:
        if not 0 < net_g <= here.grams:
            shown = format_mass(here.grams)
            asked = format_mass(net_g)
            raise Refusal(NOT_SO_MUCH, field="net_g", there=shown, code=lot.code, asked=asked)
        return net_g, here.pieces if net_g == here.grams else 0
    return here.grams, here.pieces


def _carry(b: Booking, lot: Lot, start: str, end: str, grams: int, jars: int) -> None:
    b.move(lot.id, start, end, grams)
    b.pieces(lot.id, start, -jars)
    b.pieces(lot.id, end, jars)
    if is_inside(start) and not _keeps_last(start, lot):
        for row in b.standing(start):
            if row.lot.id == lot.id and not row.grams and not row.pieces:
                b.leaves(start, lot.id)
    if is_inside(start):
        b.touches(start)


def _keeps_last(start: str, lot: Lot) -> bool:
    """A registered container that goes out keeps its last lot until it is washed."""
    return class_of(start) in (DRUM, "vessel") and key_of(start) != lot.code


def book_take_back(facts: TakeBack, b: Booking) -> None:
    """Back into the house: jars to the jar store, a drum to a place of its own."""
    if not facts.reason.strip():
        raise Refusal(NO_REASON, field="reason")
    customer = customer_place(b, facts.customer)
    lot = find_lot(b.state, facts.code, "DJPKW", "code")
    held = [row for row in b.state.holdings(lot.id) if row.place == customer and row.grams > 0]
    if not held:
        raise Refusal(NEVER_THERE, field="code", customer=facts.customer, code=lot.code)
    grams, jars = part_of(lot, held[0], facts.jars, facts.net_g)
    home = JARS if held[0].pieces else place(DRUM, lot.code)
    b.comes(home, lot.id)
    _carry(b, lot, customer, home, grams, jars)
    b.mark(lot.code, "came back", {"grams": grams, "reason": facts.reason})
    b.touches(home)


def book_discard(facts: Discard, b: Booking) -> None:
    """Honey leaves the books as discarded, with a reason."""
    if not facts.reason.strip():
        raise Refusal(NO_REASON, field="reason")
    lot = find_lot(b.state, facts.code, "", "code")
    here = _where(b, lot)
    grams, jars = part_of(lot, here, facts.jars, facts.net_g)
    _carry(b, lot, here.place, DISCARDED, grams, jars)
