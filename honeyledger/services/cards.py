"""The card of a lot: what it is, where, its readings and holds, and its history as sentences."""

from dataclasses import dataclass, replace

from honeyledger.domain.moments import Moment, say_day
from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import MassUnit, format_temperature, format_weight
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.heat import heated_among
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import DIFFERENCE, is_inside, is_source, place
from honeyledger.ledger.sources import sources_of
from honeyledger.ledger.trace_rows import Ancestor, BackTrace
from honeyledger.services.histories import Told, history_of
from honeyledger.services.hold_history import holds_told
from honeyledger.services.holding import held_lots, held_sentence, noun_of, reading
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back
from honeyledger.services.trade_words import trade_facts

UNSHOWN = ("segments", "candidates", "gross_g", "tare_g", "net_g", "margin", "source", "countries")

_RECORDS = {
    "yard": "yard",
    "supplier": "supplier",
    "container": "drum",
    "vessel": "vessel",
    "line": "vessel",
    "melter": "vessel",
    "product": "product",
    "customer": "customer",
}


_DAYS = ("filled_on", "pulled", "best_before")
_CAPTIONS = {
    "run": phrase("run"),
    "yard": phrase("yard"),
    "supplier": phrase("supplier"),
    "product": phrase("product"),
    "container": phrase("container"),
    "vessel": phrase("vessel"),
    "box": phrase("box"),
    "count": phrase("count"),
    "pulled": phrase("pulled"),
    "filled_on": phrase("filled on"),
    "crew": phrase("crew"),
    "condition": phrase("condition"),
    "jars": phrase("jars"),
    "net_g": phrase("net g"),
    "sort": phrase("sort"),
    "name": phrase("name"),
    "best_before": phrase("best before"),
    "purpose": phrase("purpose"),
    "place": phrase("place"),
    "temperature": phrase("temperature"),
    "season": phrase("season"),
    "pieces": phrase("pieces"),
}


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a lot stands now, in the house or with a customer, or what no scale has seen of it."""

    place: str
    where: str
    grams: int
    pieces: int

    @property
    def is_gap(self) -> bool:
        """Whether it stands nowhere, but is what the scale found otherwise than the books."""
        return self.place == DIFFERENCE


def gap_words(grams: int, unit: MassUnit) -> str:
    """What the scale found less than the books (above 0) or more, as people say it."""
    mass = format_weight(abs(grams), unit)
    if grams > 0:
        return phrase("{mass} less than the books saw", mass=mass)
    return phrase("{mass} more than the books saw", mass=mass)


@dataclass(frozen=True, slots=True)
class LooseOrigin:
    """An origin at 0 g: in reach only, and to be narrowed by its entry and line."""

    code: str
    entry: int
    line: int
    late: bool


@dataclass(frozen=True, slots=True)
class LotCard:
    """Everything a person wants to know of a lot.

    Masses in grams, moisture in hundredths of a percent, colour in tenths of a Pfund millimetre,
    temperature in tenths of a degree Celsius. `yards` are its first ancestors with shares, those
    with the most first; `facts` are what its kind has besides (run, product, supplier's lot ...);
    `heated` are the lots in its reach, itself included, that were heated.
    """

    code: str
    kind: str
    noun: str
    made_g: int
    made: Moment
    on_hand_g: int
    standing: tuple[Standing, ...]
    moisture: int | None
    colour: int | None
    temperature: int | None
    holds: tuple[str, ...]
    pending: bool
    label_void: bool
    facts: tuple[tuple[str, str], ...]
    yards: tuple[Ancestor, ...]
    reach_complete: bool
    in_reach_only: tuple[LooseOrigin, ...]
    history: tuple[Told, ...]
    heated: tuple[str, ...] = ()


def lot_card(view: View, text: str, unit: MassUnit = "kg") -> LotCard:
    """The card of the lot a code names; of a jar's code, its jar lot.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    lot = find_lot(view, text, field="code")
    names = PlaceNames(view)
    entries = view.history(lot.id)
    trace = trace_back(view, lot.code, ribbons=False)
    made = next(entry for entry in entries if entry.id == lot.made_by)
    standing = tuple(
        Standing(row.place, names[row.place], row.grams, row.pieces)
        for row in view.holdings(lot.id)
        if not is_source(row.place) and (row.grams or row.pieces)
    )
    pending, label = view.mark(lot.code, "pending"), view.mark(lot.code, "label")
    return LotCard(
        code=lot.code,
        kind=lot.kind,
        noun=noun_of(view, lot),
        made_g=lot.made_g,
        made=made.act.happened,
        on_hand_g=sum(row.grams for row in standing if is_inside(row.place)),
        standing=standing,
        moisture=reading(view, lot.code, "moisture"),
        colour=reading(view, lot.code, "colour"),
        temperature=reading(view, lot.code, "temperature"),
        holds=tuple(held_sentence(view, lot, hold) for hold in held_lots(view).get(lot.id, ())),
        pending=bool(pending and pending.value),
        label_void=bool(label and label.value == "void"),
        facts=_facts(view, lot, names),
        yards=trace.ancestors,
        reach_complete=trace.reach_complete,
        in_reach_only=_in_reach_only(view, lot),
        history=_in_time(
            [
                *history_of(view, lot, entries, names, unit),
                *_amended(view, lot, trace, names, unit),
                *holds_told(view, lot, {entry.id for entry in entries}),
            ]
        ),
        heated=heated_among(view, [row.code for row in trace.lots]),
    )


def _amended(
    view: View, lot: Lot, trace: BackTrace, names: PlaceNames, unit: MassUnit
) -> list[Told]:
    """What was amended of the pulls and purchases in its reach, each told by its code."""
    if not any("amended" in row.how for row in trace.ancestors):
        return []
    found = []
    sources = [row.id for row in trace.lots if row.kind in "SP" and row.id != lot.id]
    for source in view.lots(sources).values():
        marks = [mark for mark in view.marks(source.code) if mark.name.startswith("from/")]
        entries = [view.entry(one) for one in sorted({mark.entry for mark in marks})]
        told = history_of(
            view, source, [entry for entry in entries if entry is not None], names, unit
        )
        found += [replace(one, sentence=f"{source.code}: {one.sentence}") for one in told]
    return found


def _in_time(told: list[Told]) -> tuple[Told, ...]:
    return tuple(sorted(told, key=lambda one: (one.happened.at_ms, one.entry)))


def _facts(view: View, lot: Lot, names: PlaceNames) -> tuple[tuple[str, str], ...]:
    """What its kind has besides, in the words of the house; amended facts as they are and were."""
    found, before = dict(lot.attributes), dict[str, Json]()
    for name in ("container", "filled_on", "product"):
        mark = view.mark(lot.code, name)
        if mark is not None:
            if mark.entry != lot.made_by:
                before[name] = found.get(name, "")
            found[name] = mark.value
    traded = trade_facts(view, lot, names)
    captions = [caption for caption, _ in traded]
    rows = []
    for name, value in found.items():
        if name in UNSHOWN or name in captions:
            continue
        shown = _shown(name, str(value), names)
        if name in ("yard", "supplier") and lot.kind in "SP":
            shown = _source(view, lot, place(name, str(value)), names)
        if name in before:
            old = _shown(name, str(before[name]), names)
            shown = (
                phrase("{new}, amended from {old}", new=shown, old=old)
                if old
                else phrase("{new}, amended", new=shown)
            )
        if shown:
            rows.append((_CAPTIONS.get(name, name.replace("_", " ")), shown))
    return (*rows, *traded)


def _shown(name: str, value: str, names: PlaceNames) -> str:
    """A fact's value as people say it."""
    if not value:
        return ""
    if name in _RECORDS:
        return names.of_record(f"{_RECORDS[name]}/{value}")
    if name == "temperature":  # of a melter, in tenths
        return format_temperature(int(value))
    if name == "place":  # where unknown honey was found
        return names.of_record(value)
    if name in _DAYS:
        return say_day(value)
    return value


def _source(view: View, lot: Lot, first: str, names: PlaceNames) -> str:
    """Where a pull or purchase is from: where that was amended, as it is now and as it was."""
    now = [where for where, grams in sources_of(view, lot).items() if grams > 0 and where != first]
    old = names.of_record(first)
    new = ", ".join(names.of_record(where) for where in now)
    return phrase("{new}, amended from {old}", new=new, old=old) if new else old


def _in_reach_only(view: View, lot: Lot) -> tuple[LooseOrigin, ...]:
    edges = [edge for edge in view.origins(lot.id) if not edge.grams]
    lots = view.lots({edge.parent for edge in edges})
    return tuple(
        LooseOrigin(lots[edge.parent].code, edge.entry, edge.line, bool(edge.late))
        for edge in edges
    )
