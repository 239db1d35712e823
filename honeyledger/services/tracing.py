"""Traces as people ask for them: a code in, yards with shares out, or customers and stock."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from honeyledger.domain.codes import JarCode
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import find_lot, find_record, read_code
from honeyledger.ledger.places import (
    CUSTOMER,
    GATE,
    UNKNOWN,
    YARD,
    class_of,
    is_inside,
    is_source,
    key_of,
)
from honeyledger.ledger.state import Edge, Holding
from honeyledger.ledger.trace import (
    carry_back,
    carry_forward,
    heel_edges,
    parents_of,
    reach,
    reach_by_grams,
    reach_without_heels,
)
from honeyledger.ledger.trace_rows import (
    Ancestor,
    BackTrace,
    CustomerReach,
    ForwardTrace,
    PlaceReach,
    ReachedLot,
    Ribbon,
    SourceRibbon,
)
from honeyledger.services.store import View

TYPED_LATE_MS = 10 * 60_000  # typed this much after it happened: late, not the margin's doing
SCALE = 1 << 60  # shares as integers, for adding up exactly
HOW = ("grams", "heel", "margin", "late", "amended")

NO_SUCH_JAR = Sentence(
    "no-such-jar", "Lot {code} has {jars} jars, so there is no serial {serial}. Scan it again."
)


@dataclass(frozen=True, slots=True)
class _Traced:
    """What is traced back: its lots by weight (adding up to 1), and those in by the margin."""

    code: str
    lot: Lot
    grams: int
    weights: Mapping[int, float]
    margin: frozenset[int]


def trace_back(view: View, text: str) -> BackTrace:
    """Where a lot, or one jar, comes from.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    traced = _traced(view, text)
    edges = view.ancestry(list(traced.weights))
    lots = view.lots({*traced.weights, *_ids(edges)})
    made_g = {lot.id: lot.made_g for lot in lots.values()}
    shares = carry_back(traced.weights, edges, made_g)
    ways = _ways(view, traced, edges, lots)
    ancestors, sources = _ancestors(view, lots, shares, ways, traced.grams)
    return BackTrace(
        code=traced.code,
        lot=traced.lot.id,
        made_g=traced.grams,
        ancestors=ancestors,
        lots=tuple(_reached(lots, shares, traced.grams)),
        ribbons=_ribbons(edges, shares, lots, traced.grams),
        sources=sources,
        reach_complete=all(row.kind != UNKNOWN for row in ancestors),
    )


def _ids(edges: Iterable[Edge]) -> set[int]:
    return {lot for edge in edges for lot in (edge.child, edge.parent)}


def _traced(view: View, text: str) -> _Traced:
    code = read_code(view, text, "code")
    lot = find_lot(view, text, field="code")
    if not isinstance(code, JarCode):
        return _Traced(lot.code, lot, lot.made_g, {lot.id: 1.0}, frozenset())
    return _jar(code, lot)


def _jar(code: JarCode, lot: Lot) -> _Traced:
    """One jar: in equal parts of every fill its serial may belong to, within the margin."""
    jars, margin, net_g = (_whole(lot, name) for name in ("jars", "margin", "net_g"))
    if not 1 <= code.serial <= jars:
        raise Refusal(
            NO_SUCH_JAR, field="code", code=lot.code, jars=jars, serial=f"{code.serial:05d}"
        )
    segments = lot.attributes.get("segments", ())
    assert isinstance(segments, Sequence)
    exact: dict[int, None] = {}
    near: dict[int, None] = {}
    for segment in segments:
        assert isinstance(segment, Sequence)
        fill, first, last = (int(str(part)) for part in segment)
        if first <= code.serial <= last:
            exact[fill] = None
        elif first - margin <= code.serial <= last + margin:
            near[fill] = None
    if not exact:
        return _Traced(str(code), lot, net_g, {lot.id: 1.0}, frozenset())
    # The first lot of a segment is the fill drawn; the others are in its reach at 0 g.
    fills = _fills(segments, code.serial, margin)
    weights = {one: (1.0 / len(fills) if one in fills else 0.0) for one in {**exact, **near}}
    return _Traced(str(code), lot, net_g, weights, frozenset(near) - frozenset(exact))


def _fills(segments: Sequence[object], serial: int, margin: int) -> set[int]:
    seen: set[tuple[int, int]] = set()
    fills: set[int] = set()
    for segment in segments:
        assert isinstance(segment, Sequence)
        fill, first, last = (int(str(part)) for part in segment)
        if (first, last) not in seen and first - margin <= serial <= last + margin:
            fills.add(fill)
        seen.add((first, last))
    return fills


