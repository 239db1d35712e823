"""Amending: the honey is gone and the books were wrong; old and new are both in its reach."""

from collections.abc import Sequence
from dataclasses import replace

from honeyledger.domain.moments import say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.containers import closed_in
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.holds import held_among
from honeyledger.ledger.in_run import MAY_BE_OF_RUN, RUN_UNKNOWN, entries_in, put_in, run_of
from honeyledger.ledger.lookup import (
    find_lot,
    find_record,
    find_vessel,
    read_code,
    read_iso_day,
)
from honeyledger.ledger.mixing import Taken, fed_by, few, has_in, name_of, put
from honeyledger.ledger.newly_held import note_newly_held
from honeyledger.ledger.owners import check_owners
from honeyledger.ledger.places import (
    DRUM,
    PALLET,
    SUPPLIER,
    UNKNOWN,
    YARD,
    class_of,
    key_of,
    place,
)
from honeyledger.ledger.signing import check_reason, note_unsigned
from honeyledger.ledger.sources import home_of, is_from, sources_of
from honeyledger.ledger.state import State
from honeyledger.ledger.verbs.corrections import ALREADY_REVERSED, Amend, find_entry
from honeyledger.ledger.verbs.dock import LOADED, leave_empty, pallet_rows
from honeyledger.ledger.verbs.jars import note_other_product

NOTHING_TO_AMEND = Sentence(
    "nothing-to-amend",
    "Say what was wrong: the yard, the supplier, the pallet, the vessel of a load, the vessel a "
    "drum was filled from, its container, its day, the product, or the run of an entry.",
)
ONE_KIND = Sentence(
    "one-amendment",
    "The {first} and the {second} are put right apart: amend one of them, and then the other.",
)
WHICH_LOAD = Sentence("which-load", "Say which load went into {vessel}: give its entry's number.")
SAME_AS_BEFORE = Sentence("same-as-before", "{code} is already booked so. Nothing was changed.")
NOT_UNKNOWN = Sentence(
    "not-unknown", "{code} does not stand for honey of unknown source. Amend its yard instead."
)
NOTHING_LOADED = Sentence(
    "nothing-loaded", "Nothing was loaded in {run}: no drum can be of it. Name another run."
)
NOT_A_LOAD = Sentence(
    "not-a-load", "Entry {entry} put nothing into a vessel. Name the load that did."
)
NOT_OF_A_RUN = Sentence(
    "not-of-a-run",
    "Entry {entry} is not one that counts in a run. Name a load, a draw or cappings that stand.",
)
IN_A_RUN = Sentence(
    "in-a-run",
    "Entry {entry} is in {run} already. Reverse what put it there, and record it again.",
)
NOTHING_LEFT = Sentence(
    "nothing-left",
    "{code} has no honey of its own in the books any more: amend the lot that stands for it, too.",
)
FILLED_LATER = Sentence(
    "filled-later", "It cannot have been filled on {day}, which is still to come. Correct the day."
)
NOTHING_THEN = Sentence(
    "nothing-then", "Nothing stood in {vessel} when {code} was filled. Name another vessel."
)
SHARES_STAY = Sentence(
    "shares-stay", "The shares stay as they were booked. In reach from now on: {codes}."
)
HOLDS_ANOTHER = Sentence(
    "holds-another",
    "{container} holds {code} in the books. Amend the container of {code} as well: the two change "
    "places then.",
)
STILL_HELD = Sentence("still-held", "{code} stays on hold until someone releases it by name.")


def book_amend(facts: Amend, b: Booking) -> None:
    """One of the ways the books can have been wrong; see `Amend`."""
    check_reason(facts.reason)
    note_unsigned(b)
    _check_one_kind(facts)
    if facts.entry:
        _amend_run(facts, b)
        return
    if facts.load or facts.vessel:
        _amend_load(facts, b)
        note_newly_held(b)
        return
    if facts.yard or facts.supplier:
        lot = find_lot(b.state, facts.lot, "SP")
        note_newly_held(b, lot, _amend_source(facts, lot, b))
    elif facts.pallet:
        lot = find_lot(b.state, facts.lot, "S")
        _amend_unknown(facts, lot, b)
    elif facts.run:
        lot = _found(facts, b)
        _amend_found(facts, lot, b)
    elif facts.source:
        lot = find_lot(b.state, facts.lot, "DJK")
        _amend_filled_from(facts, lot, b)
    elif facts.container or facts.filled_on or facts.product:
        lot = find_lot(b.state, facts.lot, "DJ" if facts.container else "DJK")
        _amend_label(facts, lot, b)
    else:
        raise Refusal(NOTHING_TO_AMEND, field="yard")
    b.mark(lot.code, "amended", b.entry_id)
    note_newly_held(b)


