"""Putting a mistake right: reverse what nothing builds on, amend what the honey has left behind,
and narrow a reach by name. Nothing recorded is ever edited."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.holds import held_among
from honeyledger.ledger.lookup import find_lot, find_record, find_vessel, read_iso_day
from honeyledger.ledger.mixing import Taken, fed_by, feeds, name_of, put
from honeyledger.ledger.places import DRUM, SUPPLIER, UNKNOWN, YARD, class_of, key_of, place
from honeyledger.ledger.signing import check_reason, check_signer
from honeyledger.ledger.sources import home_of, sources_of
from honeyledger.ledger.state import State
from honeyledger.ledger.verbs.dock import leave_empty, pallet_rows

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
NOTHING_TO_AMEND = Sentence(
    "nothing-to-amend", "Say what was wrong: the yard, the pallet, the vessel or the drum."
)
SAME_AS_BEFORE = Sentence("same-as-before", "{code} is already booked so. Nothing was changed.")
NOT_UNKNOWN = Sentence(
    "not-unknown", "{code} does not stand for honey of unknown source. Amend its yard instead."
)
NOT_A_LOAD = Sentence("not-a-load", "Entry {entry} loaded nothing into a vessel.")
NOTHING_LEFT = Sentence(
    "nothing-left",
    "{code} has no honey of its own in the books any more. Amend the lot that stands for it.",
)
FILLED_LATER = Sentence(
    "filled-later", "It cannot have been filled on {day}: that day is still to come."
)
NOTHING_THEN = Sentence(
    "nothing-then", "Nothing stood in {vessel} when {code} was filled. Name another vessel."
)
SHARES_STAY = Sentence(
    "shares-stay", "The shares stay as they were booked; {codes} is in reach from now on."
)
STILL_HELD = Sentence("still-held", "{code} stays on hold until someone releases it by name.")
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
        load, vessel: the load of entry `load` went into this vessel.
        source: the drum or jar lot `lot` was filled from this vessel.
        container, filled_on, product: of the drum or jar lot `lot`; its label stays true.
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


def built_on(state: State, entry_id: int) -> list[int]:
    """Later entries that build on an entry; on the opening of a run, all that carry its code."""
    later = set(state.built_on(entry_id))
    entry = state.entry(entry_id)
    if entry and entry.kind == "open run":
        later |= {one.id for one in state.entries_of_run(entry.act.run)} - {entry_id}
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


def book_amend(facts: Amend, b: Booking) -> None:
    """One of the ways the books can have been wrong; see `Amend`."""
    check_reason(facts.reason)
    if facts.load:
        _amend_load(facts, b)
        return
    if facts.yard or facts.supplier:
        lot = find_lot(b.state, facts.lot, "SP")
        _amend_source(facts, lot, b)
    elif facts.pallet:
        lot = find_lot(b.state, facts.lot, "S")
        _amend_unknown(facts, lot, b)
    elif facts.source:
        lot = find_lot(b.state, facts.lot, "DJ")
        _amend_filled_from(facts, lot, b)
    elif facts.container or facts.filled_on or facts.product:
        lot = find_lot(b.state, facts.lot, "DJ")
        _amend_label(facts, lot, b)
    else:
        raise Refusal(NOTHING_TO_AMEND, field="yard")
    b.mark(lot.code, "amended", b.entry_id)


def _amend_label(facts: Amend, lot: Lot, b: Booking) -> None:
    """Container, day and product are amended, never reversed, so that the code stays true."""
    if facts.container:
        _amend_container(facts, lot, b)
    if facts.filled_on:
        day = read_iso_day(facts.filled_on, "filled_on")
        if day > b.day.isoformat():
            raise Refusal(FILLED_LATER, field="filled_on", day=day)
        b.mark(lot.code, "filled_on", day)
    if facts.product:
        subject = find_record(b.state, "product", facts.product)[0]
        b.mark(lot.code, "product", key_of(subject))


def _amend_source(facts: Amend, lot: Lot, b: Booking) -> None:
    kind, text = (YARD, facts.yard) if facts.yard else (SUPPLIER, facts.supplier)
    new = find_record(b.state, kind, text)[0]
    given = {where: grams for where, grams in sources_of(b.state, lot).items() if grams > 0}
    if not given:
        raise Refusal(NOTHING_LEFT, field="lot", code=lot.code)
    if set(given) == {new}:
        raise Refusal(SAME_AS_BEFORE, field=kind, code=lot.code)
    for where, grams in given.items():
        if where != new:
            b.move(lot.id, new, where, grams)
            b.mark(lot.code, f"not from/{where}", 0)
    b.mark(lot.code, f"from/{new}", b.entry_id)


def _amend_unknown(facts: Amend, lot: Lot, b: Booking) -> None:
    """The unknown lot takes over the pallet's places; the pallet's pulls come into reach.

    The pulls' own grams go back to their yards, since the books count that honey under the
    unknown lot now. The entry happened when the pallet was loaded, so reach widens from there.
    """
    sources = sources_of(b.state, lot)
    unknown_g = sources.get(UNKNOWN, 0)
    if unknown_g <= 0:
        raise Refusal(NOT_UNKNOWN, field="lot", code=lot.code)
    tag, rows = pallet_rows(b, facts.pallet)
    nets = _net_places(b.state, [(row.lot, row.grams) for row in rows])
    parts = largest_remainder(unknown_g, [grams for _, grams in nets])
    for (where, _), part in zip(nets, parts, strict=True):
        b.move(lot.id, where, UNKNOWN, part)
        b.mark(lot.code, f"from/{where}", b.entry_id)
    for row in rows:
        b.move(row.lot.id, tag, home_of(b.state, row.lot), row.grams)
        b.pieces(row.lot.id, tag, -row.pieces)
        b.late_origin(lot.id, row.lot.id)
    found_in = str(lot.attributes["place"])
    at_ms = _loaded_at(b, lot, [row.lot for row in rows])
    for where in (*fed_by(b.state, found_in), found_in):
        put(b, where, [Taken(row.lot.id, 0) for row in rows], at_ms)
    leave_empty(b, tag)
    if held_among(b.state, [lot.id]):
        b.note(STILL_HELD, code=lot.code)


def _loaded_at(b: Booking, lot: Lot, pulls: Sequence[Lot]) -> int:
    """When the pallet was loaded: as said, but never after its honey was found in the vessel.

    Where what is said cannot be, it may have been any time since the pallet came.
    """
    found = find_entry(b.state, lot.made_by).act.happened.at_ms
    if b.at_ms <= found:
        return b.at_ms
    return min(find_entry(b.state, pull.made_by).act.happened.at_ms for pull in pulls)


def _net_places(state: State, rows: Sequence[tuple[Lot, int]]) -> list[tuple[str, int]]:
    """The places of several pulls, each pull's grams shared over its own places."""
    sums: dict[str, int] = {}
    for lot, grams in rows:
        places = [pair for pair in sources_of(state, lot).items() if pair[1] > 0]
        parts = largest_remainder(grams, [net for _, net in places])
        for (where, _), part in zip(places, parts, strict=True):
            sums[where] = sums.get(where, 0) + part
    return sorted(sums.items())


