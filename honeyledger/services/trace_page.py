"""A trace with everything a page or a paper shows beside it: names, days, colours, holds."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import house_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import UNKNOWN, YARD, place
from honeyledger.ledger.trace_rows import Ancestor, BackTrace, ForwardTrace
from honeyledger.services.holding import held_lots, hold_sentence, name_in, reading
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back, trace_forward

DRAWN_LEAST = 0.002  # of the whole; a lot under it is too thin to show a colour


@dataclass(frozen=True, slots=True)
class YardLine:
    """A first ancestor in the table: share as a part, grams of what was traced."""

    row: Ancestor
    place: str
    pulled: tuple[str, ...]
    forage: str


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
    """Where a code comes from, ready to be shown; `day` is when it was made."""

    trace: BackTrace
    is_jar: bool
    product: str
    yards: tuple[YardLine, ...]
    lots: tuple[LotLine, ...]
    holds: tuple[str, ...]
    entries: int
    day: str


@dataclass(frozen=True, slots=True)
class ForwardPage:
    """Where the honey of a code went; `is_source` where it is a yard or a supplier, not a lot."""

    trace: ForwardTrace
    name: str
    is_source: bool
    places: Mapping[str, str]
    entries: int


def trace_page(view: View, text: str) -> TracePage:
    """Trace a code back, with what stands beside it.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    trace = trace_back(view, text)
    zone = rules_of(view).zone
    lots = view.lots({lot.id for lot in trace.lots})
    heads = view.entry_heads({lot.made_by for lot in lots.values()})
    days = {head.id: house_day(head.happened_ms, zone).isoformat() for head in heads}
    lines = []
    pulled: dict[int, str] = {}
    for reached in trace.lots:
        lot = lots[reached.id]
        thick = reached.share >= DRAWN_LEAST
        lines.append(
            LotLine(
                lot.id,
                lot.code,
                lot.kind,
                reached.grams,
                reached.share,
                days[lot.made_by],
                name_in(view, place("vessel", _text(lot.attributes, "vessel"))),
                reading(view, lot.code, "colour") if thick else None,
            )
        )
        pulled[lot.id] = _text(lot.attributes, "pulled") or days[lot.made_by]
    root = view.lot(trace.lot)
    product = _text(root.attributes, "product")
    return TracePage(
        trace=trace,
        is_jar=trace.code != root.code,
        product=name_in(view, place("product", product), product) if product else "",
        yards=_yards(view, trace, pulled),
        lots=tuple(lines),
        holds=_holds(view, trace),
        entries=view.head().entry,
        day=_made_on(view, root, zone),
    )


def _made_on(view: View, lot: Lot, zone: str) -> str:
    entry = view.entry(lot.made_by)
    return house_day(entry.act.happened.at_ms, zone).isoformat() if entry else ""


def _text(values: Mapping[str, Json], name: str) -> str:
    return str(values.get(name, ""))


def _yards(view: View, trace: BackTrace, pulled: Mapping[int, str]) -> tuple[YardLine, ...]:
    days: dict[str, set[str]] = {}
    for ribbon in trace.sources:
        days.setdefault(ribbon.code, set()).add(pulled[ribbon.lot])
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
            )
        )
    return tuple(rows)


def _holds(view: View, trace: BackTrace) -> tuple[str, ...]:
    """The holds that reach what was traced, in words."""
    held = held_lots(view)
    starts = {trace.lot, *(lot for lot, _ in trace.starts)}
    return tuple(
        dict.fromkeys(
            hold_sentence(view, hold) for lot in sorted(starts) for hold in held.get(lot, ())
        )
    )


def forward_page(view: View, text: str) -> ForwardPage:
    """Trace a yard, a supplier or a lot forward, with its name.

    Raises:
        Refusal: no such code or name.
    """
    trace = trace_forward(view, text)
    name = name_in(view, place(YARD, trace.code)) or name_in(view, place("supplier", trace.code))
    names = PlaceNames(view)
    places = {row.place: names[row.place] for row in trace.on_hand}
    return ForwardPage(trace, name or trace.code, bool(name), places, view.head().entry)
