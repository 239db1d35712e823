"""Where things stand, and the stocktake: a room or row is walked, and each code in it scanned.

One walk is one entry. It moves no gram: what is missing stays in the books until somebody says
what became of it, what stands elsewhere than the books thought stands here from now on, and a
full drum nobody knows becomes a lot of unknown source, on hold.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.mixing import few, name_of
from honeyledger.ledger.places import CUSTOMER, DISCARDED, ROOM, SUPPLIER, class_of, place
from honeyledger.ledger.sources import NOTHING_THERE, refuse_gone
from honeyledger.ledger.verbs.opening import FoundDrum, add_found
from honeyledger.ledger.whereabouts import (
    MISSING,
    NO_ROOM,
    Thing,
    expected_at,
    find_spot,
    find_thing,
    is_here,
    is_pack,
    is_there,
    spot_of,
    stands_at,
)

NOTHING_MOVED = Sentence("nothing-moved", "Scan what was carried there first.")
NOTHING_WALKED = Sentence(
    "nothing-walked",
    "Nothing was scanned, and nothing should stand in {where}. Walk it, and scan what is there.",
)
NOT_SEEN = Sentence(
    "not-seen",
    "Missing in {where}: {codes}. They stay in the books: scan them where they are found, or "
    "record what became of them.",
)
STOOD_ELSEWHERE = Sentence(
    "stood-elsewhere", "{code} should have stood in {old}. It stands in {where} from now on."
)
BOOKS_HAVE_NONE = Sentence(
    "books-have-none",
    "{code} stands in {where}, but the books have nothing of it here: {went}. Look at what was "
    "written down, and record what is true: taken back, or another drum sent in its place.",
)
WENT = {
    CUSTOMER: "it went to {name}",
    SUPPLIER: "it went back to {name}",
    DISCARDED: "it was thrown away",
}


@dataclass(frozen=True, slots=True)
class Move:
    """Drums, pallets or cases are carried to a room and a row."""

    kind: ClassVar[str] = "move"
    codes: tuple[str, ...]
    room: str
    row: str = ""


@dataclass(frozen=True, slots=True)
class Stocktake:
    """A row was walked, or a whole room where no row is named, and everything in it scanned.

    Args:
        scanned: the codes, as they were scanned; twice is once.
        found: full drums without a label.
    """

    kind: ClassVar[str] = "stocktake"
    room: str
    row: str = ""
    scanned: tuple[str, ...] = ()
    found: tuple[FoundDrum, ...] = ()


def book_move(facts: Move, b: Booking) -> None:
    """Each stands there from now on."""
    if not facts.codes:
        raise Refusal(NOTHING_MOVED, field="codes")
    spot = _needed(facts.room, facts.row, b)
    for thing in _things(facts.codes, b, "codes"):
        if not is_here(b.state, thing.code):
            if thing.lot is None:
                raise Refusal(NOTHING_THERE, field="codes", place=thing.code)
            raise refuse_gone(b, thing.lot, "codes")
        stands_at(b, thing.code, spot)


def book_stocktake(facts: Stocktake, b: Booking) -> None:
    """What was scanned against what should stand there: missing, misplaced, new, gone, found."""
    spot = _needed(facts.room, facts.row, b)
    expected = expected_at(b.state, spot)
    if expected and facts.row:  # the row as it was written before, not "b3" beside "B3"
        spot = spot_of(b.state, expected[0])
    where = spot_text(b, spot)
    if not facts.scanned and not facts.found and not expected:
        raise Refusal(NOTHING_WALKED, field="scanned", where=where)
    things = _things(facts.scanned, b, "scanned")
    seen = {thing.code for thing in things}
    walked: dict[str, list[str]] = {"missing": [code for code in expected if code not in seen]}
    for thing in things:
        walked.setdefault(_sort(thing, spot, where, b), []).append(thing.code)
    for code in walked["missing"]:
        b.mark(code, MISSING, spot)
    if walked["missing"]:
        b.note(NOT_SEEN, where=where, codes=few(walked["missing"]))
    walked["found"] = [add_found(one, spot, b).code for one in facts.found]
    result = {sort: codes for sort, codes in walked.items() if codes}
    b.mark(place(ROOM, spot["room"]), f"walked/{spot.get('row', '')}", result)


def _sort(thing: Thing, spot: dict[str, str], where: str, b: Booking) -> str:
    """What a scanned code is to the walk: there, misplaced, new, or gone by the books."""
    if not is_here(b.state, thing.code):
        b.note(BOOKS_HAVE_NONE, code=thing.code, where=where, went=_went(thing, b))
        return "gone"
    old = spot_of(b.state, thing.code)
    if is_there(old, spot):
        stands_at(b, thing.code, old)
        return "there"
    stands_at(b, thing.code, spot)
    if not old:
        return "new"
    b.note(STOOD_ELSEWHERE, code=thing.code, old=spot_text(b, old), where=where)
    return "misplaced"


def _went(thing: Thing, b: Booking) -> str:
    """Where the books have a lot that stands here."""
    for row in b.state.holdings(thing.lot.id) if thing.lot else ():
        if row.grams > 0 and class_of(row.place) in WENT:
            return WENT[class_of(row.place)].format(name=name_of(b.state, row.place))
        if class_of(row.place) == SUPPLIER and not row.grams:
            return WENT[SUPPLIER].format(name=name_of(b.state, row.place))
    return "it was sent or unpacked" if is_pack(thing.code) else "it was emptied"


def _needed(room: str, row: str, b: Booking) -> dict[str, str]:
    spot = find_spot(b.state, room, row)
    if not spot:
        raise Refusal(NO_ROOM, field="room")
    return spot


def _things(texts: Sequence[str], b: Booking, field: str) -> list[Thing]:
    things = {thing.code: thing for thing in (find_thing(b, text, field) for text in texts)}
    return list(things.values())


def spot_text(b: Booking, spot: dict[str, str]) -> str:
    """A spot as people say it: "Drum room, row B3"."""
    name = name_of(b.state, place(ROOM, spot["room"]))
    return f"{name}, row {spot['row']}" if "row" in spot else name