def _check_one_kind(facts: Amend) -> None:
    """One amendment puts one thing right; of two, one would be lost."""
    kinds = {
        "yard": facts.yard,
        "supplier": facts.supplier,
        "pallet": facts.pallet,
        "run": facts.run and not facts.entry,
        "load": facts.load or facts.vessel,
        "vessel it was filled from": facts.source,
        "label": facts.container or facts.filled_on or facts.product,
        "run of an entry": facts.entry,
    }
    given = [kind for kind, said in kinds.items() if said]
    if len(given) > 1:
        raise Refusal(ONE_KIND, field=given[1], first=given[0], second=given[1])


def _amend_run(facts: Amend, b: Booking) -> None:
    """What nobody said a run for is of this one; a run that is signed takes it, too."""
    entry = find_entry(b.state, facts.entry)
    if entry.kind not in MAY_BE_OF_RUN or b.state.reversed_by(entry.id):
        raise Refusal(NOT_OF_A_RUN, field="entry", entry=entry.id)
    if known := run_of(b.state, entry):
        raise Refusal(IN_A_RUN, field="entry", entry=entry.id, run=known)
    run = str(read_code(b.state, facts.run, "run")) if facts.run else ""
    if b.state.mark(place("run", run), "opened") is None:
        raise Refusal(RUN_UNKNOWN, field="run", run=run or "That")
    said, b.act = b.act, replace(b.act, run=run)
    if entry.kind == "load":
        check_owners(b, [b.lot(row.lot) for row in entry.postings if row.grams < 0])
    b.act = said
    put_in(b, entry, run)


def _amend_label(facts: Amend, lot: Lot, b: Booking) -> None:
    """Container, day and product are amended, never reversed, so that the code stays true."""
    if facts.container:
        _amend_container(facts, lot, b)
    if facts.filled_on:
        day = read_iso_day(facts.filled_on, "filled_on")
        if day > b.day.isoformat():
            raise Refusal(FILLED_LATER, field="filled_on", day=say_day(day))
        b.mark(lot.code, "filled_on", day)
    if facts.product:
        subject = find_record(b.state, "product", facts.product)[0]
        b.mark(lot.code, "product", key_of(subject))
        note_other_product(b, lot, key_of(subject))


def _amend_source(facts: Amend, lot: Lot, b: Booking) -> str:
    """The new place gives what the old ones gave; it is the place that is returned."""
    kind, text = (YARD, facts.yard) if facts.yard else (SUPPLIER, facts.supplier)
    new = find_record(b.state, kind, text)[0]
    given = {where: grams for where, grams in sources_of(b.state, lot).items() if grams > 0}
    if set(given) == {new} or (not given and is_from(b.state, lot, new)):
        raise Refusal(SAME_AS_BEFORE, field=kind, code=lot.code)
    if not given:
        # Its honey is counted under another lot; what has it in reach is from the new place, too.
        b.known_from(lot.id, new)
        b.note(NOTHING_LEFT, code=lot.code)
    for where, grams in given.items():
        if where != new:
            b.move(lot.id, new, where, grams)
            b.mark(lot.code, f"not from/{where}", 0)
    b.mark(lot.code, f"from/{new}", b.entry_id)
    return new


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


def _found(facts: Amend, b: Booking) -> Lot:
    """The source lot of a drum that was found, by its own code or by the drum's."""
    lot = find_lot(b.state, facts.lot, "SD")
    parents = [b.lot(edge.parent) for edge in b.state.origins(lot.id) if edge.grams]
    return parents[0] if len(parents) == 1 and parents[0].kind == "S" else lot