def _whole(lot: Lot, name: str) -> int:
    value = lot.attributes.get(name, 0)
    return value if isinstance(value, int) else 0


def _vessels(lots: Mapping[int, Lot]) -> dict[int, str]:
    return {
        lot.id: str(lot.attributes.get("vessel", "")) for lot in lots.values() if lot.kind == "T"
    }


@dataclass(frozen=True, slots=True)
class _Ways:
    """For each way of being in a reach, the lots it reaches."""

    by: Mapping[str, set[int]]
    without_heels: set[int]

    def of(self, lot: int) -> tuple[str, ...]:
        """The ways a lot is in; a row at 0 g that is none of these clung like a heel."""
        return tuple(how for how in HOW if lot in self.by[how]) or ("heel",)


def _ways(view: View, traced: _Traced, edges: Sequence[Edge], lots: Mapping[int, Lot]) -> _Ways:
    starts = set(traced.weights)
    exact = starts - traced.margin
    vessels = _vessels(lots)
    heels = heel_edges(edges, vessels)
    timely = [edge for edge in edges if not edge.late]
    timely_reach = reach(starts, parents_of(timely))
    heel_ends = {parent for child, parent in heels if child in timely_reach}
    direct = [edge for edge in edges if (edge.child, edge.parent) not in heels]
    links = parents_of(edges)
    by = {
        "grams": reach_by_grams(exact, direct),
        "heel": reach(heel_ends, parents_of(timely)),
        "margin": reach(traced.margin, links),
        "late": set[int](),
        "amended": set[int](),
    }
    late = [edge for edge in edges if edge.late]
    heads = {head.id: head for head in view.entry_heads({edge.entry for edge in late})}
    for edge in late:
        head = heads[edge.entry]
        typed_late = head.recorded_ms - head.happened_ms > TYPED_LATE_MS
        how = "amended" if head.kind == "amend" else "late" if typed_late else "margin"
        if edge.parent not in by[how]:
            by[how] |= reach([edge.parent], links)
    return _Ways(by, reach_without_heels(starts, edges, vessels))


@dataclass(slots=True)
class _Gathering:
    kind: str
    parts: list[float]
    lots: set[int]
    amended: bool = False


def _ancestors(
    view: View,
    lots: Mapping[int, Lot],
    shares: Mapping[int, float],
    ways: _Ways,
    grams: int,
) -> tuple[tuple[Ancestor, ...], tuple[SourceRibbon, ...]]:
    gathered: dict[str, _Gathering] = {}
    ribbons = []
    for lot_id, places in _source_places(view, lots).items():
        for where, part, amended in places:
            code = lots[lot_id].code if class_of(where) == UNKNOWN else key_of(where)
            row = gathered.setdefault(code, _Gathering(class_of(where), [], set()))
            row.parts.append(shares[lot_id] * part)
            row.lots.add(lot_id)
            row.amended |= amended
            ribbons.append(SourceRibbon(code, lot_id, shares[lot_id] * part * grams))
    totals = {code: fsum(row.parts) for code, row in gathered.items()}
    order = sorted(gathered, key=lambda code: (-totals[code], code))
    parts = largest_remainder(grams, [int(totals[code] * SCALE) for code in order])
    rows = []
    for code, part in zip(order, parts, strict=True):
        row = gathered[code]
        rows.append(
            Ancestor(
                kind=row.kind,
                code=code,
                name=_name(view, row.kind, code),
                share=totals[code],
                grams=part,
                how=_how(row, ways),
                only_through_heel=not row.lots & ways.without_heels,
            )
        )
    return tuple(rows), tuple(ribbons)


def _how(row: _Gathering, ways: _Ways) -> tuple[str, ...]:
    found = {how for lot in row.lots for how in ways.of(lot)}
    if row.amended:
        found.add("amended")
    return tuple(how for how in HOW if how in found)


def _name(view: View, kind: str, code: str) -> str:
    if kind == UNKNOWN:
        return "source not known"
    mark = view.mark(f"{kind}/{code}", "record")
    return str(mark.value.get("name", code)) if mark and isinstance(mark.value, Mapping) else code


def _source_places(
    view: View, lots: Mapping[int, Lot]
) -> dict[int, list[tuple[str, float, bool]]]:
    """Each source lot's places with their parts: net grams over the sum of nets.

    A place amended away keeps its row at 0 until it is narrowed; a lot given away whole keeps
    its first place.
    """
    sources = [lot.id for lot in lots.values() if lot.kind in "SP"]
    held: dict[int, list[Holding]] = {lot: [] for lot in sources}
    for row in view.holdings_of(sources):
        if is_source(row.place):
            held[row.lot].append(row)
    return {lot: _parts(view, lots[lot], rows) for lot, rows in held.items()}


