"""What can be sent and what came back: lots on the shelf, oldest first, and why one may not go.

A scan becomes a row here. Whether it may really leave is the ledger's to say when it is recorded;
this module says it beforehand, with the way by which a hold reaches the lot.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.codes import JarCode
from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_count
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import held_among
from honeyledger.ledger.lookup import code_in, find_lot, read_code
from honeyledger.ledger.packs import CASE, HOLDS, PACK, jars_in
from honeyledger.ledger.packs import PALLET as SHIPPING
from honeyledger.ledger.places import (
    BARREL,
    DRUM,
    JARS,
    class_of,
    key_of,
    place,
)
from honeyledger.services.dispatch_holds import refuse_by_way
from honeyledger.services.hold_ways import held_by
from honeyledger.services.holding import values_on
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import OnHand, View
from honeyledger.services.traced import NO_SUCH_JAR

SENT_BY_ITSELF = (JARS, DRUM, BARREL)
GROUPS = {
    "J": phrase("jars"),
    "D": phrase("drums"),
    "P": phrase("drums bought in"),
    "K": phrase("comb honey"),
    "W": phrase("cappings and wax"),
    "A": phrase("ingredients and packaging"),
}
COUNTED = "JK"
PACKS = {CASE: "case", SHIPPING: "shipping pallet"}
LOTS = "lots"
PRODUCT = "product"
JARS_SENT = "a number of jars"
_CASES = re.compile(r"\s*([0-9][0-9\s]*?)\s*[x×*]\s*([0-9][0-9\s]*?)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class OnShelf:
    """A lot that stands by itself and could be sent.

    Args:
        group: what it is asked for as: "product/KEY" of jars, "lots/D" of drums.
        name: the product of jars, the container of a drum.
        made_ms: when it was made; the oldest goes first.
        jars: how many pieces, where it is counted: jars, or pieces of comb.
        held: the hold that keeps it here, in words; "" where it may go.
        way: the same with the steps by which it comes from what the hold stands on.
        pending: whether its weight is still to follow.
        contents: of a case or shipping pallet, how many of each group are in it.
    """

    code: str
    kind: str
    group: str
    name: str
    jars: int
    grams: int
    tare_g: int | None
    made_ms: int
    held: str = ""
    pending: bool = False
    contents: tuple[tuple[str, int], ...] = ()
    way: str = ""


@dataclass(frozen=True, slots=True)
class GroupOnHand:
    """All there is of a product, or of drums: what may go, what is held, the oldest first.

    Args:
        lots: codes of what may go, the oldest first.
        held: how many lots are on hold; they are in none of the figures.
    """

    group: str
    name: str
    jars: int
    grams: int
    lots: tuple[str, ...]
    held: int

    @property
    def count(self) -> int:
        """What one asks for: jars where there are jars, else lots."""
        return self.jars if self.group.startswith(PRODUCT) else len(self.lots)


@dataclass(frozen=True, slots=True)
class Pick:
    """What a scan found: the lot on the shelf, and the serial where one jar was scanned."""

    row: OnShelf
    serial: int = 0


def parse_jars(text: str, *, field: str = "jars") -> int:
    """Read a number of jars, or of cases times jars: "288" or "24 x 12".

    Raises:
        Refusal: one of the figures is no whole number.
    """
    cases = _CASES.fullmatch(text)
    if cases is None:
        return parse_count(text, JARS_SENT, field=field)
    parts = [parse_count(part, JARS_SENT, field=field) for part in cases.groups()]
    return parts[0] * parts[1]


def shelf(view: View) -> tuple[OnShelf, ...]:
    """Every lot that could be sent, jars by product first, the oldest of each group first."""
    return tuple(sorted(_rows(view, view.on_hand(SENT_BY_ITSELF)), key=_oldest_first))


def _rows(view: View, here: Sequence[OnHand]) -> list[OnShelf]:
    """One row a lot, from where the ledger would take it."""
    best: dict[int, OnHand] = {}
    for row in here:
        if row.lot.kind not in GROUPS or row.grams <= 0:
            continue
        before = best.get(row.lot.id)
        if before is None or _goes_before(row, before):
            best[row.lot.id] = row
    names, held = PlaceNames(view), held_by(view, best)
    pending = values_on(view, "pending", [row.lot.code for row in best.values()])
    tares = _tares(view)
    heads = view.entry_heads({row.lot.made_by for row in best.values()})
    made_ms = {head.id: head.happened_ms for head in heads}
    return [
        OnShelf(
            code=row.lot.code,
            kind=row.lot.kind,
            group=(group := group_of(view, row.lot)),
            name=_name(row.lot, row.place, group, names),
            jars=row.pieces if row.lot.kind in COUNTED else 0,
            grams=row.grams,
            tare_g=_tare(row.lot, row.place, tares),
            made_ms=made_ms[row.lot.made_by],
            held=next((one.cause for one in held.get(row.lot.id, ())), ""),
            pending=row.lot.code in pending,
            way=next((one.way for one in held.get(row.lot.id, ())), ""),
        )
        for row in best.values()
    ]


def packs(view: View, rows: Sequence[OnShelf]) -> tuple[OnShelf, ...]:
    """Cases and shipping pallets with what is in them, from the lots on the shelf."""
    by_code = {row.code: row for row in rows}
    marks = [mark for mark in view.marked(HOLDS, f"{PACK}/") if mark.value]
    found = [_pack(view, key_of(mark.subject), by_code) for mark in marks]
    return tuple(row for row in found if row is not None)


def _pack(view: View, code: str, shelf_rows: Mapping[str, OnShelf]) -> OnShelf | None:
    """A case or pallet as one thing to send; None where a lot in it is not on the shelf."""
    inside = jars_in(view, code)
    rows = [shelf_rows.get(one.code) for one in inside]
    known = [row for row in rows if row is not None]
    if not known or len(known) < len(rows):
        return None
    counts: dict[str, int] = {}
    for one, row in zip(inside, known, strict=True):
        counts[row.group] = counts.get(row.group, 0) + one.pieces
    return OnShelf(
        code=code,
        kind=CASE if _is_case(code) else SHIPPING,
        group=next(iter(counts)) if len(counts) == 1 else "",
        name=", ".join(dict.fromkeys(row.name for row in known)),
        jars=sum(counts.values()),
        grams=sum(
            row.grams * one.pieces // row.jars if row.jars else 0
            for one, row in zip(inside, known, strict=True)
        ),
        tare_g=None,
        made_ms=min(row.made_ms for row in known),
        held=next((row.held for row in known if row.held), ""),
        way=next((row.way for row in known if row.way), ""),
        contents=tuple(counts.items()),
    )


def _is_case(code: str) -> bool:
    """A case's code has the letter C before its season, whatever the house puts in front."""
    return code.rpartition("-")[0].rpartition("-")[0].rpartition("-")[2].startswith(CASE)