def _amend_found(facts: Amend, lot: Lot, b: Booking) -> None:
    """The found honey is of all that was loaded in the run; its fills come into reach.

    Each pull of the run gives its part, by the grams that went in.
    """
    unknown_g = sources_of(b.state, lot).get(UNKNOWN, 0) if lot.kind == "S" else 0
    if unknown_g <= 0:
        raise Refusal(NOT_UNKNOWN, field="lot", code=lot.code)
    run = str(read_code(b.state, facts.run, "run"))
    entries = entries_in(b.state, run)
    loaded = {
        posting.lot: posting.grams
        for entry in entries
        for posting in entry.postings
        if entry.kind == "load" and posting.grams > 0
    }
    pulls = [(b.lot(one), grams) for one, grams in loaded.items() if b.lot(one).kind == "S"]
    nets = _net_places(b.state, pulls)
    if not nets:
        raise Refusal(NOTHING_LOADED, field="run", run=run)
    parts = largest_remainder(unknown_g, [grams for _, grams in nets])
    for (where, _), part in zip(nets, parts, strict=True):
        b.move(lot.id, where, UNKNOWN, part)
        b.mark(lot.code, f"from/{where}", b.entry_id)
    fills = {int(str(one)) for entry in entries for _, one in rows_of(entry, "drawn")}
    for one in sorted(fills) or [pull.id for pull, _ in pulls]:
        b.late_origin(lot.id, one)
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
    """The right vessel gets the lots in at 0 g from when they were loaded; shares stay.

    The same vessel may get a part of them earlier than the books have it, or after it was washed.
    """
    if not facts.load:
        raise Refusal(WHICH_LOAD, field="load", vessel=facts.vessel)
    entry = find_entry(b.state, facts.load, "load")
    if by := b.state.reversed_by(entry.id):
        raise Refusal(ALREADY_REVERSED, field="load", entry=entry.id, by=by)
    vessel = find_vessel(b.state, facts.vessel)
    rows = [(str(where), int(str(lot))) for where, lot in rows_of(entry, "arrived")]
    if not rows:
        raise Refusal(NOT_A_LOAD, field="load", entry=entry.id)
    lots = [lot for _, lot in rows]
    unsure_ms = max(0, entry.act.unsure_ms - b.margin_ms)
    booked_ms = entry.act.happened.at_ms - unsure_ms
    at_ms = b.at_ms - b.act.unsure_ms
    if rows[0][0] != vessel:
        at_ms = min(at_ms, booked_ms)
    elif at_ms >= booked_ms and all(has_in(b, vessel, lot) for lot in lots):
        raise Refusal(SAME_AS_BEFORE, field="vessel", code=b.lot(lots[0]).code)
    lots += _with_the_tag(b, entry, vessel, at_ms, lots)
    put(b, vessel, [Taken(lot, 0) for lot in lots], at_ms)
    for lot in lots:
        b.mark(b.lot(lot).code, "amended", b.entry_id)
    b.note(SHARES_STAY, codes=few([b.lot(lot).code for lot in lots]))


def _with_the_tag(
    b: Booking, entry: Entry, vessel: str, at_ms: int, known: Sequence[int]
) -> list[int]:
    """What else may have gone in with a load's pallet: put onto it before, and noted after."""
    tags = [p.place for p in entry.postings if class_of(p.place) == PALLET]
    if not tags:
        return []
    b.mark(tags[0], f"{LOADED}{vessel}", [at_ms, entry.act.happened.at_ms + entry.act.unsure_ms])
    stays = b.state.stays(tags[0], at_ms - b.margin_ms)
    return sorted({stay.lot for stay in stays} - set(known))


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
    b.note(SHARES_STAY, codes=few([b.lot(one).code for one in sorted(there)]))


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
    _change_places(b, lot, drum)


def _change_places(b: Booking, lot: Lot, drum: str) -> None:
    """What is left of the lot stands in the right container from now on.

    Where that one holds another lot in the books, the two change places as soon as that lot is
    amended to the container this one was booked in.
    """
    rows = b.state.holdings(lot.id)
    here = [row.place for row in rows if row.grams > 0 and class_of(row.place) == DRUM]
    if not here or drum in here:
        return
    other = closed_in(b, drum)
    if other is not None:
        amended = b.state.mark(other.code, "container")
        if amended is None or amended.value != key_of(here[0]):
            b.note(HOLDS_ANOTHER, container=name_of(b.state, drum), code=other.code)
            return
        _carry_over(b, other, drum, here[0])
    _carry_over(b, lot, here[0], drum)


def _carry_over(b: Booking, lot: Lot, start: str, end: str) -> None:
    """It leaves at 0 g what it was booked in, where a wash meant for the other cut nothing."""
    made_ms, _ = _made(b, lot)
    grams = next(row.grams for row in b.standing(start) if row.lot.id == lot.id)
    b.comes(end, lot.id)
    b.move(lot.id, start, end, grams)
    for stay in b.state.stays(start, made_ms):
        if stay.by_wash and stay.until_ms == made_ms:
            b.comes(start, stay.lot)
    b.touches(start)
    b.touches(end)


def _made(b: Booking, lot: Lot) -> tuple[int, int]:
    """When a lot was made, and how far around that time reach goes."""
    act = find_entry(b.state, lot.made_by).act
    return act.happened.at_ms, max(b.margin_ms, act.unsure_ms)
