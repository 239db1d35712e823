"""What is on hand and where, and where a lot's grams came from and went: rows that add up.

Places get the names people use for them; one reading of the registers serves a whole answer.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from honeyledger.domain.codes import LOT_LETTERS
from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import (
    BARREL,
    CUSTOMER,
    DIFFERENCE,
    DISCARDED,
    DRUM,
    EVAPORATED,
    FED,
    FILLING,
    GATE,
    JARS,
    PALLET,
    ROOM,
    SAMPLED,
    STORE,
    SUPPLIER,
    UNKNOWN,
    VESSEL,
    YARD,
    class_of,
    is_inside,
    is_source,
    key_of,
    place,
)
from honeyledger.ledger.sources import is_cappings
from honeyledger.services.holding import NOT_KNOWN, gate_name, held_lots, noun_of
from honeyledger.services.store import View

CAPPINGS = "cappings"
ONLY_ONE = {
    JARS: phrase("jar store"),
    STORE: phrase("store"),
    UNKNOWN: NOT_KNOWN,
    DISCARDED: phrase("discarded"),
    SAMPLED: phrase("samples"),
    EVAPORATED: phrase("evaporated"),
    FED: phrase("fed to bees"),
    DIFFERENCE: phrase("weighing difference"),
}
CAME_FROM = {YARD: "yards", SUPPLIER: "suppliers", UNKNOWN: NOT_KNOWN}
STANDS_AT = {
    PALLET: "pallets",
    ROOM: "rooms",
    VESSEL: "vessels",
    DRUM: "drums, totes and pails",
    BARREL: "barrels",
    FILLING: "bottlings that are open",
    JARS: ONLY_ONE[JARS],
    STORE: ONLY_ONE[STORE],
    CUSTOMER: "customers",
    GATE: "farm gate",
    DISCARDED: ONLY_ONE[DISCARDED],
    SAMPLED: ONLY_ONE[SAMPLED],
    EVAPORATED: ONLY_ONE[EVAPORATED],
    FED: ONLY_ONE[FED],
    DIFFERENCE: ONLY_ONE[DIFFERENCE],
}
"""Every class of place there is, so that nothing can be left out of a balance."""
CLASSES = (PALLET, VESSEL, DRUM, BARREL, FILLING, JARS, STORE)
UNKNOWN_LETTER = Sentence(
    "unknown-letter", "{letter} is no kind of lot. There are: {known}; name them by letter."
)
UNKNOWN_CLASS = Sentence(
    "unknown-place-class", "{name} is no kind of place in the house. Say one of: {known}."
)
WORDS = {
    PALLET: phrase("pallet {name}", name="{name}"),
    DRUM: phrase("drum {name}", name="{name}"),
    BARREL: phrase("barrel {name}", name="{name}"),
    FILLING: phrase("bottling {name}", name="{name}"),
}


class PlaceNames:
    """The names of places as people say them, from one reading of the registers."""

    def __init__(self, view: View) -> None:
        self._records: Mapping[str, Mapping[str, Json]] = {
            mark.subject: mark.value
            for mark in view.marked("record")
            if isinstance(mark.value, Mapping)
        }

    def __getitem__(self, where: str) -> str:
        """A place's name: a register's, the code for pallets and drums, words for the rest."""
        kind, key = class_of(where), key_of(where)
        if where in ONLY_ONE:
            return ONLY_ONE[where]
        if kind == GATE:
            return gate_name(key)
        if kind == FED and key:
            return phrase("bees of {yard}", yard=self.of_record(place(YARD, key)))
        name = self.of_record(where)
        return Phrase(WORDS[kind].template, {"name": name}) if kind in WORDS else name

    def of_record(self, subject: str) -> str:
        """The name in a record, else its number, else its code or key."""
        record = self._records.get(subject, {})
        return str(record.get("name", "") or record.get("number", "")) or key_of(subject)


@dataclass(frozen=True, slots=True)
class StockRow:
    """A lot at one place in the house: grams, and supers or jars where it is counted so.

    Args:
        kind: its letter; `noun` is what people call it.
        place: the ledger's name of the place; `where` is what people call it.
        held: whether a hold reaches it.
    """

    code: str
    kind: str
    noun: str
    place: str
    where: str
    grams: int
    pieces: int
    held: bool


@dataclass(frozen=True, slots=True)
class Part:
    """One line of a balance: a place or a lot, with grams and pieces."""

    code: str
    name: str
    grams: int
    pieces: int = 0


@dataclass(frozen=True, slots=True)
class _Balance:
    """What came, and the places where it stands."""

    came: tuple[Part, ...]
    places: tuple[Part, ...]

    @property
    def came_g(self) -> int:
        """All that came, grams."""
        return sum(part.grams for part in self.came)

    @property
    def on_hand_g(self) -> int:
        """What of it is in the house, grams."""
        return sum(part.grams for part in self.places if is_inside(part.code))


@dataclass(frozen=True, slots=True)
class LotBalance(_Balance):
    """Where a lot's grams came from, where they stand now and what they went into.

    What came is what stands at places and what went into later lots: `gap_g` is 0.
    """

    code: str
    kind: str
    made_g: int
    later: tuple[Part, ...]

    @property
    def gap_g(self) -> int:
        """What is not accounted for, grams."""
        return self.came_g - sum(part.grams for part in (*self.places, *self.later))


def stock_on_hand(
    view: View, kinds: str = "", places: Collection[str] = ()
) -> tuple[StockRow, ...]:
    """Every lot on hand, by place and lot.

    Args:
        kinds: letters of the lots wanted, all where empty.
        places: classes of the places wanted, all where empty.

    Raises:
        Refusal: there is no such letter or class, so that nothing found is not taken for none.
    """
    for letter in kinds:
        if letter not in LOT_LETTERS:
            known = ", ".join(f"{one} {noun}" for one, noun in LOT_LETTERS.items())
            raise Refusal(UNKNOWN_LETTER, field="kind", letter=letter, known=known)
    for one in places:
        if one not in CLASSES:
            raise Refusal(UNKNOWN_CLASS, field="place", name=one, known=", ".join(CLASSES))
    names = PlaceNames(view)
    held = held_lots(view)
    return tuple(
        StockRow(
            code=row.lot.code,
            kind=row.lot.kind,
            noun=noun_of(view, row.lot),
            place=row.place,
            where=names[row.place],
            grams=row.grams,
            pieces=row.pieces,
            held=row.lot.id in held,
        )
        for row in view.on_hand(places)
        if not kinds or row.lot.kind in kinds
    )


def lot_balance(view: View, text: str) -> LotBalance:
    """The balance of the lot a code names.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    lot = find_lot(view, text, field="code", reversed_too=True)
    names = PlaceNames(view)
    holdings = view.holdings(lot.id)
    made_from_nothing, into_cappings = cappings_of(view, lot)
    places = []
    for row in holdings:
        grams = row.grams
        if row.place == DIFFERENCE:
            grams -= made_from_nothing
        if not is_source(row.place) and (grams or row.pieces):
            places.append(Part(row.place, names[row.place], grams, row.pieces))
    came = (
        [
            Part(row.place, names[row.place], -row.grams)
            for row in holdings
            if is_source(row.place) and row.grams
        ]
        if lot.kind in "SPA"
        else _origins(view, lot)
    )
    return LotBalance(
        code=lot.code,
        kind=lot.kind,
        made_g=lot.made_g,
        came=tuple(came),
        places=tuple(places),
        later=(*_children(view, lot), *into_cappings),
    )