def _goes_before(row: OnHand, other: OnHand) -> bool:
    """As the ledger chooses where a lot is taken from."""
    return (row.pieces > 0, row.grams) > (other.pieces > 0, other.grams)


def _oldest_first(row: OnShelf) -> tuple[int, str, int, str]:
    order = list(GROUPS)
    name = row.name.casefold() if row.kind == "J" else ""
    return order.index(row.kind), name, row.made_ms, row.code


def group_of(view: View, lot: Lot) -> str:
    """What a lot is asked for as; the product of jars as amended."""
    if lot.kind != "J":
        return place(LOTS, lot.kind)
    amended = view.mark(lot.code, PRODUCT)
    return place(PRODUCT, str(amended.value if amended else lot.attributes.get(PRODUCT, "")))


def _name(lot: Lot, where: str, group: str, names: PlaceNames) -> str:
    if lot.kind == "J":
        return names.of_record(group)
    container = names.of_record(where) if class_of(where) == DRUM else ""
    return "" if container == lot.code else container


def group_name(group: str, names: PlaceNames) -> str:
    """A group as people ask for it: the product's name, or "drums"."""
    return GROUPS[key_of(group)] if class_of(group) == LOTS else names.of_record(group)


def _tares(view: View) -> Mapping[str, int]:
    """Tares of the containers on record, by place."""
    tares = {}
    for mark in view.marked("record", f"{DRUM}/"):
        tare = mark.value.get("tare_g") if isinstance(mark.value, Mapping) else None
        if isinstance(tare, int):
            tares[mark.subject] = tare
    return tares


