"""Traces as people ask for them: a code in, yards with shares out, or customers and stock."""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial
from math import fsum
from typing import NamedTuple

from honeyledger.domain.moments import house_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import is_of_days
from honeyledger.ledger.lookup import (
    TWO_OF_THAT_NAME,
    code_in,
    find_lot,
    find_record,
    read_iso_day,
    refuse_name,
)
from honeyledger.ledger.places import (
    SUPPLIER,
    UNKNOWN,
    YARD,
    key_of,
)
from honeyledger.ledger.source_places import Places, places_in, source_places
from honeyledger.ledger.state import EdgeRow
from honeyledger.ledger.trace import (
    AMENDED,
    DIRECT,
    HEEL,
    TOLD,
    Start,
    carry_back,
    carry_forward,
    told,
    ways_back,
)
from honeyledger.ledger.trace_rows import (
    Ancestor,
    BackTrace,
    ForwardTrace,
    ReachedLot,
    Ribbon,
    SourceRibbon,
)
from honeyledger.services.added import added_in
from honeyledger.services.holding import NOT_KNOWN
from honeyledger.services.reached import customers_of, whereabouts_of
from honeyledger.services.store import HeadRow, View
from honeyledger.services.traced import Traced, late_ways_of, traced_by

SCALE = 1 << 60  # shares as integers, for adding up exactly

# As `_make`, without looking how long each row is: a trace makes thousands.
_ancestor: Callable[[tuple[object, ...]], Ancestor] = partial(tuple.__new__, Ancestor)
_reached_lot: Callable[[tuple[object, ...]], ReachedLot] = partial(tuple.__new__, ReachedLot)

YARD_OR_SUPPLIER = Sentence(
    "yard-or-supplier",
    "A yard and a supplier are both called {name}: give {yard} for the yard, {supplier} for the "
    "supplier.",
)

SPAN_BACKWARDS = Sentence(
    "span-backwards", "The days from {first} to {last} run backwards. Give the earlier one first."
)
NO_DAYS = Sentence(
    "no-days-of-a-lot",
    "{code} is a lot, and days are for the pulls of a yard. Leave them out, or name a yard.",
)


