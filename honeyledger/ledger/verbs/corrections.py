"""Putting a mistake right: reverse what nothing builds on, and narrow a reach by name.

Nothing recorded is ever edited. What the honey has left behind is amended, see `amending`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.in_run import put_in_by
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.mixing import feeds, name_of
from honeyledger.ledger.places import class_of, key_of
from honeyledger.ledger.signing import check_reason, check_signer
from honeyledger.ledger.sources import sources_of
from honeyledger.ledger.state import State

NO_ENTRY = Sentence("no-entry", "There is no entry {entry}. Look it up in the lot's history.")
ALREADY_REVERSED = Sentence(
    "already-reversed", "Entry {entry} is already reversed, by entry {by}. Nothing is left to do."
)
NOT_A_REVERSAL = Sentence(
    "reverse-a-reversal",
    "Entry {entry} is a reversal itself. Enter again what was reversed, as it should be.",
)
BUILT_ON = Sentence(
    "built-on",
    "Entry {entry} is built on by {later}. Reverse those first, newest first, or reverse the "
    "whole chain.",
)
IN_USE = Sentence(
    "in-use", "Entry {entry} registered {name}, which is in use. Change its record instead."
)
NOT_NARROWED = Sentence(
    "row-has-grams",
    "{parent} is in {child} with grams, not only in reach. Only a row of 0 g can be narrowed.",
)
NO_ROW = Sentence(
    "no-such-row", "{child} has no origin row {line} in entry {entry}. Look at the lot's card."
)
NOT_AMENDED = Sentence("not-amended", "{code} was never booked from {place}. Nothing to narrow.")
STILL_FROM = Sentence(
    "still-from", "{code} still has its grams from {place}. Amend it first, then narrow."
)


@dataclass(frozen=True, slots=True)
class Reverse:
    """Negate an entry nothing builds on."""

    kind: ClassVar[str] = "reverse"
    entry: int
    reason: str


@dataclass(frozen=True, slots=True)
class Narrow:
    """A row at 0 g no longer counts: one origin row, or one place a pull was amended from."""

    kind: ClassVar[str] = "narrow"
    lot: str
    reason: str
    entry: int = 0
    line: int = 0
    place: str = ""


@dataclass(frozen=True, slots=True)
class Amend:
    """The honey is gone and the books were wrong. Codes stay; old and new are both in reach.

    One of these says what was wrong:
        yard (or supplier): the pull or purchase `lot` came from there.
        pallet: the unknown lot `lot` was honey of this pallet, loaded when the entry happened.
        run: the drum `lot` that was found was filled in this run.
        entry, run: the entry, which is in no run, is of this one.
        load, vessel: the load of entry `load` went into this vessel.
        source: the drum, jar lot or chunk honey `lot` was filled from this vessel.
        container, filled_on, product: of the drum, jars or comb `lot`; its label stays true.
    """

    kind: ClassVar[str] = "amend"
    lot: str = ""
    reason: str = ""
    yard: str = ""
    supplier: str = ""
    pallet: str = ""
    load: int = 0
    vessel: str = ""
    source: str = ""
    container: str = ""
    filled_on: str = ""
    product: str = ""
    run: str = ""
    entry: int = 0


def built_on(state: State, entry_id: int) -> list[int]:
    """Later entries that build on an entry; on the opening of a run, all that carry its code."""
    later = set(state.built_on(entry_id))
    entry = state.entry(entry_id)
    if entry and entry.kind == "open run":
        later |= {one.id for one in state.entries_of_run(entry.act.run)} - {entry_id}
        later |= put_in_by(state, entry.act.run)
    return sorted(later)


def chain_of(state: State, entry_id: int) -> list[int]:
    """The entry and all that is built on it, newest first: what a chain reversal reverses."""
    chain: set[int] = set()
    waiting = [entry_id]
    while waiting:
        one = waiting.pop()
        if one not in chain:
            chain.add(one)
            waiting += built_on(state, one)
    return sorted(chain, reverse=True)


def find_entry(state: State, entry_id: int, field: str = "entry") -> Entry:
    """An entry by its number."""
    entry = state.entry(entry_id)
    if entry is None:
        raise Refusal(NO_ENTRY, field=field, entry=entry_id)
    return entry


def book_reverse(facts: Reverse, b: Booking) -> None:
    """The entry's postings and pieces, negated; its effects are undone by the projection."""
    check_reason(facts.reason)
    entry = find_entry(b.state, facts.entry)
    if entry.reverses:
        raise Refusal(NOT_A_REVERSAL, field="entry", entry=entry.id)
    if by := b.state.reversed_by(entry.id):
        raise Refusal(ALREADY_REVERSED, field="entry", entry=entry.id, by=by)
    if entry.kind == "register":
        _check_unused(b.state, entry)
    if later := built_on(b.state, entry.id):
        shown = ", ".join(_shown(b.state, one) for one in later[:6])
        more = f" and {len(later) - 6} more" if len(later) > 6 else ""
        raise Refusal(BUILT_ON, field="entry", entry=entry.id, later=shown + more)
    b.reverses = entry.id
    for posting in entry.postings:
        b.post(posting.lot, posting.place, -posting.grams)
    for where, lot, count in rows_of(entry, "pieces"):
        assert isinstance(lot, int)
        assert isinstance(count, int)
        b.pieces(lot, str(where), -count)


