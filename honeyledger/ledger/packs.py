"""Cases and shipping pallets: what is packed in what, as facts; packing mixes nothing.

A case's content is a mark on it, and each lot in it has a mark for the case, so that both are
found from either. Jars in a case are still counted where they stand, in the jar store.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from honeyledger.domain.codes import Code, JarCode, parse_code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json
from honeyledger.ledger.lookup import code_in, read_code, refuse_wrong
from honeyledger.ledger.once import check_once
from honeyledger.ledger.places import JARS, place
from honeyledger.ledger.state import State
from honeyledger.ledger.units import number_unit

PACK = "pack"
HOLDS, INSIDE_OF, PACKED = "holds", "inside", "packed/"
CASE, PALLET = "C", "L"
NOUNS = {CASE: "case", PALLET: "shipping pallet"}

NOTHING_PACKED = Sentence(
    "nothing-packed", "{code} is empty: it was unpacked, sent or never packed. Scan another one."
)
PACKED_IN = Sentence(
    "packed-in", "{code} stands on {outer}. Unpack {outer} first, or scan the whole pallet."
)
GOES_WHOLE = Sentence(
    "goes-whole", "{code} goes as it was packed. Unpack it first, to send a part of it."
)


class Asked(NamedTuple):
    """What is asked for of a lot: so many jars, so many grams, or all of it."""

    code: str
    jars: int | None = None
    net_g: int | None = None


class Content(NamedTuple):
    """What a case or pallet holds of one lot, in pieces, or a case on it (pieces 0)."""

    code: str
    pieces: int


def pack_in(b: Booking, text: str, field: str = "code") -> Code | None:
    """The code of the case or shipping pallet a text names; None where it names anything else."""
    code = code_in(b.state, text, field) if text.strip() else None
    if code is None or code.letter not in NOUNS:
        return None
    return find_pack(b, text, field)


def find_pack(b: Booking, text: str, field: str = "code") -> Code:
    """The code of a case or shipping pallet.

    Raises:
        Refusal: it is none of this house.
    """
    code = read_code(b.state, text, field)
    plain = code.lot if isinstance(code, JarCode) else code
    if plain.letter not in NOUNS or not b.state.is_given(str(plain)):
        raise refuse_wrong(b.state, plain, text, "case or shipping pallet", field)
    return plain


def contents_of(state: State, code: str) -> list[Content]:
    """What a case or pallet holds now, as it was packed; nothing where it is empty."""
    mark = state.mark(place(PACK, code), HOLDS)
    value = mark.value if mark else ()
    rows = value if isinstance(value, Sequence) and not isinstance(value, str) else ()
    return [_content(row) for row in rows]


def _content(row: Json) -> Content:
    assert isinstance(row, Sequence)
    return Content(str(row[0]), int(str(row[1])))


def jars_in(state: State, code: str) -> list[Content]:
    """The jars in a case, or in all the cases of a pallet, added up by lot."""
    sums: dict[str, int] = {}
    for row in contents_of(state, code):
        inner = [row] if row.pieces else jars_in(state, row.code)
        for one in inner:
            sums[one.code] = sums.get(one.code, 0) + one.pieces
    return [Content(*pair) for pair in sums.items()]


def packed_of(state: State, lot: str) -> int:
    """How many pieces of a lot are in cases in the house."""
    marks = [mark for mark in state.marks(lot) if mark.name.startswith(PACKED)]
    return sum(mark.value for mark in marks if isinstance(mark.value, int))


def loose_of(b: Booking, lot_id: int, code: str) -> int:
    """How many pieces of a lot stand in the jar store and in no case."""
    there = sum(row.pieces for row in b.standing(JARS) if row.lot.id == lot_id)
    return there - packed_of(b.state, code)


def outer_of(state: State, code: str) -> str:
    """The pallet a case stands on; "" where it stands by itself."""
    mark = state.mark(place(PACK, code), INSIDE_OF)
    return str(mark.value) if mark and mark.value else ""


def fill_pack(b: Booking, code: str, rows: Sequence[Content]) -> None:
    """Write down what a new case or pallet holds from now on, and number it as a logistic unit."""
    number_unit(b, code)
    b.mark(place(PACK, code), HOLDS, [list(row) for row in rows])
    for row in rows:
        if row.pieces:
            b.mark(row.code, f"{PACKED}{code}", row.pieces)
        else:
            b.mark(place(PACK, row.code), INSIDE_OF, code)


def empty_pack(b: Booking, code: str, *, whole: bool = False) -> None:
    """Write down that it holds nothing any more; `whole` empties the cases on a pallet as well."""
    for row in contents_of(b.state, code):
        if row.pieces:
            b.mark(row.code, f"{PACKED}{code}", 0)
            continue
        b.mark(place(PACK, row.code), INSIDE_OF, 0)
        if whole:
            empty_pack(b, row.code)
    b.mark(place(PACK, code), HOLDS, 0)


def take_pack(b: Booking, code: str, field: str = "code") -> list[Content]:
    """The jars of a case or pallet that leaves as it is, which holds nothing from then on.

    Raises:
        Refusal: it is empty, or stands on a pallet that stays.
    """
    rows = jars_in(b.state, code)
    if not rows:
        raise Refusal(NOTHING_PACKED, field=field, code=code)
    if outer := outer_of(b.state, code):
        raise Refusal(PACKED_IN, field=field, code=code, outer=outer)
    b.mark(place(PACK, code), "left", {"entry": b.entry_id, "rows": [list(row) for row in rows]})
    empty_pack(b, code, whole=True)
    return rows


def left_with(state: State, code: str) -> list[Content]:
    """What was in a case or pallet when it left the house, or nothing where it never did."""
    mark = state.mark(place(PACK, code), "left")
    value = mark.value if mark and isinstance(mark.value, Mapping) else {}
    rows = value.get("rows", ())
    assert isinstance(rows, Sequence)
    return [_content(row) for row in rows]


def by_lot(b: Booking, lines: Iterable[Asked]) -> list[Asked]:
    """Lines of a list, with the jars in place of each case or pallet, which leaves with them.

    A jar's own code is one jar.

    Raises:
        Refusal: a case is empty, stands on a pallet that stays, is there twice, or only a part of
            it is asked for; a jar is there twice.
    """
    rows: list[Asked] = []
    packs: list[str] = []
    lines = list(lines)
    check_once([str(jar) for line in lines if (jar := _own_code(b, line.code))], "code")
    for line in lines:
        pack = pack_in(b, line.code)
        if pack is None:
            rows.append(counted(b, line))
            continue
        if line.jars is not None or line.net_g is not None:
            raise Refusal(GOES_WHOLE, field="jars", code=pack)
        packs.append(str(pack))
        check_once(packs, "code")
        rows += [Asked(row.code, row.pieces) for row in take_pack(b, str(pack))]
    return rows


def counted(b: Booking, line: Asked) -> Asked:
    """What is asked for by a jar's own code is that one jar, where nobody says how many."""
    if line.jars is None and line.net_g is None and _own_code(b, line.code):
        return line._replace(jars=1)
    return line


def _own_code(b: Booking, text: str) -> JarCode | None:
    try:
        code = parse_code(text, b.rules.prefix)
    except Refusal:
        return None
    return code if isinstance(code, JarCode) else None