def _parts(view: View, lot: Lot, rows: list[Holding]) -> list[tuple[str, float, bool]]:
    if len(rows) == 1:
        return [(rows[0].place, 1.0, not rows[0].grams)]
    total = sum(max(0, -row.grams) for row in rows)
    if not total:
        first = f"{YARD}/{lot.attributes.get('yard', '')}"
        return [(row.place, float(row.place == first), True) for row in rows]
    subject = lot.code
    return [
        (row.place, max(0, -row.grams) / total, True)
        for row in rows
        if row.grams < 0 or view.mark(subject, f"not from/{row.place}") is None
    ]


def _reached(
    lots: Mapping[int, Lot], shares: Mapping[int, float], grams: int
) -> Iterable[ReachedLot]:
    for lot_id in sorted(shares):
        lot, share = lots[lot_id], shares[lot_id]
        yield ReachedLot(lot.id, lot.code, lot.kind, share, round(share * grams))


def _ribbons(
    edges: Sequence[Edge], shares: Mapping[int, float], lots: Mapping[int, Lot], grams: int
) -> tuple[Ribbon, ...]:
    heels = heel_edges(edges, _vessels(lots))
    return tuple(
        Ribbon(
            edge.child,
            edge.parent,
            shares[edge.child] * grams * edge.grams / lots[edge.child].made_g,
            (edge.child, edge.parent) in heels,
            bool(edge.late),
        )
        for edge in edges
    )


def trace_forward(view: View, text: str, first_day: str = "", last_day: str = "") -> ForwardTrace:
    """Where the honey of a yard, a supplier or a lot went: lots, customers, stock.

    Args:
        text: a yard's or supplier's code or name, or a lot's code.
        first_day, last_day: of a yard's pulls, ISO, inclusive; all where empty.
    """
    code, starts = _starts(view, text, first_day, last_day)
    edges = view.descent(list(starts))
    lots = view.lots({*starts, *_ids(edges)})
    parts = carry_forward(starts, edges, {lot.id: lot.made_g for lot in lots.values()})
    held = view.holdings_of(list(lots))
    on_hand = tuple(
        PlaceReach(row.place, lots[row.lot].code, row.grams, row.pieces)
        for row in held
        if is_inside(row.place) and (row.grams or row.pieces)
    )
    reached = tuple(
        ReachedLot(lot.id, lot.code, lot.kind, parts[lot.id], round(parts[lot.id] * lot.made_g))
        for lot in sorted(lots.values(), key=lambda lot: lot.id)
    )
    return ForwardTrace(
        code=code,
        lots=reached,
        customers=_customers(view, held, lots),
        on_hand=on_hand,
        on_hand_g=sum(row.grams for row in on_hand),
    )


def _starts(view: View, text: str, first_day: str, last_day: str) -> tuple[str, dict[int, float]]:
    for kind in (YARD, "supplier"):
        try:
            where = find_record(view, kind, text, "code")[0]
        except Refusal:
            continue
        lots = [
            lot
            for lot in view.source_lots(where)
            if first_day <= str(lot.attributes.get("pulled", "")) <= (last_day or "9999")
        ]
        starts = _parts_from(view, where, lots)
        return key_of(where), starts
    lot = find_lot(view, text, field="code")
    return lot.code, {lot.id: 1.0}


def _parts_from(view: View, where: str, lots: Collection[Lot]) -> dict[int, float]:
    """The source lots of a place with the part of each that is from there."""
    by_lot = _source_places(view, {lot.id: lot for lot in lots})
    return {
        lot: part for lot, places in by_lot.items() for place, part, _ in places if place == where
    }


def _customers(
    view: View, held: Sequence[Holding], lots: Mapping[int, Lot]
) -> tuple[CustomerReach, ...]:
    rows: dict[str, list[Holding]] = {}
    for row in held:
        if class_of(row.place) in (CUSTOMER, GATE) and (row.grams or row.pieces):
            rows.setdefault(row.place, []).append(row)
    return tuple(
        CustomerReach(
            code=key_of(where),
            name=_name(view, class_of(where), key_of(where)),
            lots=tuple(sorted(lots[row.lot].code for row in given)),
            grams=sum(row.grams for row in given),
            jars=sum(row.pieces for row in given),
        )
        for where, given in sorted(rows.items())
    )
