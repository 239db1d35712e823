"""The history of a lot as sentences: each entry that touched it becomes one, dated.

It is told from the lot's side: what came of it, where it went, what was read or decided.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from honeyledger.domain.moments import Moment, day_of
from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.units import (
    MassUnit,
    format_weight,
)
from honeyledger.ledger.effects import effects_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.packs import PACKED
from honeyledger.ledger.places import (
    DIFFERENCE,
    DISCARDED,
    DRUM,
    EVAPORATED,
    class_of,
    is_inside,
    is_source,
    key_of,
)
from honeyledger.ledger.sources import counted_in
from honeyledger.services.deed_words import (
    CALLED,
    complaint_words,
    count_of,
    deed_words,
    fact_words,
    listed,
    sent_words,
)
from honeyledger.services.holding import name_in
from honeyledger.services.place_words import (
    at_words,
    into_words,
    place_words,
    reading_words,
    result_words,
)
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.trade_words import mark_words

_Rows: TypeAlias = Sequence[tuple[str, int]]
_MOST = 4  # codes in one sentence
OF_A_RUN = ("load", "fill", "bung", "cappings", "skim", "wet out")
GONE_WORDS = {DISCARDED: phrase("thrown away")}


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
    """One sentence an entry, by when it happened; a drum's part by part where it stood open."""
    rows = [(entry, _Teller(view, lot, entry, names, unit).sentence()) for entry in entries]
    for entry, place in _parts_filled(view, lot, entries):
        rows.append((entry, _Teller(view, lot, entry, names, unit).part_filled(place)))
    told = []
    for entry, sentence in rows:
        by = entry.act.operator
        told.append(
            Told(
                entry=entry.id,
                happened=entry.act.happened,
                kind=entry.kind,
                sentence=sentence,
                by=name_in(view, f"operator/{by}", by) if by else "",
                reversed_by=view.reversed_by(entry.id),
            )
        )
    return tuple(sorted(told, key=lambda one: (one.happened.at_ms, one.entry)))


def _parts_filled(view: View, lot: Lot, entries: Sequence[Entry]) -> list[tuple[Entry, str]]:
    """The entries that filled a drum while it stood open, with its place: they made no lot yet."""
    made = next((entry for entry in entries if entry.id == lot.made_by), None)
    if made is None or lot.kind != "D":
        return []
    stood = {
        (row.lot, row.place)
        for row in made.postings
        if row.grams < 0 and class_of(row.place) == DRUM and row.lot != lot.id
    }
    found: dict[int, tuple[Entry, str]] = {}
    for parent, place in sorted(stood):
        for entry in view.history(parent):
            came = any(
                row.lot == parent and row.place == place and row.grams > 0
                for row in entry.postings
            )
            is_part = entry.kind == "fill" and entry.id < made.id and not _said(entry, "bung")
            if came and is_part and not view.reversed_by(entry.id):
                found[entry.id] = (entry, place)
    return list(found.values())


