"""What is held: from each hold's target forward, stopping at lots cleared for it.

A hold targets lots by code, or a yard with dates, so that pulls which come in later are held
too. Its reach is walked at every question, never stored, so that an origin added late holds
what it reaches.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json
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
WENT_ON = Sentence("went-on-despite-hold", "{code} went on although held through {target}: {why}.")


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
    for subject in (hold.target, f"vessel/{hold.target}", f"drum/{hold.target}"):
        mark = state.mark(subject, "record")
        if mark and isinstance(mark.value, Mapping):
            return str(mark.value.get("name", "")) or hold.target
    return hold.target.partition("/")[2] or hold.target


def refuse_held(b: Booking, lot_ids: Collection[int], field: str) -> None:
    """Nothing held leaves the house."""
    for held in held_among(b.state, lot_ids):
        raise Refusal(HELD, field=field, **_facts(b, held))


def ask_held(b: Booking, lot_ids: Collection[int], why: str, field: str) -> None:
    """Held honey is worked on only when a named person says why; it stays held."""
    for held in held_among(b.state, lot_ids):
        if not why.strip() or not b.act.operator:
            raise Refusal(HELD_ASKS, field=field, **_facts(b, held))
        facts = _facts(b, held)
        b.note(WENT_ON, code=facts["code"], target=facts["target"], why=why.strip())


def _facts(b: Booking, held: Held) -> dict[str, str]:
    return {
        "code": b.lot(held.lot).code,
        "target": target_text(b.state, held.hold),
        "reason": held.hold.reason or "no reason given",
    }
