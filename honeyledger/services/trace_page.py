"""A trace with everything a page or a paper shows beside it: names, days, colours, holds."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import house_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import (
    CUSTOMER,
    GATE,
    SUPPLIER,
    UNKNOWN,
    YARD,
    class_of,
    is_inside,
    key_of,
    place,
)
from honeyledger.ledger.trace_rows import Ancestor, BackTrace, ForwardTrace, ReachedLot
from honeyledger.ledger.yard_log import TREATED, noted, told
from honeyledger.services.affected import accounted_for, lot_accounted_for
from honeyledger.services.holding import held_lots, held_sentence, name_in, readings
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back, trace_forward

DRAWN_LEAST = 0.002  # of the whole; a lot under it is too thin to show a colour


@dataclass(frozen=True, slots=True)
class YardLine:
    """A first ancestor in the table: share as a part, grams of what was traced.

    Args:
        latitude, longitude: of a yard, in units of 1e-7 degree; None where not on record.
        treated: with what a yard was treated and since which day, ISO; the newest first.
    """

    row: Ancestor
    place: str
    pulled: tuple[str, ...]
    forage: str
    latitude: int | None = None
    longitude: int | None = None
    treated: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class LotLine:
    """A lot in the reach, for drawing: its mass in what was traced and when it was made."""

    id: int
    code: str
    kind: str
    grams: int
    share: float
    day: str
    vessel: str
    colour: int | None


@dataclass(frozen=True, slots=True)
class TracePage:
    """Where a code comes from, ready to be shown; `day` is when it was made.

    A print of it carries the house's name, the number of entries and the head's digest.

    Args:
        accounted: the part of the lot that is accounted for, 1.0 for all of it.
    """

    trace: BackTrace
    is_jar: bool
    product: str
    yards: tuple[YardLine, ...]
    lots: tuple[LotLine, ...]
    holds: tuple[str, ...]
    entries: int
    day: str
    digest: str = ""
    house: str = ""
    accounted: float = 1.0


@dataclass(frozen=True, slots=True)
class End:
    """Where some of the traced honey of a lot is now: a customer by name, or "" for the house."""

    lot: int
    code: str
    name: str
    grams: int


@dataclass(frozen=True, slots=True)
class ForwardPage:
    """Where the honey of a code went; `is_source` where it is a yard or a supplier, not a lot.

    `lots` and `ends` count the traced honey alone, for drawing; the trace counts whole lots.
    """

    trace: ForwardTrace
    name: str
    is_source: bool
    places: Mapping[str, str]
    entries: int
    lots: tuple[LotLine, ...] = ()
    ends: tuple[End, ...] = ()
    whole_g: int = 0
    digest: str = ""
    house: str = ""
    accounted: float = 1.0


def trace_page(view: View, text: str) -> TracePage:
    """Trace a code back, with what stands beside it.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    trace = trace_back(view, text)
    zone = rules_of(view).zone
    lots = view.lots({lot.id for lot in trace.lots})
    days = _days(view, lots.values(), zone)
    lines = _lines(view, trace.lots, lots, {one.id: one.share for one in trace.lots}, days)
    pulled = {
        lot.id: _text(lot.attributes, "pulled") or days[lot.made_by] for lot in lots.values()
    }
    root = view.lot(trace.lot)
    product = _text(root.attributes, "product")
    return TracePage(
        trace=trace,
        is_jar=trace.code != root.code,
        product=name_in(view, place("product", product), product) if product else "",
        yards=_yards(view, trace, pulled),
        lots=lines,
        holds=_holds(view, trace),
        entries=view.head().entry,
        day=_made_on(view, root, zone),
        digest=view.head().digest,
        house=name_in(view, "house"),
        accounted=lot_accounted_for(view, root),
    )


def _days(view: View, lots: Collection[Lot], zone: str) -> dict[int, str]:
    """The house's day of each entry that made one of the lots."""
    heads = view.entry_heads({lot.made_by for lot in lots})
    return {head.id: house_day(head.happened_ms, zone).isoformat() for head in heads}


