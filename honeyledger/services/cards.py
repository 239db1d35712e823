"""The card of a lot: what it is, where, its readings and holds, and its history as sentences.

Each entry that touched the lot becomes one dated sentence, told from the lot's side: what came
of it, where it went, what was read or decided.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.moments import Moment
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_moisture,
    format_temperature,
    format_weight,
)
from honeyledger.ledger.effects import effects_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import PALLET, class_of, is_inside, is_source, key_of
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.services.holding import held_lots, hold_sentence, name_in, noun_of, reading
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back


@dataclass(frozen=True, slots=True)
class Told:
    """One dated sentence of a lot's history.

    Args:
        entry: the entry's number.
        by: who did it, by name; "" where nobody is named.
        reversed_by: the entry that reverses it, or 0.
    """

    entry: int
    happened: Moment
    kind: str
    sentence: str
    by: str
    reversed_by: int


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a lot stands now, in the house or with a customer."""

    place: str
    where: str
    grams: int
    pieces: int


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
    with the most first; `facts` are what its kind has besides (run, product, supplier's lot ...).
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
        holds=tuple(hold_sentence(view, hold) for hold in held_lots(view).get(lot.id, ())),
        pending=bool(pending and pending.value),
        label_void=bool(label and label.value == "void"),
        facts=_facts(view, lot, names),
        yards=trace.ancestors,
        reach_complete=trace.reach_complete,
        in_reach_only=_in_reach_only(view, lot),
        history=history_of(view, lot, entries, names, unit),
    )


def _facts(view: View, lot: Lot, names: PlaceNames) -> tuple[tuple[str, str], ...]:
    """What its kind has besides, in the words of the house; amended facts as amended."""
    found = dict(lot.attributes)
    for name in ("container", "filled_on", "product"):
        mark = view.mark(lot.code, name)
        if mark is not None:
            found[name] = mark.value
    subjects = {"yard": "yard", "supplier": "supplier", "container": "drum", "vessel": "vessel"}
    subjects |= {"line": "vessel", "product": "product"}
    rows = []
    for name, value in found.items():
        if name in ("segments", "candidates", "gross_g", "tare_g", "net_g", "margin", "source"):
            continue
        shown = str(value)
        if name in subjects and shown:
            shown = names.of_record(f"{subjects[name]}/{shown}")
        if name == "place":  # where unknown honey was found
            shown = names.of_record(shown)
        if shown:
            rows.append((name.replace("_", " "), shown))
    return tuple(rows)


def _in_reach_only(view: View, lot: Lot) -> tuple[LooseOrigin, ...]:
    edges = [edge for edge in view.origins(lot.id) if not edge.grams]
    lots = view.lots({edge.parent for edge in edges})
    return tuple(
        LooseOrigin(lots[edge.parent].code, edge.entry, edge.line, bool(edge.late))
        for edge in edges
    )


def history_of(
    view: View, lot: Lot, entries: Sequence[Entry], names: PlaceNames, unit: MassUnit
) -> tuple[Told, ...]:
    """One sentence an entry, by when it happened."""
    told = []
    for entry in entries:
        by = entry.act.operator
        told.append(
            Told(
                entry=entry.id,
                happened=entry.act.happened,
                kind=entry.kind,
                sentence=_Teller(view, lot, entry, names, unit).sentence(),
                by=name_in(view, f"operator/{by}", by) if by else "",
                reversed_by=view.reversed_by(entry.id),
            )
        )
    return tuple(sorted(told, key=lambda one: (one.happened.at_ms, one.entry)))


# How an entry is called when it is told; the others are called by their own verb.
CALLED = {
    "receive": "Received",
    "split": "Split",
    "join": "Joined",
    "count": "Counted again",
    "load": "Loaded",
    "fill": "Filled",
    "bung": "Closed",
    "reweigh": "Weighed again",
    "skim": "Skimmed",
    "purchase": "Bought in",
    "cappings": "Cappings weighed",
    "wash": "Washed",
    "close run": "Run closed",
    "change-over": "Change-over",
    "bottle": "Bottled",
    "dispatch": "Dispatched",
    "take back": "Taken back",
    "sample": "Sampled",
    "discard": "Discarded",
    "measure": "Measured",
    "narrow": "Reach narrowed",
    "amend": "Amended",
    "reverse": "Reversed",
}


