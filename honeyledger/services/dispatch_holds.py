"""Why a lot may not leave: the way by which a hold on an ancestor reaches it."""

from collections import deque
from collections.abc import Mapping, Sequence

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import Held, Hold, reach_of, target_text, targets_of
from honeyledger.services.store import View

LONGEST_WAY = 4  # lots named between a hold and what it holds

HELD_BY_WAY = Sentence(
    "held-by-way",
    "{code} is on hold through {target}, by way of {way}: {reason}. Put it aside, or have it "
    "cleared by name.",
)


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