def _tare(lot: Lot, where: str, tares: Mapping[str, int]) -> int | None:
    own = lot.attributes.get("tare_g")
    return own if isinstance(own, int) else tares.get(where)


def on_hand_by_group(view: View, rows: Sequence[OnShelf]) -> tuple[GroupOnHand, ...]:
    """What there is of each product, and of drums, in the order of the shelf."""
    names = PlaceNames(view)
    groups: dict[str, list[OnShelf]] = {}
    for row in rows:
        groups.setdefault(row.group, []).append(row)
    found = []
    for group, lots in groups.items():
        free = [row for row in lots if not row.held]
        found.append(
            GroupOnHand(
                group=group,
                name=group_name(group, names),
                jars=sum(row.jars for row in free),
                grams=sum(row.grams for row in free),
                lots=tuple(row.code for row in free),
                held=len(lots) - len(free),
            )
        )
    return tuple(found)


def pick_of(view: View, text: str) -> Pick | None:
    """What a scanned or typed code takes from the shelf; None for what the ledger must refuse.

    A container's own number means the drum that is in it.

    Raises:
        Refusal: no such code or jar, or a hold reaches it; the sentence says by which way.
    """
    pack = code_in(view, text, "code") if text.strip() else None
    if pack is not None and pack.letter in PACKS:
        return _pick_pack(view, str(pack))
    lot = find_lot(view, drum_in(view, text), "DJPKWTA", "code")
    row = _free_row(view, lot)
    code = read_code(view, text, "code")
    serial = code.serial if isinstance(code, JarCode) else 0
    made = lot.attributes.get("jars", 0)
    if isinstance(code, JarCode) and not 1 <= serial <= _whole(made):
        jars = _whole(made)
        raise Refusal(NO_SUCH_JAR, field="code", code=lot.code, jars=jars, serial=f"{serial:05d}")
    return None if row is None else Pick(row, serial)


def _pick_pack(view: View, code: str) -> Pick | None:
    """A case or pallet, if all that is in it may go."""
    rows: dict[str, OnShelf] = {}
    for one in jars_in(view, code):
        row = _free_row(view, find_lot(view, one.code, field="code"))
        if row is not None:
            rows[row.code] = row
    found = _pack(view, code, rows)
    return None if found is None else Pick(found)


def _free_row(view: View, lot: Lot) -> OnShelf | None:
    """A lot's row of the shelf; None where it is not there.

    Raises:
        Refusal: a hold on an ancestor reaches it.
    """
    for held in held_among(view, [lot.id]):
        refuse_by_way(view, lot, held)
    here = [
        OnHand(lot, row.place, row.grams, row.pieces)
        for row in view.holdings(lot.id)
        if class_of(row.place) in SENT_BY_ITSELF
    ]
    rows = _rows(view, here)
    return rows[0] if rows else None


def drum_in(view: View, text: str) -> str:
    """The code of the drum in a container, where a container's number was scanned."""
    code = code_in(view, text, "code") if text.strip() else None
    if code is None or code.letter != "E":
        return text
    here = [row.lot for row in view.standing(place(DRUM, str(code))) if row.grams > 0]
    return here[0].code if len(here) == 1 and here[0].kind in "DP" else text


def _whole(value: Json) -> int:
    return value if isinstance(value, int) else 0
