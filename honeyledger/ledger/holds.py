"""What is held: from each hold's target forward, stopping at lots cleared for it.

A hold targets lots by code, or a yard with dates, so that pulls which come in later are held
too. Its reach is walked at every question, never stored, so that an origin added late holds
what it reaches.
"""

from collections import deque
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.sources import is_from, sources_of
from honeyledger.ledger.state import Edge, State

HELD = Sentence(
    "held",
    "{code} is on hold through {target}: {reason}. Put it aside, or have the hold released or "
    "this lot cleared by name.",
)
HELD_ASKS = Sentence(
    "held-asks",
    "{code} is on hold through {target}: {reason}. It can go on only if a named person says why.",
)
HELD_BY_WAY = Sentence(
    "held-by-way",
    "{code} is on hold through {target}, by way of {way}: {reason}. Put it aside, or have it "
    "cleared by name.",
)
HELD_BY_WAY_ASKS = Sentence(
    "held-by-way-asks",
    "{code} is on hold through {target}, by way of {way}: {reason}. It can go on only if a named "
    "person says why.",
)
# What a face meets by asking why, wherever the hold stands.
ASKS_WHY = frozenset({HELD_ASKS.key, HELD_BY_WAY_ASKS.key})
WENT_ON = Sentence("went-on-despite-hold", "{code} went on although held through {target}: {why}.")

_NAMED = ("vessel", "drum", "equipment", "check")
LONGEST_WAY = 5  # steps named between a hold and what it holds


@dataclass(frozen=True, slots=True)
class Hold:
    """An open hold. `target` is a lot's code, or a yard's place with days, ISO, inclusive."""

    subject: str
    target: str
    lots: tuple[int, ...]
    first_day: str
    last_day: str
    reason: str
    cleared: Mapping[int, frozenset[int]]


@dataclass(frozen=True, slots=True)
class Held:
    """A lot that is held, by which hold, through which of its targets."""

    lot: int
    hold: Hold


def open_holds(state: State) -> list[Hold]:
    """All holds not released, by subject."""
    holds = []
    for mark in state.marked("hold", "hold/"):
        if isinstance(mark.value, Mapping) and state.mark(mark.subject, "released") is None:
            holds.append(_hold(state, mark.subject, mark.value))
    return holds


def _hold(state: State, subject: str, value: Mapping[str, Json]) -> Hold:
    marks = [(mark.name, mark.value) for mark in state.marks(subject)]
    return hold_from(subject, value, [row for row in marks if row[0].startswith("cleared/")])


def hold_from(subject: str, value: Mapping[str, Json], clears: Sequence[tuple[str, Json]]) -> Hold:
    """A hold from its mark and the marks that cleared lots for it."""
    cleared: dict[int, frozenset[int]] = {}
    for name, clear in clears:
        assert isinstance(clear, Mapping)
        upstream = clear.get("lots", ())
        assert isinstance(upstream, Sequence)
        cleared[int(name.partition("/")[2])] = frozenset(int(str(one)) for one in upstream)
    lots = value.get("lots", ())
    assert isinstance(lots, Sequence)
    return Hold(
        subject,
        str(value.get("target", "")),
        tuple(int(str(lot)) for lot in lots),
        str(value.get("from", "")),
        str(value.get("to", "")),
        str(value.get("reason", "")),
        cleared,
    )


def targets_of(state: State, hold: Hold) -> set[int]:
    """The lots a hold stands on, now: those named, or the yard's pulls of those days."""
    if not hold.target.startswith("yard/"):
        return set(hold.lots)
    return {
        lot.id
        for lot in state.source_lots(hold.target)
        if is_of_days(
            str(lot.attributes.get("pulled", "")), lot.season, hold.first_day, hold.last_day
        )
        and (sources_of(state, lot)[hold.target] > 0 or is_from(state, lot, hold.target))
    }


def is_of_days(pulled: str, season: int, first_day: str, last_day: str) -> bool:
    """Whether supers were pulled in these days; where nobody said, any day of their season."""
    first, last = (pulled, pulled) if pulled else (f"{season}-01-01", f"{season}-12-31")
    return first_day <= last and first <= (last_day or "9999")


def held_among(state: State, lot_ids: Collection[int]) -> list[Held]:
    """Which of these lots are held, each once a hold."""
    holds = open_holds(state)
    if not holds or not lot_ids:
        return []
    edges = state.ancestry(lot_ids)
    return [
        Held(lot, hold)
        for hold in holds
        for lot in sorted(reach_of(hold, targets_of(state, hold), edges) & set(lot_ids))
    ]


