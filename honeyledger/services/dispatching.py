"""What can be sent and what came back: lots on the shelf, oldest first, and why one may not go.

A scan becomes a row here. Whether it may really leave is the ledger's to say when it is recorded;
this module says it beforehand, with the way by which a hold reaches the lot.
"""

import re
from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.codes import JarCode
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import parse_count
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import Held, Hold, held_among, reach_of, target_text, targets_of
from honeyledger.ledger.lookup import code_in, find_lot, read_code
from honeyledger.ledger.places import (
    BARREL,
    CUSTOMER,
    DRUM,
    FARM_GATE,
    GATE,
    JARS,
    class_of,
    key_of,
    place,
)
from honeyledger.services.holding import held_lots, hold_sentence
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import OnHand, View
from honeyledger.services.traced import NO_SUCH_JAR

SENT_BY_ITSELF = (JARS, DRUM, BARREL)
GROUPS = {
    "J": "jars",
    "D": "drums",
    "P": "drums bought in",
    "K": "comb honey",
    "W": "cappings and wax",
    "A": "ingredients and packaging",
}
LOTS = "lots"
PRODUCT = "product"
JARS_SENT = "a number of jars"
LONGEST_WAY = 4  # lots named between a hold and what it holds

HELD_BY_WAY = Sentence(
    "held-by-way",
    "{code} is on hold through {target}, by way of {way}: {reason}. Put it aside, or have it "
    "cleared by name.",
)

