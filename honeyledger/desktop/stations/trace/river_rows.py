"""From a trace's rows to the river: which lots are drawn, in which columns, with what said."""

from collections.abc import Collection, Mapping, Sequence
from datetime import date

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.days import format_span
from honeyledger.desktop.models.river_graph import (
    RiverColumn,
    RiverGraph,
    RiverNode,
    RiverRibbon,
    river_graph,
)
from honeyledger.desktop.models.river_layout import THIN_PART
from honeyledger.ledger.trace_rows import Ribbon
from honeyledger.services.trace_page import End, ForwardPage, LotLine, TracePage, YardLine

KINDS = {
    "S": "pull",
    "P": "pull",
    "T": "fill",
    "D": "drum",
    "J": "jar",
    "W": "other",
    "X": "other",
    "K": "other",
    "A": "added",
}
HERE = "here"
_TO = "to "


def _tr(text: str) -> str:
    return QCoreApplication.translate("trace", text)


def river_of(page: TracePage) -> RiverGraph:
    """The river of a trace: each lot with its ribbons; what is small is folded where it is drawn.

    It asks nothing of a widget, so that it is made in the read lane with the trace.
    """
    trace = page.trace
    shown = {lot.id: lot for lot in sorted(page.lots, key=lambda lot: lot.id)}
    colours = _colours(page.lots, trace.ribbons)
    named = _named(page)
    nodes = [_yard_node(page, row, named) for row in page.yards] if shown else []
    nodes += [_lot_node(lot, colours.get(lot.id)) for lot in shown.values()]
    ribbons = [
        RiverRibbon(_yard_key(ribbon.code), shown[ribbon.lot].code, round(ribbon.grams))
        for ribbon in trace.sources
        if ribbon.lot in shown
    ]
    ribbons += _lot_ribbons(trace.ribbons, shown)
    if page.is_jar:
        mean = _mean([(weight, colours.get(lot)) for lot, weight in trace.starts])
        nodes.append(RiverNode(trace.code, "jar", trace.code, trace.made_g, pfund_mm=mean))
        ribbons += [
            RiverRibbon(shown[lot].code, trace.code, round(weight * trace.made_g))
            for lot, weight in trace.starts
            if lot in shown and shown[lot].code != trace.code
        ]
    used = {node.kind for node in nodes}
    heads = {kind: head for kind, head in _heads(page).items() if kind in used}
    return river_graph(heads, nodes, ribbons, trace.made_g, thin_part=THIN_PART)


def river_forward(page: ForwardPage) -> RiverGraph:
    """The river of a trace forward: the traced honey alone, to customers and what is here."""
    trace = page.trace
    shown = {lot.id: lot for lot in sorted(page.lots, key=lambda lot: lot.id)}
    colours = _colours(page.lots, trace.ribbons)
    nodes, ribbons = [], []
    if page.is_source and shown:
        firsts = [shown[lot] for lot, _ in trace.starts if lot in shown]
        mean = _mean([(lot.grams, colours.get(lot.id)) for lot in firsts])
        key = _yard_key(trace.code)
        nodes.append(RiverNode(key, "yard", page.name, page.whole_g, pfund_mm=mean, is_named=True))
        ribbons += [RiverRibbon(key, lot.code, lot.grams) for lot in firsts]
    nodes += [_lot_node(lot, colours.get(lot.id)) for lot in shown.values()]
    ribbons += _lot_ribbons(trace.ribbons, shown)
    ends = [end for end in page.ends if end.lot in shown]
    nodes += _end_nodes(ends, colours)
    ribbons += [RiverRibbon(shown[end.lot].code, _end_key(end.code), end.grams) for end in ends]
    used = {node.kind for node in nodes}
    heads = _lot_heads(page.lots)
    source = RiverColumn(_tr("Yard"), page.name)
    whole = {"yard": source} | heads | {"end": RiverColumn(_tr("Now"), _tr("where it is"))}
    return river_graph(
        {kind: head for kind, head in whole.items() if kind in used},
        nodes,
        ribbons,
        page.whole_g,
        ends="end",
        thin_part=THIN_PART,
    )


def _end_key(code: str) -> str:
    return f"{_TO}{code}" if code else HERE


def _end_nodes(ends: Sequence[End], colours: Mapping[int, float]) -> list[RiverNode]:
    """One node a customer, and one for all that is still in the house."""
    rows: dict[str, list[End]] = {}
    for end in ends:
        rows.setdefault(end.code, []).append(end)
    return [
        RiverNode(
            _end_key(code),
            "end",
            its[0].name if code else _tr("still here"),
            sum(end.grams for end in its),
            pfund_mm=_mean([(end.grams, colours.get(end.lot)) for end in its]),
            is_named=not code,
        )
        for code, its in rows.items()
    ]


