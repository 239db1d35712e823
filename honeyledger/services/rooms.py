"""What should stand in a room or a row, and what a walk through it found."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.codes import LETTERS
from honeyledger.domain.moments import Moment, moment_at
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.packs import jars_in
from honeyledger.ledger.places import PALLET, ROOM, VESSEL, class_of, is_inside, place
from honeyledger.ledger.whereabouts import (
    MISSING,
    NO_ROOM,
    STANDS,
    expected_at,
    find_spot,
    is_pack,
    spot_of,
)
from honeyledger.services.holding import held_lots, noun_of
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

SORTS = {
    "missing": "missing",
    "misplaced": "stood elsewhere by the books",
    "new": "not placed before",
    "gone": "not in the house by the books",
    "found": "found without a label",
    "there": "where it should be",
}


@dataclass(frozen=True, slots=True)
class StandsHere:
    """Something that should stand in a room: grams, pieces, and since when it is there.

    Args:
        row: the row, "" where only the room is known.
        missing: whether the last walk did not find it.
        held: whether a hold reaches it.
    """

    code: str
    noun: str
    row: str
    grams: int
    pieces: int
    since: Moment
    missing: bool
    held: bool


def stands_in(view: View, room: str, row: str = "") -> tuple[StandsHere, ...]:
    """What should stand in a room or a row, by row, then by code.

    Raises:
        Refusal: no such room.
    """
    spot = find_spot(view, room, row)
    if not spot:
        raise Refusal(NO_ROOM, field="room")
    held = held_lots(view)
    zone = rules_of(view).zone
    rows = []
    for code in expected_at(view, spot):
        mark, missing = view.mark(code, STANDS), view.mark(code, MISSING)
        assert mark is not None
        lot = view.lot_by_code(code)
        lots = [lot.id] if lot else _lots_on(view, code)
        grams, pieces = _amount(view, lots, code)
        rows.append(
            StandsHere(
                code=code,
                noun=noun_of(view, lot) if lot else _noun(code),
                row=spot_of(view, code).get("row", ""),
                grams=grams,
                pieces=pieces,
                since=moment_at(mark.at_ms, zone),
                missing=bool(missing and missing.value),
                held=any(one in held for one in lots),
            )
        )
    return tuple(sorted(rows, key=lambda one: (one.row.casefold(), one.code)))


def _noun(code: str) -> str:
    letter = code.split("-")[-3][0]
    return "container" if letter == "E" else LETTERS.get(letter, "")


def _lots_on(view: View, code: str) -> list[int]:
    """The lots on a pallet of supers, or in a case or on a shipping pallet."""
    if is_pack(code):
        packed = (view.lot_by_code(row.code) for row in jars_in(view, code))
        return [lot.id for lot in packed if lot is not None]
    return [row.lot.id for row in view.standing(place(PALLET, code))]


def _amount(view: View, lots: Sequence[int], code: str) -> tuple[int, int]:
    """Grams and pieces of these lots that stand by themselves, on this pallet, or in this case."""
    if is_pack(code):
        return 0, sum(row.pieces for row in jars_in(view, code))
    wanted = place(PALLET, code)
    rows = [
        row
        for lot in lots
        for row in view.holdings(lot)
        if row.place == wanted
        or (class_of(row.place) not in (PALLET, VESSEL) and is_inside(row.place))
    ]
    return sum(row.grams for row in rows), sum(row.pieces for row in rows)


def walk_of(entry: Entry) -> dict[str, list[str]]:
    """What a stocktake found, sort by sort: missing, misplaced, new, gone, found, there."""
    for subject, name, value in rows_of(entry, "marks"):
        is_walk = class_of(str(subject)) == ROOM and str(name).startswith("walked/")
        if is_walk and isinstance(value, Mapping):
            return {sort: _codes(value.get(sort, ())) for sort in SORTS}
    return {sort: [] for sort in SORTS}


def _codes(value: Json) -> list[str]:
    assert isinstance(value, Sequence)
    return [str(one) for one in value]


def spot_words(names: PlaceNames, spot: Mapping[str, str]) -> str:
    """A spot as people say it: "Drum room, row B3"."""
    name = names.of_record(place(ROOM, spot["room"]))
    return phrase("{room}, row {row}", room=name, row=spot["row"]) if "row" in spot else name


def where_it_stands(view: View, code: str, names: PlaceNames) -> list[tuple[str, str]]:
    """A card's facts of where something stands: room and row, and whether it was missed there."""
    spot, missing = spot_of(view, code), view.mark(code, MISSING)
    rows: list[tuple[str, str]] = []
    if spot:
        rows.append((phrase("stands in"), spot_words(names, spot)))
    if missing and missing.value:
        rows.append((phrase("missing"), phrase("not found at the last walk")))
    return rows
