"""The history of a lot as sentences: each entry that touched it becomes one, dated.

It is told from the lot's side: what came of it, where it went, what was read or decided.
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
from honeyledger.ledger.packs import PACKED
from honeyledger.ledger.places import PALLET, class_of, is_source, key_of
from honeyledger.ledger.sources import counted_in
from honeyledger.ledger.title import party_name
from honeyledger.services.holding import name_in
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.trade_words import mark_words


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
    "dry": "Dried",
    "melt": "Melted",
    "chunk": "Chunk honey",
    "blend": "Blended",
    "warm": "Warmed",
    "supply": "Taken in",
    "purchase": "Bought in",
    "cappings": "Cappings weighed",
    "wash": "Washed",
    "close run": "Run closed",
    "change-over": "Change-over",
    "bottle": "Bottled",
    "dispatch": "Dispatched",
    "take back": "Taken back",
    "pack": "Packed",
    "unpack": "Unpacked",
    "label": "Labelled",
    "settle": "Settled",
    "approve": "Judged",
    "buyer's weight": "Weighed by the buyer",
    "transfer title": "Title transferred",
    "send back": "Sent back",
    "found drum": "Found",
    "move": "Moved",
    "stocktake": "Stocktake",
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
        if entry.kind == "fill" and self._said("jars"):
            called = "Scraped back"
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
        if self._entry.kind == "send back":
            came = [(row.place, row.grams) for row in mine if row.grams > 0]
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
        counts: dict[str, int] = {}
        if self._entry.kind == "set aside":
            return []  # its own words count them
        for place, lot, count in _rows(self._entry, "pieces"):
            if lot == self._lot.id and isinstance(count, int) and count > 0:
                counts[str(place)] = count
        return [f"{count} {counted_in(self._lot)}" for count in counts.values()]

    def _came_into_reach(self) -> list[str]:
        """Lots that came into its reach at 0 g, or into whose reach it came."""
        into = [o.parent for o in self._entry.origins if o.child == self._lot.id and not o.grams]
        of = [o.child for o in self._entry.origins if o.parent == self._lot.id and not o.grams]
        parts = [f"{self._codes(into)} in its reach"] if into else []
        return parts + ([f"in the reach of {self._codes(of)}"] if of else [])

    def _marked(self) -> list[str]:
        """Readings and decisions about the lot's code."""
        parts = self._packed()
        for subject, name, value in _rows(self._entry, "marks"):
            if subject == self._lot.code and (text := self._mark_text(str(name), value)):
                parts.append(text)
        return parts

    def _packed(self) -> list[str]:
        """How many pieces went into which cases; of many cases, the first and the last."""
        cases = {
            str(name).removeprefix(PACKED): int(str(value))
            for subject, name, value in _rows(self._entry, "marks")
            if subject == self._lot.code and str(name).startswith(PACKED) and value
        }
        if not cases:
            return []
        codes = list(cases)
        shown = ", ".join(codes) if len(codes) < 4 else f"{codes[0]} to {codes[-1]}"
        return [f"{sum(cases.values())} {counted_in(self._lot)} in {shown}"]

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
        if text := mark_words(self._view, name, value, self._names, self._unit):
            return text
        if isinstance(value, Mapping) and (text := self._worked(name, value)):
            return text
        if name.startswith("note/") and isinstance(value, Mapping):
            return f"on dispatch note {key_of(name)}"
        if name.startswith("not from/"):
            return f"not from {self._names[name.partition('/')[2]]}"
        if name in ("container", "filled_on", "product"):
            return f"{name.replace('_', ' ')} is {value}"
        return ""

    def _worked(self, name: str, value: Mapping[str, Json]) -> str:
        """What was done to the lot as it stood: dried, warmed, blended, set aside."""
        match name.partition("/")[0]:
            case "dried":
                room = value.get("room")
                return _dried(value, self._names.of_record(f"room/{room}") if room else "")
            case "set aside":
                return _set_aside(value)
            case "heated":
                # By the heat log it says so itself.
                return "" if value.get("minutes") else f"heated{_to(value)}"
            case "heat":
                why = str(value.get("why", ""))
                return f"{value['minutes']} min, up{_to(value)}{f' ({why})' if why else ''}"
            case "labelled":
                torn = value.get("torn")
                more = f", {torn} labels torn" if torn else ""
                product = self._names.of_record(f"product/{value['product']}")
                return f"{value['jars']} jars as {product}{more}"
            case "complaint":
                answer = value.get("answer")
                return f"{value['what']}{f'; answered: {answer}' if answer else ''}"
            case "owner":
                document = str(value.get("document", ""))
                owner = party_name(self._view, str(value["owner"]))
                return f"belongs to {owner}{f' ({document})' if document else ''}"
            case "blended":
                planned = value.get("planned_g")
                return f"{self._mass(planned)} planned" if isinstance(planned, int) else ""
        return ""


def _to(value: Mapping[str, Json]) -> str:
    degrees = value.get("temperature")
    return f" to {format_temperature(degrees)}" if isinstance(degrees, int) else ""


def _dried(value: Mapping[str, Json], room: str) -> str:
    """The moisture before, how long it stood and where."""
    before, hours = value["before"], value.get("hours")
    assert isinstance(before, int)
    stood = " ".join([*([f"{hours} h"] if hours else []), *([f"in {room}"] if room else [])])
    return f"moisture {format_moisture(before)} before{f'; {stood}' if stood else ''}"


def _set_aside(value: Mapping[str, Json]) -> str:
    """Supers or frames, why, and what was said besides."""
    counts = [
        f"{value[one]} {one if value[one] != 1 else one[:-1]}"
        for one in ("supers", "frames")
        if value.get(one)
    ]
    why = {"brood": "with brood", "set": "set in the comb"}.get(str(value["why"]), value["why"])
    end = {"stays": "carried over", "bees": "given to bees"}.get(str(value["to"]), "scrapped")
    note = str(value.get("note", ""))
    return ", ".join([*counts, str(why), end, *([note] if note else [])])


def _rows(entry: Entry, effect: str) -> list[tuple[Json, Json, Json]]:
    rows = effects_of(entry).get(effect, ())
    assert isinstance(rows, Sequence)
    found = []
    for row in rows:
        assert isinstance(row, Sequence)
        found.append((row[0], row[1], row[2]))
    return found