class _Teller:
    """Tells one entry from the side of one lot."""

    def __init__(
        self, view: View, lot: Lot, entry: Entry, names: PlaceNames, unit: MassUnit
    ) -> None:
        self._view = view
        self._lot = lot
        self._entry = entry
        self._names = names
        self._unit = unit

    def sentence(self) -> str:
        """What happened, as one sentence."""
        entry = self._entry
        called = CALLED.get(entry.kind, entry.kind.capitalize())
        if entry.reverses:
            called = f"Entry {entry.reverses} reversed"
        parts = [*self._made(), *self._went(), *self._came_into_reach(), *self._marked()]
        text = f"{called}: {'; '.join(parts)}" if parts else called
        reason = self._said("reason")
        return f"{text} ({reason})." if reason else f"{text}."

    def _said(self, name: str) -> str:
        said = self._entry.facts.get("said", {})
        return str(said.get(name, "")) if isinstance(said, Mapping) else ""

    def _mass(self, grams: int) -> str:
        return format_weight(grams, self._unit)

    def _made(self) -> list[str]:
        """What the lot was made of, in the entry that made it."""
        if self._lot.made_by != self._entry.id:
            return []
        parents = [
            origin.parent
            for origin in self._entry.origins
            if origin.child == self._lot.id and origin.grams
        ]
        of = self._codes(parents) or self._source()
        return [f"{self._mass(self._lot.made_g)} of {of}" if of else self._mass(self._lot.made_g)]

    def _source(self) -> str:
        places = [
            posting.place
            for posting in self._entry.postings
            if posting.lot == self._lot.id and is_source(posting.place)
        ]
        return ", ".join(self._names[place] for place in places)

    def _codes(self, lots: Sequence[int]) -> str:
        """Codes of lots, the first few of many."""
        found = self._view.lots(set(lots))
        codes = [found[one].code for one in dict.fromkeys(lots)]
        return ", ".join(codes[:4]) + (f" and {len(codes) - 4} more" if len(codes) > 4 else "")

    def _went(self) -> list[str]:
        """Where grams of the lot came to and left, and what they went into."""
        mine = [row for row in self._entry.postings if row.lot == self._lot.id]
        inside = [row for row in mine if not is_source(row.place)]
        children = [
            f"{self._mass(origin.grams)} into {self._codes([origin.child])}"
            for origin in self._entry.origins
            if origin.parent == self._lot.id and origin.grams
        ]
        came = [(row.place, row.grams) for row in inside if row.grams > 0]
        left = [(row.place, -row.grams) for row in inside if row.grams < 0]
        parts = []
        if self._lot.made_by == self._entry.id:
            parts += [self._at(place) for place, _ in came]
        elif came and left:
            grams = sum(grams for _, grams in came)
            parts.append(f"{self._mass(grams)} from {self._places(left)} to {self._places(came)}")
        elif came:
            parts += [f"{self._mass(grams)} more {self._at(place)}" for place, grams in came]
        elif not children:
            parts += [f"{self._mass(grams)} less {self._at(place)}" for place, grams in left]
        if not inside and mine:
            given = [(row.place, -row.grams) for row in mine if row.grams < 0]
            back = [(row.place, row.grams) for row in mine if row.grams > 0]
            parts.append(f"from {self._places(given)}, not {self._places(back)}")
        return [*parts, *children, *self._pieces()]

    def _at(self, place: str) -> str:
        return f"{'on' if class_of(place) == PALLET else 'in'} {self._names[place]}"

    def _places(self, rows: Sequence[tuple[str, int]]) -> str:
        return ", ".join(self._names[place] for place, _ in rows)

    def _pieces(self) -> list[str]:
        counts = {}
        for place, lot, count in _rows(self._entry, "pieces"):
            if lot == self._lot.id and isinstance(count, int) and count > 0:
                counts[str(place)] = count
        noun = "jars" if self._lot.kind == "J" else "supers"
        return [f"{count} {noun}" for count in counts.values()]

    def _came_into_reach(self) -> list[str]:
        """Lots that came into its reach at 0 g, or into whose reach it came."""
        into = [o.parent for o in self._entry.origins if o.child == self._lot.id and not o.grams]
        of = [o.child for o in self._entry.origins if o.parent == self._lot.id and not o.grams]
        parts = [f"{self._codes(into)} in its reach"] if into else []
        return parts + ([f"in the reach of {self._codes(of)}"] if of else [])

    def _marked(self) -> list[str]:
        """Readings and decisions about the lot's code."""
        parts = []
        for subject, name, value in _rows(self._entry, "marks"):
            if subject == self._lot.code and (text := self._mark_text(str(name), value)):
                parts.append(text)
        return parts

    def _mark_text(self, name: str, value: Json) -> str:
        if isinstance(value, int):
            match name:
                case "moisture":
                    return f"moisture {format_moisture(value)}"
                case "colour":
                    return f"colour {format_colour(value)}"
                case "temperature":
                    return f"temperature {format_temperature(value)}"
                case "pending":
                    return "weight to follow" if value else ""
                case "weighed_g":
                    return f"net {self._mass(value)}"
            return ""
        if name == "label":
            return "its label is void"
        if name.startswith("note/") and isinstance(value, Mapping):
            return f"on dispatch note {key_of(name)}"
        if name.startswith("not from/"):
            return f"not from {self._names[name.partition('/')[2]]}"
        if name in ("container", "filled_on", "product"):
            return f"{name.replace('_', ' ')} is {value}"
        return ""


def _rows(entry: Entry, effect: str) -> list[tuple[Json, Json, Json]]:
    rows = effects_of(entry).get(effect, ())
    assert isinstance(rows, Sequence)
    found = []
    for row in rows:
        assert isinstance(row, Sequence)
        found.append((row[0], row[1], row[2]))
    return found
