"""What a barrel of cappings is made of: the pulls uncapped since the last one, and what clings."""

from collections.abc import Collection

from honeyledger.ledger.booking import Booking
from honeyledger.ledger.mixing import also_in
from honeyledger.ledger.places import key_of
from honeyledger.ledger.state import Event


def uncapped(b: Booking, line: str) -> tuple[Event | None, dict[int, int]]:
    """The barrel before this one, and the pulls uncapped since then with their grams.

    With none since, they are the last barrel's. A first barrel typed before any load of its time
    takes the loads there are.
    """
    last = _last_barrel(b, line)
    pulls = [e for e in b.state.arrivals(line, _since(last)) if b.lot(e.lot).kind == "S"]
    in_time = [event for event in pulls if event.at_ms <= b.at_ms + b.act.unsure_ms]
    if last is not None and not in_time:
        edges = b.state.origins(last.lot)
        return last, {edge.parent: edge.grams for edge in edges if edge.grams}
    loaded: dict[int, int] = {}
    for event in in_time or pulls:
        entry = b.state.entry(event.entry)
        came = entry.postings if entry else ()
        here = [p.grams for p in came if (p.lot, p.place) == (event.lot, line)]
        grams = sum(g for g in here if g > 0)  # the line may be emptied by the same entry
        loaded[event.lot] = loaded.get(event.lot, 0) + grams
    return last, dict(sorted(loaded.items()))


def clings_to(b: Booking, line: str, last: Event | None, loaded: Collection[int]) -> list[int]:
    """What is in a barrel's reach at 0 g: what stands in the line, or stood since the last one.

    The uncapper is washed with the line, and not between two barrels. What holds no pulls but
    those the barrel is made of adds nothing, and honey poured into the line was not uncapped.
    """
    since_ms = _began(b, line) - b.margin_ms
    late = {event.lot for event in b.state.arrivals(line, since_ms)} | also_in(b, line, since_ms)
    again: set[int] = set()
    if last is not None:
        before = b.state.origins(last.lot)
        if set(loaded) <= {edge.parent for edge in before}:
            again = {edge.parent for edge in before}
            late |= {edge.parent for edge in before if edge.late}
    b.late_lots |= late
    known = set(loaded)
    stands = {row.lot.id for row in b.standing(line)}
    lots = sorted((late | again | stands) - known)
    return [lot for lot in lots if _uncapped_here(b, lot, line) and _first_of(b, lot) - known]


def _uncapped_here(b: Booking, lot: int, line: str) -> bool:
    one = b.lot(lot)
    return one.kind == "S" or one.attributes.get("vessel") == key_of(line)


def _first_of(b: Booking, lot: int) -> set[int]:
    """The first lots in a lot's reach."""
    edges = b.state.ancestry([lot])
    return {lot, *(edge.parent for edge in edges)} - {edge.child for edge in edges}


def _began(b: Booking, line: str) -> int:
    """The earliest the barrel can have been put there, where times are not sure.

    Draws stand at the latest they can have been: this gives the last barrel surely before.
    """
    first_ms = b.at_ms - b.act.unsure_ms
    mark = b.state.mark(line, "barrel")
    newest = b.state.entry(mark.entry) if mark else None
    # Of the barrels before this one the last is this or a later one: none need be looked at
    # that stood there earlier.
    newest_ms = newest.act.happened.at_ms + newest.act.unsure_ms if newest else 0
    since_ms = newest_ms if newest_ms <= first_ms else 0
    before = [event for event in b.state.draws(line, since_ms) if event.at_ms <= first_ms]
    barrel = next((event for event in reversed(before) if b.lot(event.lot).kind == "W"), None)
    entry = b.state.entry(barrel.entry) if barrel else None
    return entry.act.happened.at_ms - entry.act.unsure_ms if entry else 0


def _since(last: Event | None) -> int:
    return last.at_ms + 1 if last else 0


def _last_barrel(b: Booking, line: str) -> Event | None:
    """The barrel weighed last before this one, however late this one is typed."""
    mark = b.state.mark(line, "barrel")
    if mark is None or not isinstance(mark.value, int):
        return None
    if mark.at_ms <= b.at_ms:
        return Event(line, mark.value, mark.at_ms, mark.entry)
    before = [event for event in b.state.draws(line, 0) if event.at_ms <= b.at_ms]
    barrels = [event for event in before if b.lot(event.lot).kind == "W"]
    return barrels[-1] if barrels else None
