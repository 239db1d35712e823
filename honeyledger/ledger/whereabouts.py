"""Where a drum, a pallet or a case stands in the house: room and row, a dated fact of its code.

Honey's own places (a drum, a pallet) are places of the ledger; where those stand moves no gram.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.containers import closed_in
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import code_in, find_lot, find_pallet, find_record
from honeyledger.ledger.packs import NOUNS, PACK, contents_of, outer_of, pack_in
from honeyledger.ledger.places import (
    DRUM,
    PALLET,
    ROOM,
    VESSEL,
    class_of,
    is_inside,
    key_of,
    place,
)
from honeyledger.ledger.state import State

STANDS, MISSING = "stands", "missing"
LOTS_THAT_STAND = "DPWKJXA"

NO_ROOM = Sentence("no-room", "Name the room first; a row alone says too little.")


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that can be carried: its code, and the lot where it is one."""

    code: str
    lot: Lot | None = None


def find_spot(state: State, room: str, row: str) -> dict[str, str]:
    """A room by its name with a row as people call it; {} where neither is said."""
    if not room.strip():
        if row.strip():
            raise Refusal(NO_ROOM, field="room")
        return {}
    where, _ = find_record(state, ROOM, room)
    spot = {"room": key_of(where), "row": " ".join(row.split())}
    return {name: text for name, text in spot.items() if text}


def find_thing(b: Booking, text: str, field: str) -> Thing:
    """What was scanned: a lot's label, a pallet tag, a case, or a container by name or code.

    A container that holds a closed drum is that drum.
    """
    code = code_in(b.state, text, field) if text.strip() else None
    if code is None or code.letter == "E":
        drum = find_record(b.state, DRUM, text, field)[0]
        closed = closed_in(b, drum)
        return Thing(closed.code, closed) if closed else Thing(key_of(drum))
    if code.letter == "G":
        return Thing(key_of(find_pallet(b.state, text, field)))
    if pack := pack_in(b, text, field):
        return Thing(str(pack))
    lot = find_lot(b.state, text, LOTS_THAT_STAND, field)
    return Thing(lot.code, lot)


def stands_at(b: Booking, code: str, spot: Mapping[str, str]) -> None:
    """From this entry on it stands there, and is missing no more."""
    b.mark(code, STANDS, spot)
    mark = b.state.mark(code, MISSING)
    if mark and mark.value:
        b.mark(code, MISSING, 0)


def forget_spot(b: Booking, code: str) -> None:
    """It was away: where it stood before says nothing of where it stands now."""
    if spot_of(b.state, code):
        b.mark(code, STANDS, {})


def spot_of(state: State, code: str) -> dict[str, str]:
    """Where something was put last; {} where nobody said, or a case was away since."""
    mark = state.mark(code, STANDS)
    left = state.mark(place(PACK, code), "left") if is_pack(code) else None
    if mark is None or (left and left.entry > mark.entry):
        return {}
    return _spot(mark.value)


def _spot(value: Json) -> dict[str, str]:
    if not isinstance(value, Mapping):
        return {}
    return {name: str(value[name]) for name in ("room", "row") if name in value}


def is_there(spot: Mapping[str, str], wanted: Mapping[str, str]) -> bool:
    """Whether a spot is the one wanted; any row of the room, where no row is."""
    same_room = spot.get("room") == wanted.get("room")
    row = wanted.get("row")
    return same_room and (row is None or spot.get("row", "").casefold() == row.casefold())


def expected_at(state: State, wanted: Mapping[str, str]) -> list[str]:
    """Codes of what should stand in a room or row: put there last, and still in the house."""
    codes = [mark.subject for mark in state.marked(STANDS) if is_there(_spot(mark.value), wanted)]
    return [
        code
        for code in codes
        if is_here(state, code) and spot_of(state, code) and not outer_of(state, code)
    ]


def is_pack(code: str) -> bool:
    """Whether a code is a case's or a shipping pallet's."""
    return code.split("-")[-3][0] in NOUNS


def is_here(state: State, code: str) -> bool:
    """Whether the books have anything of it in the house by itself; a container may be empty."""
    letter = code.split("-")[-3][0]
    if letter == "G":
        return any(row.grams or row.pieces for row in state.standing(place(PALLET, code)))
    if letter in NOUNS:
        return bool(contents_of(state, code))
    if letter == "E":
        return True
    lot = state.lot_by_code(code)
    if lot is None or lot.kind == "X":
        return lot is not None
    return any(
        (row.grams > 0 or row.pieces > 0)
        and is_inside(row.place)
        and class_of(row.place) != VESSEL
        for row in state.holdings(lot.id)
    )