def _lot_ribbons(carried: Sequence[Ribbon], shown: Mapping[int, LotLine]) -> list[RiverRibbon]:
    """Ribbons between lots that are drawn."""
    return [
        RiverRibbon(
            shown[ribbon.parent].code, shown[ribbon.child].code, round(ribbon.grams), ribbon.heel
        )
        for ribbon in carried
        if ribbon.parent in shown and ribbon.child in shown
    ]


def _yard_key(code: str) -> str:
    """A key of its own: an unknown source is known by its lot's code."""
    return f"from {code}"


def code_of(key: str) -> str:
    """The code a node's key stands for; "" for what is still in the house."""
    return "" if key == HERE else key.removeprefix("from ").removeprefix(_TO)


def is_end(key: str) -> bool:
    """Whether a node is where honey is now, which has neither a card nor a trace."""
    return key == HERE or key.startswith(_TO)


def _named(page: TracePage) -> set[str]:
    """The first ancestors that the answer names, so that the river has to show them."""
    heels = [line.row.code for line in page.yards if line.row.only_through_heel]
    first = [line.row.code for line in page.yards[:1]]
    return {*first, *(heels if len(heels) == 1 else ())}


def _yard_node(page: TracePage, line: YardLine, named: Collection[str]) -> RiverNode:
    row = line.row
    return RiverNode(
        _yard_key(row.code),
        "yard",
        row.name,
        row.grams,
        pfund_mm=_yard_colour(page, row.code),
        is_named=row.code in named,
    )


def _yard_colour(page: TracePage, code: str) -> float | None:
    """The mean colour of a yard's pulls by mass, for drawing only."""
    colours = {lot.id: lot.colour for lot in page.lots}
    return _mean(
        [
            (ribbon.grams, colour / 10 if (colour := colours[ribbon.lot]) is not None else None)
            for ribbon in page.trace.sources
            if ribbon.code == code
        ]
    )


def _mean(parts: Sequence[tuple[float, float | None]]) -> float | None:
    """The mean colour of parts by mass, of those that have one; for drawing only."""
    read = [(grams, colour) for grams, colour in parts if colour is not None]
    total = sum(grams for grams, _ in read)
    return sum(grams * colour for grams, colour in read) / total if total else None


def _colours(lots: Sequence[LotLine], carried: Sequence[Ribbon]) -> dict[int, float]:
    """Each lot's colour in Pfund mm: its reading, else the mean of what it was made of.

    Lots come in id order, and honey runs from lower to higher ids, so parents are there first.
    """
    made_of: dict[int, list[tuple[float, int]]] = {}
    for ribbon in carried:
        made_of.setdefault(ribbon.child, []).append((ribbon.grams, ribbon.parent))
    colours: dict[int, float] = {}
    for lot in sorted(lots, key=lambda lot: lot.id):
        parents = made_of.get(lot.id, ())
        mean = _mean([(grams, colours.get(parent)) for grams, parent in parents])
        colour = lot.colour / 10 if lot.colour is not None else mean
        if colour is not None:
            colours[lot.id] = colour
    return colours


def _lot_node(lot: LotLine, colour: float | None) -> RiverNode:
    return RiverNode(
        lot.code,
        KINDS.get(lot.kind, "other"),
        lot.code,
        lot.grams,
        pfund_mm=colour,
        details=(lot.vessel,) if lot.vessel else (),
    )


def _heads(page: TracePage) -> Mapping[str, RiverColumn]:
    sites = _tr("{n} in reach").format(n=len(page.yards))
    heads = {"yard": RiverColumn(_tr("Yards"), sites)} | _lot_heads(page.lots)
    if page.is_jar:
        heads["jar"] = RiverColumn(_tr("Jars"), _span([page.day]))
    return heads


def _lot_heads(lots: Sequence[LotLine]) -> dict[str, RiverColumn]:
    kinds: dict[str, list[str]] = {}
    for lot in lots:
        kinds.setdefault(KINDS.get(lot.kind, "other"), []).append(lot.day)
    names = {
        "added": _tr("Added"),
        "pull": _tr("Pulls"),
        "fill": _tr("Tank fills"),
        "drum": _tr("Drums"),
        "other": _tr("By-products"),
        "jar": _tr("Jars"),
    }
    return {kind: RiverColumn(name, _span(kinds.get(kind, []))) for kind, name in names.items()}


def _span(days: Sequence[str]) -> str:
    """The days of a column, first to last."""
    if not days:
        return ""
    return format_span(date.fromisoformat(min(days)), date.fromisoformat(max(days)))