@dataclass(frozen=True, slots=True)
class HouseBalance(_Balance):
    """All honey the ledger ever saw: what came, by where from, and where it is now.

    Args:
        came: from yards, suppliers and sources nobody knows.
        places: in the house and out of it, by class of place; `gap_g` is 0.
    """

    @property
    def gap_g(self) -> int:
        """What is not accounted for, grams."""
        return self.came_g - sum(part.grams for part in self.places)


def house_balance(view: View) -> HouseBalance:
    """The balance of everything since the ledger began, by class of place."""
    sums = {
        name: sum(row.grams for row in view.held_at(name)) for name in (*CAME_FROM, *STANDS_AT)
    }
    return HouseBalance(
        came=tuple(Part(name, words, -sums[name]) for name, words in CAME_FROM.items()),
        places=tuple(Part(name, words, sums[name]) for name, words in STANDS_AT.items()),
    )


def _origins(view: View, lot: Lot) -> list[Part]:
    edges = [edge for edge in view.origins(lot.id) if edge.grams]
    lots = view.lots({edge.parent for edge in edges})
    return [Part(lots[edge.parent].code, "", edge.grams) for edge in edges]


def _children(view: View, lot: Lot) -> list[Part]:
    """Later lots made of this one. Cappings name pulls as origins, but leave the tank fill."""
    edges = [edge for edge in view.descent([lot.id]) if edge.parent == lot.id and edge.grams]
    lots = view.lots({edge.child for edge in edges})
    sums: dict[str, int] = {}
    for edge in edges:
        child = lots[edge.child]
        if not is_cappings(child):
            sums[child.code] = sums.get(child.code, 0) + edge.grams
    return [Part(code, "", grams) for code, grams in sums.items()]


def cappings_of(view: View, lot: Lot) -> tuple[int, list[Part]]:
    """What of a barrel the books did not see in the line, and what of a fill went into barrels."""
    from_nothing = 0
    into = []
    for entry in view.history(lot.id):
        if entry.kind != CAPPINGS or view.reversed_by(entry.id):
            continue
        if lot.made_by == entry.id and lot.kind == "W":
            from_nothing += sum(
                row.grams for row in entry.postings if (row.lot, row.place) == (lot.id, DIFFERENCE)
            )
            continue
        grams = -sum(row.grams for row in entry.postings if row.lot == lot.id)
        if lot.made_by == entry.id:
            grams += lot.made_g
        if lot.kind == "T" and grams:
            into += [Part(one.code, "", grams) for one in entry.lots if one.kind == "W"]
    return from_nothing, into