def _check_unused(state: State, entry: Entry) -> None:
    """A first record is not taken away from under what was done with it, the house's never."""
    ((where, _, record),) = rows_of(entry, "marks")
    subject = str(where)
    assert isinstance(record, Mapping)
    said = entry.facts["said"]
    assert isinstance(said, Mapping)
    is_first = bool(rows_of(entry, "codes")) or not said.get("key")
    used = (
        state.last_touch(subject)
        or state.source_lots(subject)
        or feeds(state, subject)
        or any(row.place == subject for row in state.held_at(class_of(subject)))
    )
    if subject == "house" or (is_first and used):
        raise Refusal(IN_USE, field="entry", entry=entry.id, name=record.get("name", subject))


def _shown(state: State, entry_id: int) -> str:
    entry = state.entry(entry_id)
    return f"entry {entry_id} ({entry.kind})" if entry else f"entry {entry_id}"


def book_narrow(facts: Narrow, b: Booking) -> None:
    """Take one row out of reach, by name and with a reason; a row with grams never."""
    check_signer(b)
    check_reason(facts.reason)
    lot = find_lot(b.state, facts.lot)
    if facts.place:
        _narrow_place(facts, lot, b)
        return
    edges = {(edge.entry, edge.line): edge for edge in b.state.origins(lot.id)}
    edge = edges.get((facts.entry, facts.line))
    if edge is None:
        raise Refusal(NO_ROW, field="line", child=lot.code, line=facts.line, entry=facts.entry)
    if edge.grams:
        parent = b.lot(edge.parent).code
        raise Refusal(NOT_NARROWED, field="line", parent=parent, child=lot.code)
    b.void(edge.entry, edge.line)


def _narrow_place(facts: Narrow, lot: Lot, b: Booking) -> None:
    wanted = facts.place.strip().casefold()
    sources = sources_of(b.state, lot)
    named = {
        name.casefold(): where
        for where in sources
        for name in (where, key_of(where) or where, name_of(b.state, where))
    }
    where = named.get(wanted)
    if where is None:
        raise Refusal(NOT_AMENDED, field="place", code=lot.code, place=facts.place)
    if sources[where] > 0:
        raise Refusal(STILL_FROM, field="place", code=lot.code, place=name_of(b.state, where))
    b.mark(lot.code, f"not from/{where}", {"reason": facts.reason, "by": b.act.operator})
