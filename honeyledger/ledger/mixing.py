"""What honey does in a vessel: it stands as several lots until something is drawn from it.

Here are the tank fill at the first draw, the heel that stays, lines that feed tanks, what a
shortfall means, and the rules by which reach widens when something was scanned or typed late.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from honeyledger.domain.refusals import Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import MINUTE_MS, Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.places import PALLET, UNKNOWN, VESSEL, class_of, key_of
from honeyledger.ledger.state import State

SHORTFALL = Sentence(
    "more-than-the-books",
    "The books saw {held} in {vessel}; the missing {short} is booked as weighing difference.",
)
UNKNOWN_HONEY = Sentence(
    "unknown-honey",
    "The books saw {held} in {vessel}, {short} too little. {code} stands for the rest, on hold: "
    "amend it to the pallet it came from{candidates}{recount}.",
)
LATE_DRAW = Sentence(
    "late-draw",
    "Typed later than other entries on {vessel}: everything that stood there or came in around "
    "that time is in its reach.",
)
WIDENED = Sentence(
    "widened",
    "{codes} may have gone into {vessel} before the scan{early}, so {fills} {it} in reach now.",
)
MOST_CANDIDATES = 5
MOST_NAMED = 4


class Taken(NamedTuple):
    """A lot and its grams, taken from somewhere (0 g: in reach only)."""

    lot: int
    grams: int


def fed_by(state: State, vessel: str) -> tuple[str, ...]:
    """The lines that feed a vessel, nearest first, lines that feed those lines behind them."""
    mark = state.mark(vessel, "record")
    line = mark.value.get("fed_by") if mark and isinstance(mark.value, Mapping) else None
    if not isinstance(line, str):
        return ()
    return (f"vessel/{line}", *fed_by(state, f"vessel/{line}"))


def feeds(state: State, vessel: str) -> tuple[str, ...]:
    """The vessels a line runs into."""
    key = key_of(vessel)
    return tuple(
        mark.subject
        for mark in state.marked("record", "vessel/")
        if isinstance(mark.value, Mapping) and mark.value.get("fed_by") == key
    )


def fed_from(state: State, vessel: str) -> tuple[str, ...]:
    """The vessels a line feeds, and those fed from them."""
    nearest = feeds(state, vessel)
    return tuple(place for near in nearest for place in (near, *fed_from(state, near)))


def contents(b: Booking, vessel: str) -> list[int]:
    """The lots a draw would take from: those in the vessel, and in the lines that feed it."""
    places = (vessel, *fed_by(b.state, vessel))
    return [row.lot.id for place in places for row in b.standing(place)]


def settle(b: Booking, vessel: str) -> int:
    """What stands in a vessel becomes one tank fill, if it changed since the last draw.

    Honey that came over from elsewhere makes a fill of this vessel at its first draw, so that
    a row between two fills of one vessel is always a heel. A drum with one lot stays that lot.
    Returns the lot's id.
    """
    rows = b.standing(vessel)
    if is_settled(b, vessel):
        return rows[0].lot.id
    total = sum(row.grams for row in rows)
    fill = b.make_lot(
        "T",
        total,
        [(row.lot.id, row.grams) for row in rows],
        attributes={"vessel": key_of(vessel)},
    )
    for row in rows:
        b.post(row.lot.id, vessel, -row.grams)
        b.leaves(vessel, row.lot.id)
    b.post(fill.id, vessel, total)
    b.comes(vessel, fill.id)
    return fill.id


def is_settled(b: Booking, vessel: str) -> bool:
    """Whether one lot of its own stands in the vessel, so that a draw makes no new one."""
    rows = b.standing(vessel)
    return len(rows) == 1 and _is_of(rows[0].lot, vessel)


def _is_of(lot: Lot, vessel: str) -> bool:
    if class_of(vessel) != VESSEL:
        return lot.kind != "S"
    return lot.kind == "T" and lot.attributes.get("vessel") == key_of(vessel)


def feed(b: Booking, vessel: str) -> None:
    """All the books see in the lines that feed a vessel goes over into it, last fill at 0 g."""
    for line in fed_by(b.state, vessel)[:1]:
        feed(b, line)
        rows = b.standing(line)
        if not rows:
            continue
        if total := sum(row.grams for row in rows):
            fill = settle(b, line)
            b.move(fill, line, vessel, total)
            b.comes(vessel, fill)
            b.draws(line, fill)
            b.touches(line)
            b.touches(vessel)
            continue
        for row in rows:
            if not has_in(b, vessel, row.lot.id):
                b.comes(vessel, row.lot.id)
                b.touches(vessel)


def has_in(b: Booking, vessel: str, lot: int) -> bool:
    """Whether a lot stands in a vessel, or in what stands there: its heels one in another."""
    waiting = [row.lot.id for row in b.standing(vessel)]
    seen = set(waiting)
    while waiting:
        one = waiting.pop()
        if one == lot:
            return True
        near = b.parents(one) if one > lot else []
        waiting += [parent for parent in near if parent not in seen]
        seen.update(near)
    return False


def draw(b: Booking, vessel: str, grams: int, begun_ms: int | None = None) -> list[Taken]:
    """Take weighed grams out of a vessel: the fill with its grams, then what is in at 0 g.

    The floor is right: a small shortfall in the books goes to weighing difference, a larger
    one is a lot of unknown source, on hold. The caller posts the fill's grams onward.
    `begun_ms` is when the drawing began, where it went on for a while, as jars do.
    """
    feed(b, vessel)
    held = b.grams_at(vessel)
    short = grams - held
    if short > 0 and (held <= 0 or short * 1000 > grams * b.rules.shortfall_permille):
        unknown_honey(b, vessel, short, held, in_jars=begun_ms is not None)
        short = 0
    fill = settle(b, vessel)
    if short > 0:
        b.differ(fill, vessel, short)
        b.note(
            SHORTFALL,
            held=format_mass(held),
            short=format_mass(short),
            vessel=name_of(b.state, vessel),
        )
    b.draws(vessel, fill)
    b.touches(vessel)
    began_ms = b.at_ms if begun_ms is None else min(begun_ms, b.at_ms)
    also = also_in(b, vessel, began_ms - b.margin_ms) - {fill}
    b.late_lots |= also
    return [Taken(fill, grams), *(Taken(lot, 0) for lot in sorted(also))]


def unknown_honey(b: Booking, vessel: str, short: int, held: int, *, in_jars: bool = False) -> Lot:
    """A source lot nobody can name yet; it stands in the vessel, on hold, to be amended.

    Args:
        in_jars: it was drawn into jars, whose count may be wrong instead.
    """
    candidates = _candidates(b)
    lot = b.make_lot(
        "S",
        short,
        attributes={"source": UNKNOWN, "place": vessel, "candidates": candidates},
    )
    b.move(lot.id, UNKNOWN, vessel, short)
    b.comes(vessel, lot.id)
    b.mark(
        f"hold/{b.entry_id}-{lot.code}",
        "hold",
        {"target": lot.code, "lots": [lot.id], "reason": "source not known", "by": b.act.operator},
    )
    b.note(
        UNKNOWN_HONEY,
        code=lot.code,
        held=format_mass(held),
        short=format_mass(short),
        vessel=name_of(b.state, vessel),
        candidates=f" ({', '.join(candidates)} still stand here)" if candidates else "",
        recount=", or count the jars again" if in_jars else "",
    )
    return lot


def _candidates(b: Booking) -> list[str]:
    """Pallets that still stand here in the books: one of them was likely never scanned."""
    lots: dict[str, int] = {}
    for row in b.state.held_at(PALLET):
        lots[row.place] = max(lots.get(row.place, 0), row.lot)
    newest = sorted(lots, key=lambda place: -lots[place])
    return [key_of(place) for place in newest[:MOST_CANDIDATES]]


def also_in(b: Booking, vessel: str, since_ms: int) -> set[int]:
    """What else may be in what is drawn from a vessel or filled into a drum, in reach only.

    A late draw took what stood there then, not what stands there now. What was washed out since
    the drawing began, or within the margin before, may have been in its beginning.
    """
    places = (vessel, *fed_by(b.state, vessel))
    late = is_late(b, places)
    if late:
        b.note(LATE_DRAW, vessel=name_of(b.state, vessel))
    at_once = not b.margin_ms  # a wash and then a draw at one moment are told apart
    return {
        stay.lot
        for place in places
        for stay in b.state.stays(place, since_ms)
        if late or (stay.by_wash and stay.until_ms >= since_ms + at_once)
    }


def keep_late(b: Booking, place: str, taken: Sequence[Taken]) -> None:
    """Write down which lots stand in an open drum or bottling only because of a late entry."""
    for lot, grams in taken:
        if not grams and lot in b.late_lots:
            b.mark(place, f"late/{lot}", 1)


def recall_late(b: Booking, place: str) -> None:
    """When the drum or bottling is closed, those lots are late origins of what it becomes."""
    for mark in b.state.marks(place):
        name, _, lot = mark.name.partition("/")
        if name == "late" and mark.value:
            b.late_lots.add(int(lot))
            b.mark(place, mark.name, 0)


def is_late(b: Booking, places: Sequence[str]) -> bool:
    """Whether something later is already written about any of these places."""
    touches = [b.state.last_touch(place) for place in places]
    first_ms = b.at_ms - b.act.unsure_ms
    return any(touch is not None and touch.at_ms > first_ms for touch in touches)


def put(b: Booking, vessel: str, taken: Sequence[Taken], at_ms: int | None = None) -> None:
    """Lots come into a vessel (their grams posted by the caller), and reach widens by rule.

    `at_ms` is when they came in, where that is not when the entry happened.

    Every fill drawn from here, or from what this vessel feeds, since this time less the
    margin has the lots in its reach: live, that catches the scan that came after the draw.
    """
    for lot, _ in taken:
        b.comes(vessel, lot)
        b.arrives(vessel, lot)
    b.touches(vessel)
    widen(b, vessel, [lot for lot, _ in taken], at_ms)


def widen(b: Booking, vessel: str, lots: Sequence[int], at_ms: int | None = None) -> None:
    """Every fill drawn from a place, or from what it feeds, since then has these lots in reach.

    Dispatching or sampling a drum draws from it, too: it may have been filled on before.
    """
    downstream = (vessel, *fed_from(b.state, vessel))
    since_ms = (b.at_ms if at_ms is None else at_ms) - b.margin_ms
    drawn = {event.lot for place in downstream for event in b.state.draws(place, since_ms)}
    for fill in sorted(drawn):
        for lot in lots:
            b.late_origin(fill, lot)
    if drawn and lots:
        b.note(
            WIDENED,
            fills="1 earlier fill has" if len(drawn) == 1 else f"{len(drawn)} earlier fills have",
            codes=few([b.lot(lot).code for lot in lots]),
            vessel=name_of(b.state, vessel),
            early=f", up to {b.margin_ms // MINUTE_MS} minutes" if b.margin_ms else "",
            it="it" if len(lots) == 1 else "them",
        )


def within(b: Booking, lots: Iterable[int]) -> list[Lot]:
    """All lots in the reach of these, themselves and those this entry has made included."""
    return [b.lot(one) for one in sorted(reach_ids(b, lots))]


def reach_ids(b: Booking, lots: Iterable[int]) -> set[int]:
    """The same by their ids."""
    found, old = list(lots), set[int]()
    for one in found:
        if one < b.state.next_lot:
            old.add(one)
        else:
            found += [parent for parent in b.parents(one) if parent not in found]
    old |= {edge.parent for edge in b.state.ancestry(sorted(old))}
    return {*found, *old}


def few(codes: Sequence[str]) -> str:
    """Codes in a sentence: the first of them, and how many more there are."""
    more = f" and {len(codes) - MOST_NAMED} more" if len(codes) > MOST_NAMED else ""
    return ", ".join(codes[:MOST_NAMED]) + more


def name_of(state: State, place: str) -> str:
    """A place's name as people say it; its code where it has no record."""
    mark = state.mark(place, "record")
    if mark and isinstance(mark.value, Mapping):
        name = mark.value.get("name")
        if isinstance(name, str):
            return name
    return key_of(place) or place