def _amend_load(facts: Amend, b: Booking) -> None:
    """The right vessel gets the lots in at 0 g from when they were loaded; shares stay."""
    entry = find_entry(b.state, facts.load, "load")
    if by := b.state.reversed_by(entry.id):
        raise Refusal(ALREADY_REVERSED, field="load", entry=entry.id, by=by)
    vessel = find_vessel(b.state, facts.vessel)
    rows = [(str(where), int(str(lot))) for where, lot in rows_of(entry, "arrived")]
    if not rows:
        raise Refusal(NOT_A_LOAD, field="load", entry=entry.id)
    if rows[0][0] == vessel:
        raise Refusal(SAME_AS_BEFORE, field="vessel", code=b.lot(rows[0][1]).code)
    lots = [lot for _, lot in rows]
    unsure_ms = max(0, entry.act.unsure_ms - b.margin_ms)
    at_ms = min(b.at_ms, entry.act.happened.at_ms - unsure_ms)
    put(b, vessel, [Taken(lot, 0) for lot in lots], at_ms)
    for lot in lots:
        b.mark(b.lot(lot).code, "amended", b.entry_id)
    b.note(SHARES_STAY, codes=", ".join(b.lot(lot).code for lot in lots))


def _amend_filled_from(facts: Amend, lot: Lot, b: Booking) -> None:
    """What stood in the right vessel while the lot was filled comes into its reach.

    From now on the lot counts as drawn from there, for loads that are typed later still.
    """
    vessel = find_vessel(b.state, facts.source, "source")
    made_ms, margin_ms = _made(b, lot)
    started = b.state.mark(place("bottling", lot.code), "started")
    first_ms = (started.at_ms if started else made_ms) - margin_ms
    there = {
        stay.lot
        for where in (vessel, *fed_by(b.state, vessel))
        for stay in b.state.stays(where, first_ms)
        if stay.since_ms <= made_ms + margin_ms
    } - {lot.id}
    if not there:
        name = name_of(b.state, vessel)
        raise Refusal(NOTHING_THEN, field="source", vessel=name, code=lot.code)
    for one in sorted(there):
        b.late_origin(lot.id, one)
    b.draws(vessel, lot.id)
    b.note(SHARES_STAY, codes=", ".join(b.lot(one).code for one in sorted(there)))


def _amend_container(facts: Amend, lot: Lot, b: Booking) -> None:
    """The lot stood in this container: its rest then is in reach, and it in what came after."""
    drum = find_record(b.state, DRUM, facts.container, "container")[0]
    b.mark(lot.code, "container", key_of(drum))
    at_ms, margin_ms = _made(b, lot)
    for stay in b.state.stays(drum, at_ms - margin_ms):
        if stay.since_ms <= at_ms + margin_ms:
            b.late_origin(lot.id, stay.lot)
        if stay.since_ms >= at_ms - margin_ms:
            b.late_origin(stay.lot, lot.id)


def _made(b: Booking, lot: Lot) -> tuple[int, int]:
    """When a lot was made, and how far around that time reach goes."""
    act = find_entry(b.state, lot.made_by).act
    return act.happened.at_ms, max(b.margin_ms, act.unsure_ms)