def _lines(
    view: View,
    reached: Collection[ReachedLot],
    lots: Mapping[int, Lot],
    shares: Mapping[int, float],
    days: Mapping[int, str],
) -> tuple[LotLine, ...]:
    colours = readings(
        view, [one.code for one in reached if shares[one.id] >= DRAWN_LEAST], "colour"
    )
    return tuple(
        LotLine(
            lot.id,
            lot.code,
            lot.kind,
            one.grams,
            shares[one.id],
            days[lot.made_by],
            name_in(view, place("vessel", _text(lot.attributes, "vessel"))),
            colours.get(lot.code),
        )
        for one in reached
        for lot in (lots[one.id],)
    )


def _made_on(view: View, lot: Lot, zone: str) -> str:
    entry = view.entry(lot.made_by)
    return house_day(entry.act.happened.at_ms, zone).isoformat() if entry else ""


def _text(values: Mapping[str, Json], name: str) -> str:
    return str(values.get(name, ""))


def _whole(values: Mapping[str, Json], name: str) -> int | None:
    value = values.get(name)
    return value if isinstance(value, int) else None


def _treated(view: View, row: Ancestor) -> tuple[tuple[str, str], ...]:
    """The treatments of a yard that are on record."""
    marks = noted(view, place(YARD, row.code), TREATED)
    said = [(told(mark, "first_day"), told(mark, "product")) for mark in marks]
    return tuple((product, day) for day, product in sorted(said, reverse=True))


def _yards(view: View, trace: BackTrace, pulled: Mapping[int, str]) -> tuple[YardLine, ...]:
    days: dict[str, set[str]] = {}
    for ribbon in trace.sources:
        days.setdefault(ribbon.code, set()).add(pulled[ribbon.lot])
    view.read_marks([place(row.kind, row.code) for row in trace.ancestors])
    rows = []
    for row in trace.ancestors:
        mark = view.mark(place(row.kind, row.code), "record") if row.kind != UNKNOWN else None
        record = mark.value if mark and isinstance(mark.value, Mapping) else {}
        rows.append(
            YardLine(
                row,
                _text(record, "place"),
                tuple(sorted(days.get(row.code, ()))),
                _text(record, "forage"),
                _whole(record, "latitude"),
                _whole(record, "longitude"),
                _treated(view, row) if row.kind == YARD else (),
            )
        )
    return tuple(rows)


def _holds(view: View, trace: BackTrace) -> tuple[str, ...]:
    """The holds that reach what was traced, in words."""
    held = held_lots(view)
    starts = {trace.lot, *(lot for lot, _ in trace.starts)}
    return tuple(
        dict.fromkeys(
            held_sentence(view, view.lot(lot), hold)
            for lot in sorted(starts)
            for hold in held.get(lot, ())
        )
    )


def forward_page(view: View, text: str) -> ForwardPage:
    """Trace a yard, a supplier or a lot forward, with its name and what is drawn of it.

    Raises:
        Refusal: no such code or name.
    """
    trace = trace_forward(view, text, ribbons=True)
    name = name_in(view, place(YARD, trace.code)) or name_in(view, place(SUPPLIER, trace.code))
    names = PlaceNames(view)
    places = {row.place: names[row.place] for row in trace.on_hand}
    lots = view.lots({lot.id for lot in trace.lots})
    whole_g = round(sum(part * lots[lot].made_g for lot, part in trace.starts))
    days = _days(view, lots.values(), rules_of(view).zone)
    shares = {one.id: one.grams / whole_g if whole_g else 0.0 for one in trace.lots}
    return ForwardPage(
        trace,
        name or trace.code,
        bool(name),
        places,
        view.head().entry,
        _lines(view, trace.lots, lots, shares, days),
        _ends(view, trace),
        whole_g,
        view.head().digest,
        name_in(view, "house"),
        accounted_for(view, trace),
    )


def _ends(view: View, trace: ForwardTrace) -> tuple[End, ...]:
    """Where the traced honey is now, lot by lot: what customers got, and what is in the house."""
    names = {one.code: one.name for one in trace.customers}
    parts = {lot.id: lot.share for lot in trace.lots}
    ends: dict[tuple[int, str], float] = {}
    for row in view.holdings_of(list(parts)):
        kind = class_of(row.place)
        if kind in (CUSTOMER, GATE) or is_inside(row.place):
            key = (row.lot, "" if is_inside(row.place) else key_of(row.place))
            ends[key] = ends.get(key, 0.0) + parts[row.lot] * row.grams
    return tuple(
        End(lot, code, names.get(code, ""), round(grams)) for (lot, code), grams in ends.items()
    )
