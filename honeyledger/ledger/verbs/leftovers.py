"""Supers of a pallet that do not go through: carried over, back to the bees, or scrapped.

They are found before the pallet is loaded, or at the uncapper, when the books have it in the
line already. Then the load is less by them, and what is mixed by now is weighing difference.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import ClassVar, NamedTuple

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, largest_remainder
from honeyledger.ledger.bee_feed import FED_CARE
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.in_run import check_run_open
from honeyledger.ledger.lookup import find_lot, find_pallet, find_record
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import (
    DIFFERENCE,
    DISCARDED,
    FED,
    VESSEL,
    YARD,
    class_of,
    key_of,
    place,
)
from honeyledger.ledger.sources import home_of, number_in
from honeyledger.ledger.verbs.dock import LOADED, leave_empty, pallet_rows, take_supers

STAYS, BEES, SCRAP = "stays", "bees", "scrap"
ENDS = (STAYS, BEES, SCRAP)
WHYS = ("brood", "set", "green", "left over", "spoilt")
USUAL_FRAMES = 9  # in a super whose box says nothing, common practice, no source
SET_ASIDE = "set aside"

UNKNOWN_WHY = Sentence(
    "unknown-why",
    "{why} is no reason to set supers aside: say brood, set, green, left over or spoilt.",
)
NO_WHY = Sentence(
    "no-why", "Say why supers are set aside: brood, set, green, left over or spoilt."
)
UNKNOWN_END = Sentence(
    "unknown-end",
    "{to} is nowhere to put supers: say stays for the hot room, bees for a yard, or scrap.",
)
SUPERS_OR_FRAMES = Sentence(
    "supers-or-frames", "Count the supers set aside, or the frames: one of the two."
)
WHOSE_BEES = Sentence("whose-bees", "Name the yard whose bees get it.")
NO_YARD_NEEDED = Sentence(
    "no-yard-needed", "A yard is for what its bees get: say bees, or leave {yard} out."
)
NOT_SO_MANY_FRAMES = Sentence(
    "not-so-many-frames",
    "{pallet} has some {there} frames, not {asked}. Count again, or set whole supers aside.",
)
NOT_LOADED_SO_MANY = Sentence(
    "not-loaded-so-many",
    "{pallet} went in with {there} supers by its last load, not {asked}. Count them again.",
)
OFF_THE_LOAD = Sentence(
    "off-the-load", "Entry {entry} had them in {vessel} already: that load is less by {grams} now."
)
MIXED_BY_NOW = Sentence(
    "mixed-by-now",
    "{grams} of it is mixed in {vessel} by the books: that much is weighing difference.",
)
FED_ELSEWHERE = Sentence(
    "fed-elsewhere",
    "{code} is honey of {home}, and {yard} gets it: be sure that {home} is healthy.",
)


@dataclass(frozen=True, slots=True)
class SetAside:
    """Supers or frames of a pallet that do not go through. Undone by reversing it.

    Args:
        why: brood, set (granulated in the comb), green, left over or spoilt.
        to: stays (on the pallet, for another day), bees (a yard's), or scrap.
        count: supers; `frames` instead where only some frames of them.
        pull: of this pull only; else of all on the tag in proportion.
        loaded: of what the last load took, though more stands on the pallet.
        yard: whose bees get it.
    """

    kind: ClassVar[str] = SET_ASIDE
    pallet: str
    why: str
    to: str = STAYS
    count: int | None = None
    frames: int | None = None
    pull: str = ""
    loaded: bool = False
    yard: str = ""
    note: str = ""
    despite_hold: str = ""


class _Part(NamedTuple):
    """What is set aside of one pull."""

    lot: Lot
    grams: int
    supers: int
    frames: int = 0


def book_set_aside(facts: SetAside, b: Booking) -> None:
    """Take them off the pallet, or off the load that had them, and say where they went."""
    check_run_open(b)
    end = _end_of(facts, b)
    tag = find_pallet(b.state, facts.pallet)
    rows = b.standing(tag)
    load = _last_load(b, tag) if facts.loaded or not any(row.pieces for row in rows) else None
    if load is None:
        _off_the_pallet(facts, end, b)
    else:
        _off_the_load(facts, tag, end, load, b)


def _end_of(facts: SetAside, b: Booking) -> str:
    """Where they go; "" where they stay on the pallet."""
    if not facts.why:
        raise Refusal(NO_WHY, field="why")
    if facts.why not in WHYS:
        raise Refusal(UNKNOWN_WHY, field="why", why=facts.why)
    if facts.to not in ENDS:
        raise Refusal(UNKNOWN_END, field="to", to=facts.to)
    if (facts.count is None) == (facts.frames is None):
        raise Refusal(SUPERS_OR_FRAMES, field="count")
    if facts.to == BEES:
        if not facts.yard.strip():
            raise Refusal(WHOSE_BEES, field="yard")
        return place(FED, key_of(find_record(b.state, YARD, facts.yard)[0]))
    if facts.yard.strip():
        raise Refusal(NO_YARD_NEEDED, field="yard", yard=facts.yard)
    return DISCARDED if facts.to == SCRAP else ""


def _off_the_pallet(facts: SetAside, end: str, b: Booking) -> None:
    """The pallet is not loaded yet: what stays is only noted."""
    tag, rows = pallet_rows(b, facts.pallet)
    if facts.frames is not None:
        if facts.pull:
            lot = find_lot(b.state, facts.pull, "S", "pull")
            rows = [row for row in rows if row.lot.id == lot.id]
        there = [_Part(row.lot, row.grams, row.pieces) for row in rows]
        parts = _frames_of(b, tag, there, facts.frames)
    else:
        taken = take_supers(b, tag, rows, facts.count, facts.pull)
        parts = [_Part(*one) for one in taken]
    _check_fed(facts, end, parts, b)
    for part in parts:
        if end:
            b.move(part.lot.id, tag, end, part.grams)
            b.pieces(part.lot.id, tag, -part.supers)
            b.pieces(part.lot.id, end, part.supers)
        _mark(facts, part, b)
    if end:
        leave_empty(b, tag)
    b.touches(tag)


def _frames_of(b: Booking, tag: str, there: Sequence[_Part], frames: int) -> list[_Part]:
    """Some frames out of supers that go on: of each pull in proportion, with their honey."""
    have = [part.supers * _frames_in(b, part.lot) for part in there]
    if not 0 < frames <= sum(have):
        raise Refusal(
            NOT_SO_MANY_FRAMES,
            field="frames",
            pallet=key_of(tag),
            there=sum(have),
            asked=frames,
        )
    counts = largest_remainder(frames, have)
    return [
        _Part(part.lot, part.grams * count // of if of else 0, 0, count)
        for part, count, of in zip(there, counts, have, strict=True)
    ]


def _frames_in(b: Booking, lot: Lot) -> int:
    """Frames in one super of a pull, by its box's record."""
    box = b.state.mark(f"box/{lot.attributes.get('box', '')}", "record")
    record = box.value if box and isinstance(box.value, Mapping) else {}
    return number_in(record, "frames", USUAL_FRAMES)


def _last_load(b: Booking, tag: str) -> Entry | None:
    """The entry that loaded supers of this pallet last, since its tag was taken."""
    taken = b.state.mark(tag, "condition")
    marks = [mark.entry for mark in b.state.marks(tag) if mark.name.startswith(LOADED)]
    since = taken.entry if taken else 0
    entries = [b.state.entry(number) for number in sorted({*marks}) if number > since]
    loads = [entry for entry in entries if entry is not None and entry.kind == "load"]
    return loads[-1] if loads else None


def _off_the_load(facts: SetAside, tag: str, end: str, load: Entry, b: Booking) -> None:
    """They never went through: the load is less by them, and by the run it was in."""
    if not b.act.run and b.state.mark(place("run", load.act.run), "closed") is None:
        b.act = replace(b.act, run=load.act.run)
    vessel = next(row.place for row in load.postings if class_of(row.place) == VESSEL)
    there = _went_in(b, tag, load, facts.pull)
    if facts.frames is not None:
        parts = _frames_of(b, tag, there, facts.frames)
    else:
        parts = _supers_of(tag, there, facts.count or 0)
    _check_fed(facts, end, parts, b)
    mixed = 0
    for part in parts:
        stands = next((row.grams for row in b.standing(vessel) if row.lot.id == part.lot.id), 0)
        seen = min(stands, part.grams)
        mixed += part.grams - seen
        home = end or tag
        if home == tag:
            b.comes(tag, part.lot.id)
        b.move(part.lot.id, vessel, home, seen)
        b.move(part.lot.id, DIFFERENCE, home, part.grams - seen)
        b.pieces(part.lot.id, home, part.supers)
        _mark(facts, part, b, load.id)
    b.mark(tag, f"{SET_ASIDE}/{load.id}", _with_before(b, tag, load, parts))
    b.touches(tag)
    b.touches(vessel)
    shown = {"vessel": name_of(b.state, vessel)}
    grams = format_mass(sum(part.grams for part in parts))
    b.note(OFF_THE_LOAD, entry=load.id, grams=grams, **shown)
    if mixed:
        b.note(MIXED_BY_NOW, grams=format_mass(mixed), **shown)


def _went_in(b: Booking, tag: str, load: Entry, pull: str) -> list[_Part]:
    """What a load took off the pallet, less what was set aside of it before."""
    grams = {row.lot: -row.grams for row in load.postings if row.place == tag}
    supers = {
        int(str(lot)): -int(str(count))
        for where, lot, count in rows_of(load, "pieces")
        if where == tag
    }
    only = find_lot(b.state, pull, "S", "pull").id if pull else 0
    before = _before(b, tag, load)
    parts = []
    for lot in dict.fromkeys([*grams, *supers]):
        if only in (0, lot):
            gone_g, gone = before.get(lot, (0, 0))
            left = grams.get(lot, 0) - gone_g, supers.get(lot, 0) - gone
            parts.append(_Part(b.lot(lot), *left))
    return parts


def _before(b: Booking, tag: str, load: Entry) -> dict[int, tuple[int, int]]:
    """Grams and supers of each pull that were set aside of a load already."""
    mark = b.state.mark(tag, f"{SET_ASIDE}/{load.id}")
    rows = mark.value if mark and isinstance(mark.value, Sequence) else ()
    found = {}
    for row in rows:
        assert isinstance(row, Sequence)
        lot, grams, supers = (int(str(one)) for one in row)
        found[lot] = (grams, supers)
    return found


def _with_before(
    b: Booking, tag: str, load: Entry, parts: Sequence[_Part]
) -> list[tuple[int, int, int]]:
    sums = _before(b, tag, load)
    for part in parts:
        grams, supers = sums.get(part.lot.id, (0, 0))
        sums[part.lot.id] = (grams + part.grams, supers + part.supers)
    return [(lot, *row) for lot, row in sorted(sums.items())]


def _supers_of(tag: str, there: Sequence[_Part], count: int) -> list[_Part]:
    """Whole supers out of a load, of each pull in proportion."""
    have = [part.supers for part in there]
    if not 0 < count <= sum(have):
        raise Refusal(
            NOT_LOADED_SO_MANY,
            field="count",
            pallet=key_of(tag),
            there=max(0, sum(have)),
            asked=count,
        )
    counts = largest_remainder(count, have)
    return [
        _Part(part.lot, part.grams * one // part.supers if part.supers else 0, one)
        for part, one in zip(there, counts, strict=True)
    ]


def _check_fed(facts: SetAside, end: str, parts: Sequence[_Part], b: Booking) -> None:
    """Bees get what they are given: held honey is asked about, and care is told."""
    if class_of(end) != FED:
        return
    ask_held(b, [part.lot.id for part in parts if part.grams], facts.despite_hold, "pallet")
    b.note(FED_CARE)
    yard = place(YARD, key_of(end))
    for part in parts:
        home = home_of(b.state, part.lot)
        if part.grams and home != yard:
            names = {"home": name_of(b.state, home), "yard": name_of(b.state, yard)}
            b.note(FED_ELSEWHERE, code=part.lot.code, **names)


def _mark(facts: SetAside, part: _Part, b: Booking, load: int = 0) -> None:
    """A fact about the pull, for its card; of a load, for the run's balance, too."""
    if not (part.grams or part.supers or part.frames):
        return
    value = {
        "lot": part.lot.id,
        "grams": part.grams,
        "supers": part.supers,
        "frames": part.frames,
        "why": facts.why,
        "to": facts.to,
        "note": facts.note,
        "load": load,
    }
    b.mark(part.lot.code, SET_ASIDE, value)