def _said(entry: Entry, name: str) -> int:
    said = entry.facts.get("said", {})
    return int(str(said.get(name, 0))) if isinstance(said, Mapping) else 0


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
            called = phrase("Scraped back")
        if entry.reverses:
            called = phrase("Entry {n} reversed", n=entry.reverses)
        parts = [*self._made(), *self._went(), *self._came_into_reach(), *self._marked()]
        if entry.act.run and entry.kind in OF_A_RUN:
            parts.append(phrase("in run {run}", run=entry.act.run))
        text = joined((called, joined(parts, "; ")), ": ") if parts else called
        reason = self._said("reason")
        return joined((text, f" ({reason})." if reason else "."), "")

    def part_filled(self, place: str) -> str:
        """What an entry filled into a drum that was closed only later, told from the drum."""
        rows = [row for row in self._entry.postings if row.place == place and row.grams > 0]
        grams = sum(row.grams for row in rows)
        of = self._codes([row.lot for row in rows])
        filled = phrase(
            "Filled: {mass} of {of} into {into}, which stayed open",
            mass=self._mass(grams),
            of=of,
            into=place_words(self._names, place),
        )
        run = self._entry.act.run
        words = joined((filled, phrase("in run {run}", run=run)), "; ") if run else filled
        return joined((words, "."), "")

    def _said(self, name: str) -> str:
        said = self._entry.facts.get("said", {})
        return str(said.get(name, "")) if isinstance(said, Mapping) else ""

    def _mass(self, grams: int) -> str:
        return format_weight(grams, self._unit)

    def _made(self) -> list[str]:
        """What the lot was made of and where to, in the entry that made it."""
        lot = self._lot
        if lot.made_by != self._entry.id:
            return []
        parents = [
            (origin.parent, origin.grams)
            for origin in self._entry.origins
            if origin.child == lot.id and origin.grams
        ]
        came = [row for row in self._entry.postings if row.lot == lot.id and row.grams > 0]
        here = [
            row.place for row in came if is_inside(row.place) and key_of(row.place) != lot.code
        ]
        words = self._mass(lot.made_g)
        if of := self._parts_of(parents):
            words = phrase("{mass} of {of}", mass=words, of=of)
        elif source := self._source():
            words = phrase("{mass} from {source}", mass=words, source=source)
        if here:
            words = joined((words, into_words(self._names, here[0])), " ")
        gone = [row for row in came if row.place in GONE_WORDS]
        return [
            words,
            *(joined((self._mass(row.grams), GONE_WORDS[row.place]), " ") for row in gone),
        ]

    def _parts_of(self, parents: Sequence[tuple[int, int]]) -> str:
        """What it is made of: of several lots, how much of each."""
        lots = self._view.lots({parent for parent, _ in parents})
        if len(parents) == 1:
            return lots[parents[0][0]].code
        rows = [f"{lots[one].code} ({self._mass(grams)})" for one, grams in parents[:_MOST]]
        more = len(parents) - _MOST
        return listed([*rows, phrase("{n} more", n=more)] if more > 0 else rows)

    def _source(self) -> str:
        places = [
            posting.place
            for posting in self._entry.postings
            if posting.lot == self._lot.id and is_source(posting.place)
        ]
        return listed([self._names[place] for place in places])

    def _codes(self, lots: Sequence[int]) -> str:
        """Codes of lots, the first few of many."""
        found = self._view.lots(set(lots))
        codes = [found[one].code for one in dict.fromkeys(lots)]
        more = len(codes) - _MOST
        return listed([*codes[:_MOST], phrase("{n} more", n=more)] if more > 0 else codes)

    def _went(self) -> list[str]:
        """Where grams of the lot came to and left, and what they went into."""
        mine = [row for row in self._entry.postings if row.lot == self._lot.id]
        inside = [row for row in mine if not is_source(row.place)]
        children: list[str] = [
            phrase(
                "{mass} into {code}",
                mass=self._mass(origin.grams),
                code=self._codes([origin.child]),
            )
            for origin in self._entry.origins
            if origin.parent == self._lot.id and origin.grams
        ]
        came = [(row.place, row.grams) for row in inside if row.grams > 0]
        left = [(row.place, -row.grams) for row in inside if row.grams < 0]
        if self._entry.kind == "send back":
            came = [(row.place, row.grams) for row in mine if row.grams > 0]
        parts = []
        pieces = self._pieces()
        if self._entry.kind == "buyer's weight":
            return self._off(came, left)
        if self._lot.made_by == self._entry.id:
            parts += pieces
        elif came and left:
            parts += [joined([*pieces, self._from_to(came, left)])]
        elif came:
            found = [(self._mass(grams), at_words(self._names, place)) for place, grams in came]
            parts += [phrase("{mass} more {at}", mass=mass, at=at) for mass, at in found]
            parts += pieces
        elif not children:
            found = [(self._mass(grams), at_words(self._names, place)) for place, grams in left]
            parts += [phrase("{mass} less {at}", mass=mass, at=at) for mass, at in found]
            parts += pieces
        if not inside and mine:
            given = [(row.place, -row.grams) for row in mine if row.grams < 0]
            back = [(row.place, row.grams) for row in mine if row.grams > 0]
            given_at, back_at = self._places(given), self._places(back)
            parts.append(phrase("from {right}, not {wrong}", right=given_at, wrong=back_at))
        return [*parts, *children]

    def _from_to(self, came: _Rows, left: _Rows) -> str:
        """From where to where; what the scale says, what is thrown away and what dries apart."""
        if off := self._off(came, left):
            return off[0]
        mass = self._mass(sum(grams for _, grams in came))
        ends = {place for place, _ in came}
        if ends == {EVAPORATED}:
            return phrase("{mass} of water out of {place}", mass=mass, place=self._places(left))
        if {place for place, _ in left} == {EVAPORATED}:
            return phrase("{mass} of water back into {place}", mass=mass, place=self._places(came))
        words = phrase("{mass} from {source}", mass=mass, source=self._places(left))
        if ends == {DISCARDED}:
            if self._entry.kind in ("discard", "skim"):
                return words
            return phrase("{what} thrown away", what=words)
        open_still = self._entry.kind == "fill" and self._said("bung") == "0"
        to = phrase("{what} to {place}", what=words, place=self._places(came))
        if open_still and class_of(came[0][0]) == DRUM:
            return phrase("{what}, which stayed open", what=to)
        return to

    def _off(self, came: _Rows, left: _Rows) -> list[str]:
        """What the scale found more or less than the books, where that is all that happened."""
        if self._entry.reverses:
            return []
        if [place for place, _ in left] == [DIFFERENCE]:
            mass, at = self._mass(left[0][1]), at_words(self._names, came[0][0])
            return [phrase("{mass} more {at} than the books saw", mass=mass, at=at)]
        if [place for place, _ in came] == [DIFFERENCE]:
            mass, at = self._mass(came[0][1]), at_words(self._names, left[0][0])
            return [phrase("{mass} less {at} than the books saw", mass=mass, at=at)]
        return []

    def _places(self, rows: _Rows) -> str:
        return listed([place_words(self._names, place) for place, _ in rows])

    def _pieces(self) -> list[str]:
        """Supers or jars that came somewhere, or that were scraped back."""
        if self._entry.kind == "set aside":
            return []  # its own words count them
        counts: dict[str, int] = {}
        for place, lot, count in _rows(self._entry, "pieces"):
            if lot == self._lot.id and isinstance(count, int) and count > 0:
                counts[str(place)] = count
        if jars := self._said("jars") if self._entry.kind == "fill" else "":
            counts["scraped"] = int(jars)
        return [count_of(count, counted_in(self._lot)) for count in counts.values()]

    def _came_into_reach(self) -> list[str]:
        """Lots that came into its reach at 0 g, or into whose reach it came."""
        into = [o.parent for o in self._entry.origins if o.child == self._lot.id and not o.grams]
        of = [o.child for o in self._entry.origins if o.parent == self._lot.id and not o.grams]
        parts: list[str] = []
        if into:
            parts.append(phrase("{codes} in its reach", codes=self._codes(into)))
        if of:
            parts.append(phrase("in the reach of {codes}", codes=self._codes(of)))
        return parts

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
        shown = ", ".join(codes)
        if len(codes) > 3:
            shown = phrase("{first} to {last}", first=codes[0], last=codes[-1])
        count = count_of(sum(cases.values()), counted_in(self._lot))
        return [phrase("{what} in {place}", what=count, place=shown)]

    def _mark_text(self, name: str, value: Json) -> str:
        if text := result_words(name, value):
            return text
        if isinstance(value, int):
            return reading_words(name, value, self._unit)
        if name == "label":
            return phrase("its label is void")
        if text := mark_words(self._view, name, value, self._names, self._unit):
            return text
        if isinstance(value, Mapping):
            if name.startswith("note/"):
                return sent_words(key_of(name), self._on_note(key_of(name)))
            if name.startswith("complaint/"):
                return complaint_words(value, day_of(self._entry.act.happened).isoformat())
            if text := deed_words(self._view, name, value, self._names, self._unit):
                return text
        if name.startswith("not from/"):
            return phrase("not from {place}", place=self._names[name.partition("/")[2]])
        return fact_words(self._names, name, value)

    def _on_note(self, note: str) -> Mapping[str, Json]:
        """What was told of a dispatch note, in the entry that wrote it."""
        for subject, _, value in _rows(self._entry, "marks"):
            if subject == f"note/{note}" and isinstance(value, Mapping):
                return value
        return {}


def _rows(entry: Entry, effect: str) -> list[tuple[Json, Json, Json]]:
    rows = effects_of(entry).get(effect, ())
    assert isinstance(rows, Sequence)
    found = []
    for row in rows:
        assert isinstance(row, Sequence)
        found.append((row[0], row[1], row[2]))
    return found