_CASES = re.compile(r"\s*([0-9][0-9\s]*?)\s*[x×*]\s*([0-9][0-9\s]*?)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class OnShelf:
    """A lot that stands by itself and could be sent.

    Args:
        group: what it is asked for as: "product/KEY" of jars, "lots/D" of drums.
        name: the product of jars, the container of a drum.
        made_ms: when it was made; the oldest goes first.
        held: the hold that keeps it here, in words; "" where it may go.
        pending: whether its weight is still to follow.
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


@dataclass(frozen=True, slots=True)
class Holder:
    """A customer who has something of a lot.

    Args:
        customer: what names the customer to the ledger; "gate" for the farm gate.
        sent_ms: when it was last sent there, 0 where no note says so.
    """

    customer: str
    name: str
    jars: int
    grams: int
    sent_ms: int


@dataclass(frozen=True, slots=True)
class CameBack:
    """A lot that comes back, and who has it, those with the latest note first."""

    code: str
    kind: str
    name: str
    holders: tuple[Holder, ...]


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
    held = held_lots(view)
    why = {lot: hold_sentence(view, holds[0]) for lot, holds in held.items()}
    return tuple(sorted(_rows(view, view.on_hand(SENT_BY_ITSELF), why), key=_oldest_first))


def _rows(view: View, here: Sequence[OnHand], why: Mapping[int, str]) -> list[OnShelf]:
    """One row a lot, from where the ledger would take it."""
    best: dict[int, OnHand] = {}
    for row in here:
        if row.lot.kind not in GROUPS or row.grams <= 0:
            continue
        before = best.get(row.lot.id)
        if before is None or _goes_before(row, before):
            best[row.lot.id] = row
    names = PlaceNames(view)
    pending = {mark.subject for mark in view.marked("pending") if mark.value}
    tares = _tares(view)
    heads = view.entry_heads({row.lot.made_by for row in best.values()})
    made_ms = {head.id: head.happened_ms for head in heads}
    return [
        OnShelf(
            code=row.lot.code,
            kind=row.lot.kind,
            group=(group := group_of(view, row.lot)),
            name=_name(row.lot, row.place, group, names),
            jars=row.pieces if row.lot.kind == "J" else 0,
            grams=row.grams,
            tare_g=_tare(row.lot, row.place, tares),
            made_ms=made_ms[row.lot.made_by],
            held=why.get(row.lot.id, ""),
            pending=row.lot.code in pending,
        )
        for row in best.values()
    ]


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
    lot = find_lot(view, drum_in(view, text), "DJPKWTA", "code")
    holds = held_among(view, [lot.id])
    for held in holds:
        refuse_by_way(view, lot, held)
    code = read_code(view, text, "code")
    serial = code.serial if isinstance(code, JarCode) else 0
    made = lot.attributes.get("jars", 0)
    if isinstance(code, JarCode) and not 1 <= serial <= _whole(made):
        jars = _whole(made)
        raise Refusal(NO_SUCH_JAR, field="code", code=lot.code, jars=jars, serial=f"{serial:05d}")
    here = [
        OnHand(lot, row.place, row.grams, row.pieces)
        for row in view.holdings(lot.id)
        if class_of(row.place) in SENT_BY_ITSELF
    ]
    rows = _rows(view, here, {held.lot: hold_sentence(view, held.hold) for held in holds})
    return Pick(rows[0], serial) if rows else None


def drum_in(view: View, text: str) -> str:
    """The code of the drum in a container, where a container's number was scanned."""
    code = code_in(view, text, "code") if text.strip() else None
    if code is None or code.letter != "E":
        return text
    here = [row.lot for row in view.standing(place(DRUM, str(code))) if row.grams > 0]
    return here[0].code if len(here) == 1 and here[0].kind in "DP" else text


def _whole(value: Json) -> int:
    return value if isinstance(value, int) else 0


def refuse_by_way(view: View, lot: Lot, held: Held) -> None:
    """Say which ancestor holds a lot, and through which lots; where it is held itself, nothing.

    Raises:
        Refusal: the hold stands on an ancestor.
    """
    way = way_of(view, lot, held.hold)
    if way:
        facts = {"code": lot.code, "target": target_text(view, held.hold), "way": way_text(way)}
        reason = held.hold.reason or "no reason given"
        raise Refusal(HELD_BY_WAY, field="code", reason=reason, **facts)


def way_of(view: View, lot: Lot, hold: Hold) -> tuple[str, ...]:
    """The lots by which a hold reaches a lot, the held one first; the shortest way there is.

    A hold on a lot is told by its code already, so only what stands between is given; of a hold on
    a yard, its pull too.
    """
    edges = view.ancestry([lot.id])
    targets = targets_of(view, hold)
    reached = reach_of(hold, targets, edges)
    parents: dict[int, list[int]] = {}
    for edge in edges:
        if edge.parent in reached:
            parents.setdefault(edge.child, []).append(edge.parent)
    came_from: dict[int, int] = {lot.id: 0}
    waiting = deque([lot.id])
    while waiting:
        at = waiting.popleft()
        if at in targets:
            return _codes(view, at, came_from, hold)
        for parent in parents.get(at, ()):
            if parent not in came_from:
                came_from[parent] = at
                waiting.append(parent)
    return ()


def _codes(view: View, first: int, came_from: Mapping[int, int], hold: Hold) -> tuple[str, ...]:
    """From the target towards the lot, without the lot itself."""
    ids = [first]
    while came_from[ids[-1]]:
        ids.append(came_from[ids[-1]])
    codes = [view.lot(one).code for one in ids[:-1]]
    return tuple(code for code in codes if code != hold.target)


def way_text(way: Sequence[str]) -> str:
    """The lots of a way in words; of a long one the first and the last."""
    if len(way) <= LONGEST_WAY:
        return ", ".join(way)
    return f"{', '.join(way[:2])}, {len(way) - 3} more and {way[-1]}"


def came_back(view: View, text: str) -> CameBack:
    """Who has something of what comes back.

    Raises:
        Refusal: no such code.
    """
    lot = find_lot(view, text, "DJPKW", "code")
    names = PlaceNames(view)
    sent_ms = _sent(view, lot)
    holders: dict[str, Holder] = {}
    for row in view.holdings(lot.id):
        kind = class_of(row.place)
        if row.grams <= 0 or kind not in (CUSTOMER, GATE):
            continue
        customer = FARM_GATE if kind == GATE else names[row.place]
        one = Holder(customer, names[row.place], row.pieces, row.grams, sent_ms.get(row.place, 0))
        # What was sold at the gate comes back to the day that has the most of it.
        before = holders.get(customer)
        if before is None or (one.jars, one.grams) > (before.jars, before.grams):
            holders[customer] = one
    group = group_of(view, lot)
    name = group_name(group, names) if lot.kind == "J" else ""
    ordered = sorted(holders.values(), key=lambda one: (-one.sent_ms, one.name))
    return CameBack(lot.code, lot.kind, name, tuple(ordered))


def _sent(view: View, lot: Lot) -> dict[str, int]:
    """When each customer was last sent something of a lot, by place."""
    latest: dict[str, int] = {}
    for mark in view.marks(lot.code):
        note = view.mark(mark.name, "dispatched") if mark.name.startswith("note/") else None
        if note is not None and isinstance(note.value, Mapping):
            to = str(note.value.get("to", ""))
            latest[to] = max(latest.get(to, 0), note.at_ms)
    return latest