def trace_back(view: View, text: str, *, ribbons: bool = True) -> BackTrace:
    """Where a lot, or one jar, comes from.

    Args:
        ribbons: say also what each row carried, for drawing; none of the other answers need it.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    return _trace(view, traced_by(view, text), ribbons=ribbons)


def trace_mixture(view: View, grams: Mapping[int, int]) -> BackTrace:
    """Where honey comes from that is not mixed yet: so many grams of each lot, some at least.

    A lot with 0 g is in its reach.
    """
    total = sum(grams.values())
    starts = {lot: Start(part / total) for lot, part in grams.items()}
    largest = max(grams, key=lambda lot: grams[lot])
    return _trace(view, Traced("", view.lot(largest), total, starts), ribbons=False)


def _trace(view: View, traced: Traced, *, ribbons: bool) -> BackTrace:
    # Thousands of rows are taken apart by place, which is quicker than by name.
    edges, reach = view.reach_back(list(traced.starts))
    lots, sources = view.sourced_heads(reach)
    made_g = {lot: made for lot, _, _, made, _ in lots.values()}
    vessels = {lot: vessel for lot, _, _, _, vessel in lots.values() if vessel}
    shares = carry_back(traced.starts, edges, made_g)
    ways = ways_back(traced.starts, edges, vessels, late_ways_of(view, edges))
    places = places_in(view, {lot: kind for lot, _, kind, _, _ in lots.values()}, sources)
    carried = (shares[one[0]] * traced.grams * one[2] / made_g[one[0]] for one in edges)
    added = added_in(view, lots, shares, traced.grams)
    honey_g = traced.grams - sum(row.grams for row in added)
    ancestors = _in_order(view, _gathered(lots, places, shares, ways), honey_g, bool(added))
    return BackTrace(
        code=traced.code,
        lot=traced.lot.id,
        made_g=traced.grams,
        ancestors=ancestors,
        lots=_reached(lots, shares, traced.grams),
        ribbons=_ribbons(edges, carried, lots) if ribbons else (),
        sources=_source_ribbons(lots, places, shares, traced.grams) if ribbons else (),
        reach_complete=all(row.kind != UNKNOWN for row in ancestors),
        starts=tuple((lot, start.weight) for lot, start in traced.starts.items()),
        added=added,
    )


class _Gathering(NamedTuple):
    """What is known of first ancestors: by place, the parts and the ways of its lots.

    An unknown lot is one of its own, by its code.
    """

    parts: dict[str, list[float]]
    ways: dict[str, int]


def _gathered(
    lots: Mapping[int, HeadRow],
    places: Places,
    shares: Mapping[int, float],
    ways: Mapping[int, int],
) -> _Gathering:
    parts_of: dict[str, list[float]] = {}
    ways_of: dict[str, int] = {}
    for lot_id, its_places in places.items():
        share, its_ways = shares[lot_id], ways[lot_id]
        if not its_ways & TOLD:
            its_ways |= HEEL
        for where, part, amended in its_places:
            key = where if where != UNKNOWN else lots[lot_id][1]
            if amended:
                # A place amended away has no grams of it left, and says so.
                told_ways = (its_ways if part else its_ways & ~TOLD) | AMENDED
            else:
                told_ways = its_ways
            if key in parts_of:
                parts_of[key].append(share * part)
                ways_of[key] |= told_ways
            else:
                parts_of[key] = [share * part]
                ways_of[key] = told_ways
    return _Gathering(parts_of, ways_of)


def _in_order(
    view: View, gathered: _Gathering, grams: int, is_added_to: bool
) -> tuple[Ancestor, ...]:
    """The ancestors, largest share first, with grams that add up to the honey traced.

    Shares are of the honey: what was added to it has none.
    """
    every = gathered.parts.values()
    honey = fsum(part for parts in every for part in parts) if is_added_to else 1.0
    totals: list[tuple[float, str, int, str, str]] = []
    for where, parts in gathered.parts.items():
        kind, _, code = where.partition("/")
        total = fsum(parts) if len(parts) > 1 else parts[0]
        totals.append((-total, code or where, len(totals), kind if code else UNKNOWN, where))
    totals.sort()
    shared = largest_remainder(grams, [int(-total * SCALE) for total, _, _, _, _ in totals])
    names = view.names_of(gathered.parts)
    rows = []
    for (total, code, _, kind, where), part in zip(totals, shared, strict=True):
        ways = gathered.ways[where]
        name = names.get(where, code) if kind != UNKNOWN else NOT_KNOWN
        share = -total / honey if honey else 0.0
        rows.append((kind, code, name, share, part, told(ways), not ways & DIRECT))
    return tuple(map(_ancestor, rows))


def _reached(
    lots: Mapping[int, HeadRow], shares: Mapping[int, float], grams: int
) -> tuple[ReachedLot, ...]:
    rows = []
    for lot_id, code, kind, _, _ in lots.values():
        share = shares[lot_id]
        rows.append((lot_id, code, kind, share, round(share * grams)))
    return tuple(map(_reached_lot, rows))


def _ribbons(
    edges: Sequence[EdgeRow], carried: Iterable[float], lots: Mapping[int, HeadRow]
) -> tuple[Ribbon, ...]:
    """Rows with the grams each carried of what is traced; a heel stays in its vessel."""
    vessels = {lot: vessel for lot, _, _, _, vessel in lots.values() if vessel}
    return tuple(
        Ribbon(
            child,
            parent,
            grams,
            child in vessels and vessels[child] == vessels.get(parent),
            late == 1,
        )
        for (child, parent, _, late, _, _), grams in zip(edges, carried, strict=True)
    )


def _source_ribbons(
    lots: Mapping[int, HeadRow], places: Places, shares: Mapping[int, float], grams: int
) -> tuple[SourceRibbon, ...]:
    return tuple(
        SourceRibbon(
            key_of(where) if where != UNKNOWN else lots[lot][1], lot, shares[lot] * part * grams
        )
        for lot, its_places in places.items()
        for where, part, _ in its_places
    )


def trace_forward(
    view: View, text: str, first_day: str = "", last_day: str = "", *, ribbons: bool = False
) -> ForwardTrace:
    """Where the honey of a yard, a supplier or a lot went: lots, customers, stock.

    Args:
        text: a yard's or supplier's code or name, or a lot's code.
        first_day, last_day: of a yard's pulls, ISO, inclusive; all where empty.
        ribbons: say also what each row carried, for drawing; none of the other answers need it.

    Raises:
        Refusal: nothing is called so; the days run backwards, or are given for a lot.
    """
    code, starts = _starts(view, text, first_day, last_day)
    return forward_of(view, code, starts, ribbons=ribbons)


def forward_of(
    view: View, code: str, starts: Mapping[int, float], *, ribbons: bool = False
) -> ForwardTrace:
    """Where these parts of lots went; `code` is what they are called together."""
    edges = view.descent(list(starts))
    lots = view.lot_heads({*starts, *(edge.child for edge in edges)})
    parts = carry_forward(starts, edges, {lot.id: lot.made_g for lot in lots.values()})
    carried = (parts[one[1]] * one[2] for one in edges)
    on_hand, given = whereabouts_of(view, lots)
    reached = tuple(
        ReachedLot(lot.id, lot.code, lot.kind, parts[lot.id], round(parts[lot.id] * lot.made_g))
        for lot in sorted(lots.values())
    )
    return ForwardTrace(
        code=code,
        lots=reached,
        customers=customers_of(view, given, lots),
        on_hand=tuple(on_hand),
        on_hand_g=sum(row.grams for row in on_hand),
        ribbons=_ribbons(edges, carried, lots) if ribbons else (),
        starts=tuple(starts.items()),
    )


def _starts(view: View, text: str, first_day: str, last_day: str) -> tuple[str, dict[int, float]]:
    """What a code or a name stands for: source lots with their parts, or one lot.

    Where the text is a lot's code the names of all yards are not gone through, which would take
    longer than the trace.
    """
    first_day, last_day = (
        read_iso_day(first_day, "first_day"),
        read_iso_day(last_day, "last_day"),
    )
    if last_day and first_day > last_day:
        raise Refusal(SPAN_BACKWARDS, field="last_day", first=first_day, last=last_day)
    is_lot = view.lot_by_code(text.strip().upper()) is not None
    where = "" if is_lot else _source_named(view, text.strip())
    if where:
        lots = view.source_lots(where)
        if first_day or last_day:
            zone = rules_of(view).zone
            heads = view.entry_heads({lot.made_by for lot in lots if lot.kind == "P"})
            came = {head.id: house_day(head.happened_ms, zone).isoformat() for head in heads}
            lots = [
                lot
                for lot in lots
                if is_of_days(
                    str(lot.attributes.get("pulled", "")) or came.get(lot.made_by, ""),
                    lot.season,
                    first_day,
                    last_day,
                )
            ]
        return key_of(where), _parts_from(view, where, lots)
    if code_in(view, text, "code") is None:
        raise refuse_name(view, (YARD, SUPPLIER), text.strip(), "code")
    lot = find_lot(view, text, field="code")
    if first_day or last_day:
        raise Refusal(NO_DAYS, field="first_day", code=lot.code)
    return lot.code, {lot.id: 1.0}


def _source_named(view: View, text: str) -> str:
    """The yard or supplier a text names: by code or key first, then by name; "" for neither.

    Raises:
        Refusal: a yard and a supplier are both called so, or two yards have that number.
    """
    for kind in (YARD, SUPPLIER):
        if view.mark(f"{kind}/{text}", "record") is not None:
            return f"{kind}/{text}"
    found = []
    for kind in (YARD, SUPPLIER):
        try:
            found.append(find_record(view, kind, text, "code")[0])
        except Refusal as refusal:
            if refusal.key == TWO_OF_THAT_NAME.key:
                raise
    if len(found) > 1:
        yard, supplier = keys = [key_of(where) for where in found]
        raise Refusal(
            YARD_OR_SUPPLIER, field="code", offers=keys, name=text, yard=yard, supplier=supplier
        )
    return found[0] if found else ""


def _parts_from(view: View, where: str, lots: Collection[Lot]) -> dict[int, float]:
    """The source lots of a place with the part of each that is from there; reversed ones none."""
    by_lot = source_places(view, {lot.id: lot.kind for lot in lots})
    parts = {
        lot: part for lot, places in by_lot.items() for place, part, _ in places if place == where
    }
    parts |= {lot.id: 1.0 for lot in lots if lot.kind == "A"}
    given_back = [row.lot for row in view.sources_of(list(parts)) if not row.grams]
    undone = {lot for lot in given_back if view.reversed_by(view.lot(lot).made_by)}
    return {lot: part for lot, part in parts.items() if lot not in undone}