def reach_of(hold: Hold, targets: set[int], edges: Sequence[Edge]) -> set[int]:
    """What a hold reaches over these origin rows.

    The walk stops at a lot cleared for the hold, unless something has come upstream of it that
    the person who cleared it did not know of.
    """
    children: dict[int, list[int]] = {}
    for edge in edges:
        children.setdefault(edge.parent, []).append(edge.child)
    stops = {
        lot for lot, known in hold.cleared.items() if upstream_within(lot, targets, edges) <= known
    }
    reached = set(targets)
    waiting = list(targets)
    while waiting:
        for child in children.get(waiting.pop(), ()):
            if child not in reached and child not in stops:
                reached.add(child)
                waiting.append(child)
    return reached


def upstream_within(lot: int, targets: set[int], edges: Sequence[Edge]) -> set[int]:
    """The lots through which targets reach a lot: its ancestors that descend from a target."""
    back = _reach(lot, edges, backward=True)
    forward: set[int] = set()
    for target in targets & back:
        forward |= _reach(target, edges, backward=False)
    return (back & forward) - {lot}


def _reach(start: int, edges: Sequence[Edge], *, backward: bool) -> set[int]:
    links: dict[int, list[int]] = {}
    for edge in edges:
        a, b = (edge.child, edge.parent) if backward else (edge.parent, edge.child)
        links.setdefault(a, []).append(b)
    seen = {start}
    waiting = [start]
    while waiting:
        for near in links.get(waiting.pop(), ()):
            if near not in seen:
                seen.add(near)
                waiting.append(near)
    return seen


def target_text(state: State, hold: Hold) -> str:
    """What a hold stands on, as a person says it: a yard or vessel by name, a lot by code."""
    for subject in (hold.target, *(f"{kind}/{hold.target}" for kind in _NAMED)):
        mark = state.mark(subject, "record")
        if mark and isinstance(mark.value, Mapping):
            return str(mark.value.get("name", "")) or hold.target
    return hold.target.partition("/")[2] or hold.target


def way_of(state: State, lot: Lot, hold: Hold) -> tuple[str, ...]:
    """The steps by which a hold reaches a lot, the held one first; the shortest way there is.

    A hold on a lot is told by its code already, so only what stands between is given; of a hold on
    a yard, its pull too. Where honey went through a run, the run stands before what it made.
    """
    edges = state.ancestry([lot.id])
    targets = targets_of(state, hold)
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
            ids = [at]
            while came_from[ids[-1]]:
                ids.append(came_from[ids[-1]])
            return steps_of(state, ids[:-1], hold)
        for parent in parents.get(at, ()):
            if parent not in came_from:
                came_from[parent] = at
                waiting.append(parent)
    return ()


def steps_of(state: State, ids: Sequence[int], hold: Hold) -> tuple[str, ...]:
    """The lots on a way from what is held, in words; the one that it leads to is left out."""
    steps: dict[str, None] = {}
    for one in ids:
        lot = state.lot(one)
        if lot.code == hold.target:
            continue
        entry = state.entry(lot.made_by) if lot.kind == "T" else None
        if entry is not None and entry.act.run:
            steps.setdefault(phrase("run {code}", code=entry.act.run))
        steps.setdefault(lot.code)
    return tuple(steps)


def way_text(way: Sequence[str]) -> str:
    """The steps of a way in words; of a long one the first and the last."""
    if len(way) <= LONGEST_WAY:
        return joined(way)
    return phrase(
        "{first}, {n} more and {last}", first=joined(way[:2]), n=len(way) - 3, last=way[-1]
    )


def refuse_held(b: Booking, lot_ids: Collection[int], field: str) -> None:
    """Nothing held leaves the house."""
    for held in held_among(b.state, lot_ids):
        raise held_refusal(b.state, held, (HELD, HELD_BY_WAY), field)


def ask_held(b: Booking, lot_ids: Collection[int], why: str, field: str) -> None:
    """Held honey is worked on only when a named person says why; it stays held."""
    for held in held_among(b.state, lot_ids):
        if not why.strip() or not b.act.operator:
            raise held_refusal(b.state, held, (HELD_ASKS, HELD_BY_WAY_ASKS), field)
        target = target_text(b.state, held.hold)
        b.note(WENT_ON, code=b.lot(held.lot).code, target=target, why=why.strip())


def held_refusal(
    state: State, held: Held, sentences: tuple[Sentence, Sentence], field: str
) -> Refusal:
    """Why held honey is refused: what the hold stands on, and by which way it comes here.

    Args:
        sentences: what to say where the hold stands on the lot itself, and where on an ancestor.
    """
    lot = state.lot(held.lot)
    way = way_of(state, lot, held.hold)
    facts = {"code": lot.code, "target": target_text(state, held.hold)}
    if way:
        facts["way"] = way_text(way)
    reason = held.hold.reason or "no reason given"
    return Refusal(sentences[bool(way)], field=field, reason=reason, **facts)
