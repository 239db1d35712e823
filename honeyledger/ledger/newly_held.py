"""What comes under a hold: said at once, with what of it has left the house already.

Nothing is changed by this. A hold's reach is walked at every question, so the lots are held from
the entry on, whether anyone was told or not.
"""

from collections.abc import Collection, Iterator
from datetime import date

from honeyledger.domain.moments import format_day
from honeyledger.domain.refusals import Sentence
from honeyledger.domain.units import format_weight
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import (
    Hold,
    is_of_days,
    open_holds,
    reach_of,
    target_text,
    targets_of,
)
from honeyledger.ledger.mixing import few, name_of
from honeyledger.ledger.places import CUSTOMER, GATE, class_of, is_inside, key_of
from honeyledger.ledger.sources import counted_in
from honeyledger.ledger.state import Edge, Holding

NOW_HELD = Sentence(
    "now-held", "On hold from now on through {target} ({reason}): {codes}. Put it aside."
)
GONE_ALREADY = Sentence(
    "gone-already",
    "Of what is held now, {customer} has {what}: tell them, and decide by name whether it comes "
    "back, as your local code has it.",
)
SOLD_ALREADY = Sentence(
    "sold-already",
    "Some of it is sold already, to {count}: {who}. Tell them, and decide by name whether it "
    "comes back, as your local code has it.",
)


def note_sold(b: Booking, hold: Hold) -> None:
    """Say of a new hold how many have some of what it reaches, and how much each."""
    targets = targets_of(b.state, hold)
    reached = reach_of(hold, targets, b.state.descent(sorted(targets))) if targets else set()
    theirs: dict[str, list[tuple[Lot, Holding]]] = {}
    for lot, row in _left(b, reached):
        theirs.setdefault(_party(b, row.place), []).append((lot, row))
    if theirs:
        who = [f"{name} ({_summed(rows)})" for name, rows in theirs.items()]
        b.note(SOLD_ALREADY, count=len(who), who=few(who))


def _summed(rows: Collection[tuple[Lot, Holding]]) -> str:
    """What one party has of several lots: pieces by what they are counted in, else kilograms."""
    pieces: dict[str, int] = {}
    for lot, row in rows:
        if row.pieces:
            pieces[counted_in(lot)] = pieces.get(counted_in(lot), 0) + row.pieces
    grams = sum(row.grams for _, row in rows if not row.pieces)
    words = [f"{count} {noun}" for noun, count in pieces.items()]
    return ", ".join([*words, *([format_weight(grams)] if grams else [])])


def note_newly_held(b: Booking, lot: Lot | None = None, where: str = "") -> None:
    """Say what is held because of this entry's origins, or because a lot is from a place now."""
    if lot is None and not b.added():
        return
    for hold in open_holds(b.state):
        held = _newly(b, hold, lot, where)
        here = [one for one in held if _standing(b, one)]
        if here:
            b.note(
                NOW_HELD,
                target=target_text(b.state, hold),
                reason=hold.reason or "no reason given",
                codes=few([b.lot(one).code for one in here]),
            )
        for customer, what in _gone(b, held).items():
            b.note(GONE_ALREADY, customer=customer, what=few(what))


def _newly(b: Booking, hold: Hold, lot: Lot | None, where: str) -> list[int]:
    """The lots a hold reaches with this entry and did not reach before."""
    old = targets_of(b.state, hold)
    new = set(old)
    if lot is not None and hold.target == where:
        pulled = str(lot.attributes.get("pulled", ""))
        if is_of_days(pulled, lot.season, hold.first_day, hold.last_day):
            new.add(lot.id)
    added = [Edge(child, parent, 0, 1, b.entry_id, 0) for child, parent in b.added()]
    starts = {*new, *(edge.child for edge in added)}
    edges = [*b.state.descent(sorted(starts)), *added]
    before = reach_of(hold, old, b.state.descent(sorted(old)) if old else ())
    return sorted(reach_of(hold, new, edges) - before)


def _standing(b: Booking, lot: int) -> list[Holding]:
    rows = b.state.holdings(lot) if lot < b.state.next_lot else ()
    return [row for row in rows if is_inside(row.place) and (row.grams > 0 or row.pieces > 0)]


def _gone(b: Booking, lots: Collection[int]) -> dict[str, list[str]]:
    """What customers have of lots, as people say it: jars by count, else kilograms."""
    theirs: dict[str, list[str]] = {}
    for lot, row in _left(b, lots):
        amount = f"{row.pieces} {counted_in(lot)}" if row.pieces else format_weight(row.grams)
        theirs.setdefault(_party(b, row.place), []).append(f"{amount} of {lot.code}")
    return theirs


def _left(b: Booking, lots: Collection[int]) -> Iterator[tuple[Lot, Holding]]:
    """What customers and the farm gate have of lots, lot by lot."""
    for lot in (b.lot(one) for one in sorted(lots) if one < b.state.next_lot):
        for row in b.state.holdings(lot.id):
            if class_of(row.place) in (CUSTOMER, GATE) and row.grams > 0:
                yield lot, row


def _party(b: Booking, where: str) -> str:
    if class_of(where) == GATE:
        return f"the farm gate of {format_day(date.fromisoformat(key_of(where)))}"
    return name_of(b.state, where)
