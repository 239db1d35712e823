"""An entry as one sentence, told from the house's side: what was made, moved, read or decided."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeGuard

from honeyledger.domain.moments import Moment
from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.units import (
    MassUnit,
    format_colour,
    format_moisture,
    format_temperature,
    format_weight,
)
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.places import DIFFERENCE, PALLET, class_of, is_inside, is_source, key_of
from honeyledger.ledger.sources import counted_in
from honeyledger.ledger.verbs.registers import KINDS
from honeyledger.services.deed_words import CALLED, check_words, count_of, fact_words
from honeyledger.services.place_words import place_words, result_words
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.traced import TYPED_LATE_MS

_CALLED = CALLED | {
    "open run": phrase("Run opened"),
    "hold": phrase("Put on hold"),
    "clear": phrase("Cleared"),
    "release": phrase("Hold released"),
}
_FEW = 3
_KINDS = {
    "house": phrase("house"),
    "yard": phrase("yard"),
    "box": phrase("box"),
    "vessel": phrase("vessel"),
    "line": phrase("line"),
    "drum": phrase("drum"),
    "room": phrase("room"),
    "check": phrase("check"),
    "limit": phrase("limit"),
    "operator": phrase("operator"),
    "customer": phrase("customer"),
    "supplier": phrase("supplier"),
    "product": phrase("product"),
    "equipment": phrase("equipment"),
    "stock": phrase("label stock"),
    "shift": phrase("shift"),
    "order": phrase("order"),
}


def called(kind: str) -> str:
    """What a kind of entry is called, as the beginning of a sentence."""
    return _CALLED.get(kind, kind.capitalize())


_READ = {
    "moisture": phrase("moisture"),
    "colour": phrase("colour"),
    "temperature": phrase("temperature"),
}
_READINGS: Mapping[str, Callable[[int], str]] = {
    "moisture": format_moisture,
    "colour": format_colour,
    "temperature": format_temperature,
}


@dataclass(frozen=True, slots=True)
class EntryRow:
    """One entry as people read it.

    Args:
        code: the code it is mostly about, whose card can be opened; "" for none.
        by: who did it, by name; "" where nobody is named.
        reversed_by: the entry that reverses it, or 0; `reverses` the one it reverses.
        late: whether it was typed well after it happened.
    """

    entry: int
    happened: Moment
    recorded_ms: int
    kind: str
    sentence: str
    code: str
    by: str
    station: str
    reversed_by: int
    reverses: int
    late: bool


class EntryTeller:
    """Tells entries, with the registers read once for all of them."""

    def __init__(self, view: View, unit: MassUnit) -> None:
        self._view = view
        self._unit = unit
        self.names = PlaceNames(view)

    def row(self, entry: Entry) -> EntryRow:
        """One entry as people read it."""
        by = entry.act.operator
        lots = self._lots(entry)
        return EntryRow(
            entry=entry.id,
            happened=entry.act.happened,
            recorded_ms=entry.recorded_ms,
            kind=entry.kind,
            sentence=self._sentence(entry, lots),
            code=self._code(entry, lots),
            by=self.names.of_record(f"operator/{by}") if by else "",
            station=entry.act.station,
            reversed_by=self._view.reversed_by(entry.id),
            reverses=entry.reverses,
            late=entry.recorded_ms - entry.act.happened.at_ms > TYPED_LATE_MS,
        )

    def _lots(self, entry: Entry) -> list[Lot]:
        """The lots an entry is about, those it made first; a fill only where there is no other."""
        others = {posting.lot for posting in entry.postings} - {lot.id for lot in entry.lots}
        lots = [*entry.lots, *self._view.lots(others).values()] if others else list(entry.lots)
        return [lot for lot in lots if lot.kind != "T"] or lots

    def _code(self, entry: Entry, lots: Sequence[Lot]) -> str:
        if lots:
            return lots[0].code
        given = [str(row[0]) for row in rows_of(entry, "codes")]
        if given:
            return given[0]
        marks = rows_of(entry, "marks")
        named = [str(value["target"]) for _, _, value in marks if _is_hold(value)]
        named += [str(subject) for subject, _, _ in marks]
        codes = [one if "/" not in one else key_of(one) for one in named]
        return next((code for code in codes if self._view.is_given(code)), "")

    def _sentence(self, entry: Entry, lots: Sequence[Lot]) -> str:
        if entry.reverses:
            what: str = phrase("Entry {n} reversed", n=entry.reverses)
        elif entry.kind == "register":
            what = self._registered(entry)
        else:
            what = called(entry.kind)
        parts = self._drawn(entry) or [*self._made(entry), *self._moved(entry, lots)]
        parts += self._marked(entry, lots)
        if not parts and entry.kind != "register":
            parts = self._where(entry, lots)
        if parts and not entry.reverses:
            what = joined((what, joined(parts, "; ")), ": ")
        reason = _said(entry, "reason")
        return joined((what, f" ({reason})." if reason else "."), "")

    def _registered(self, entry: Entry) -> str:
        """Which record was made or changed."""
        what = _said(entry, "what")
        said = entry.facts.get("said")
        record = said.get("record") if isinstance(said, Mapping) else None
        name = str(record.get("name", "")) if isinstance(record, Mapping) else ""
        is_new = bool(rows_of(entry, "codes")) or not (KINDS.get(what) or _said(entry, "key"))
        codes = [str(row[0]) for row in rows_of(entry, "codes")]
        done = phrase("Registered") if is_new else phrase("Record changed")
        about = joined((_KINDS.get(what, what), name), " ") if name else _KINDS.get(what, what)
        words = joined((done, about), ": ")
        return joined((words, codes[0])) if codes else words

    def _made(self, entry: Entry) -> list[str]:
        """What was made, by its codes; tank fills are made by the way."""
        made = [lot.code for lot in entry.lots if lot.kind != "T"]
        return [_few(made)] if made else []

    def _drawn(self, entry: Entry) -> list[str]:
        """Drums, barrels and samples that were filled: how much, from which vessel, into what."""
        parts = []
        for lot in entry.lots:
            parents = [row.parent for row in entry.origins if row.child == lot.id and row.grams]
            fills = [one for one in self._parents(entry, parents) if one.kind == "T"]
            if lot.kind not in "DWX" or not fills:
                continue
            vessels = [f"vessel/{one.attributes.get('vessel', '')}" for one in fills]
            into = [row.place for row in entry.postings if row.lot == lot.id and row.grams > 0]
            mass = format_weight(lot.made_g, self._unit)
            source = _few([self.names[one] for one in vessels])
            words: str = phrase(
                "{code}, {mass} from {source}", code=lot.code, mass=mass, source=source
            )
            inside = [where for where in into if is_inside(where)]
            if inside:
                words = phrase("{what} in {place}", what=words, place=self._called(inside))
            parts.append(words)
        return parts

    def _parents(self, entry: Entry, parents: Sequence[int]) -> list[Lot]:
        """Lots by id, those the entry itself makes included."""
        own = {lot.id: lot for lot in entry.lots}
        others = self._view.lots({one for one in parents if one not in own})
        return [own[one] if one in own else others[one] for one in parents]

    def _where(self, entry: Entry, lots: Sequence[Lot]) -> list[str]:
        """What an entry without grams is about: vessels, or its code."""
        touched = [place_words(self.names, str(row[0])) for row in rows_of(entry, "touched")]
        code = self._code(entry, lots)
        return [_few(touched)] if touched else [code] if code else []

    def _moved(self, entry: Entry, lots: Sequence[Lot]) -> list[str]:
        """How much went from where to where, all lots taken together."""
        net: dict[str, int] = {}
        for posting in entry.postings:
            net[posting.place] = net.get(posting.place, 0) + posting.grams
        came = _but_for_the_scale({where: grams for where, grams in net.items() if grams > 0})
        left = _but_for_the_scale({where: grams for where, grams in net.items() if grams < 0})
        if not came:
            return []
        gone = {where: grams for where, grams in came.items() if not is_inside(where)}
        if entry.kind == "skim" and gone != came:
            # Honey of a line came over by the way, into the vessel that was skimmed.
            came, left = (
                gone,
                {where: -grams for where, grams in came.items() if where not in gone},
            )
        what = format_weight(sum(came.values()), self._unit)
        if left and all(is_source(where) for where in (*came, *left)):
            # An amendment: a source gives what another one had given.
            code = self._code(entry, lots)
            return [
                phrase(
                    "{code}, {mass} of {right}, not {wrong}",
                    code=code,
                    mass=what,
                    right=self._called(left),
                    wrong=self._called(came),
                )
            ]
        pieces = self._pieces(entry, lots)
        went = [joined((pieces, what)) if pieces else what]
        if left:
            source = self._called(left)
            is_made = all(map(is_source, left))
            went.append(phrase("of {place}", place=source) if is_made else _from(source))
        to = self._called(came)
        is_pallet = all(class_of(where) == PALLET for where in came)
        if entry.kind != "skim":
            went.append(
                phrase("on {place}", place=to) if is_pallet else phrase("to {place}", place=to)
            )
        return [joined(went, " ")]

    def _called(self, places: Collection[str]) -> str:
        return _few([place_words(self.names, where) for where in places])

    def _pieces(self, entry: Entry, lots: Sequence[Lot]) -> str:
        """Supers or jars that came somewhere."""
        kinds = {lot.id: lot for lot in lots}
        counts: dict[str, int] = {}
        for _, lot, count in rows_of(entry, "pieces"):
            known = kinds.get(lot) if isinstance(lot, int) else None
            if known is not None and isinstance(count, int) and count > 0:
                noun = counted_in(known)
                counts[noun] = counts.get(noun, 0) + count
        return joined([count_of(count, noun) for noun, count in counts.items()]) if counts else ""

    def _marked(self, entry: Entry, lots: Sequence[Lot]) -> list[str]:
        """What was read of a lot, or decided about it."""
        parts = []
        own = self._code(entry, lots)
        for subject, name, value in rows_of(entry, "marks"):
            text = self._mark_text(str(name), value)
            if entry.kind == "check" and isinstance(value, Mapping):
                about = str(subject)
                is_piece = class_of(about) != "check"
                text = check_words(self.names.of_record(about) if is_piece else "", value)
            if text:
                about = str(subject)
                is_said = "/" in about or (about == own and bool(entry.lots))
                parts.append(text if is_said else joined((about, text)))
        return parts[:_FEW]

    def _mark_text(self, name: str, value: Json) -> str:
        if name in _READINGS and isinstance(value, int):
            return joined((_READ[name], _READINGS[name](value)), " ")
        if text := result_words(name, value):
            return text
        if name == "hold" and _is_hold(value):
            target = str(value.get("target", ""))
            # A hold on what used a piece of equipment goes by the piece's code.
            return self.names.of_record(target if "/" in target else f"equipment/{target}")
        if name.startswith("cleared/"):
            return self._view.lot(int(key_of(name))).code
        return fact_words(self.names, name, value)


def _from(place: str) -> str:
    return phrase("from {place}", place=place)


def _said(entry: Entry, name: str) -> str:
    said = entry.facts.get("said", {})
    return str(said.get(name, "")) if isinstance(said, Mapping) else ""


def _is_hold(value: Json) -> TypeGuard[Mapping[str, Json]]:
    return isinstance(value, Mapping) and "target" in value


def _but_for_the_scale(net: Mapping[str, int]) -> dict[str, int]:
    """Places without weighing difference, unless it is all there is."""
    return {where: grams for where, grams in net.items() if where != DIFFERENCE} or dict(net)


def _few(words: Sequence[str]) -> str:
    """The first few of many."""
    unique = list(dict.fromkeys(words))
    if len(unique) <= _FEW:
        return joined(unique)
    first = joined(unique[: _FEW - 1])
    return phrase("{first} and {n} more", first=first, n=len(unique) - _FEW + 1)
