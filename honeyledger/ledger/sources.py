"""Where honey is taken from, and what a weighing says: shared by every verb that weighs."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import code_in, find_lot, find_named, find_record
from honeyledger.ledger.places import (
    BARREL,
    CUSTOMER,
    DISCARDED,
    DRUM,
    GATE,
    JARS,
    PALLET,
    SUPPLIER,
    UNKNOWN,
    VESSEL,
    YARD,
    class_of,
    is_source,
    key_of,
    place,
)
from honeyledger.ledger.state import State

NO_NET = Sentence("no-net", "A net weight of {net} is nothing. Weigh again.")
NET_NOT_ABOVE_ZERO = Sentence(
    "net-not-above-zero",
    "Gross {gross} is not above the tare of {tare}. Weigh again, or correct the tare.",
)
TARE_BELOW_ZERO = Sentence(
    "tare-below-zero", "A tare of {tare} cannot be: weigh the empty container, or leave it at 0."
)
NOTHING_THERE = Sentence(
    "nothing-there",
    "The books see nothing in {place}. Scan the right one, or enter first what came in.",
)
NOT_A_DRUM = Sentence("not-a-drum", "{place} is not a drum. Scan the drum, or its label.")
NOT_CLOSED = Sentence(
    "not-closed", "{place} is part-filled, with several lots in it. Bung it first, then weigh it."
)
NO_TARE = Sentence(
    "no-tare",
    "Nobody knows what the empty container weighs. Type its tare, or the net weight.",
)
ONE_AT_LEAST = Sentence("one-at-least", "{asked} of {code} is none: say one at least.")
NOT_IN_HOUSE = Sentence("not-in-house", "{code} is no longer in the house: nothing of it is left.")
POURED = Sentence(
    "poured", "{code} was poured into {vessel} and is mixed with what stands there. Take it there."
)
VOID_LABEL = Sentence(
    "void-label", "The label of {code} is void: the drum was topped up. Scan its new label."
)


@dataclass(frozen=True, slots=True)
class Weight:
    """A weighing: net, or gross with the container's tare; nothing at all is "to follow"."""

    net_g: int | None = None
    gross_g: int | None = None
    tare_g: int | None = None


TO_FOLLOW = Weight()


def net_of(weight: Weight, tare_g: int | None, field: str = "gross_g") -> int | None:
    """The net grams of a weighing, or None where it is to follow."""
    if weight.net_g is not None:
        if weight.net_g <= 0:
            raise Refusal(NO_NET, field="net_g", net=format_mass(weight.net_g))
        return weight.net_g
    if weight.gross_g is None:
        return None
    tare = weight.tare_g if weight.tare_g is not None else tare_g
    if tare is None:
        raise Refusal(NO_TARE, field="tare_g")
    check_tare(tare)
    if weight.gross_g <= tare:
        raise Refusal(
            NET_NOT_ABOVE_ZERO,
            field=field,
            gross=format_mass(weight.gross_g),
            tare=format_mass(tare),
        )
    return weight.gross_g - tare


def check_tare(tare_g: int, field: str = "tare_g") -> None:
    """A tare is weighed or 0, never less."""
    if tare_g < 0:
        raise Refusal(TARE_BELOW_ZERO, field=field, tare=format_mass(tare_g))


def sources_of(state: State, lot: Lot) -> dict[str, int]:
    """A source lot's places with the net grams it has from each; amended ones may be at 0."""
    rows = [row for row in state.holdings(lot.id) if is_source(row.place)]
    return {row.place: -row.grams for row in rows}


def first_place(lot: Lot) -> str:
    """The place a source lot was said to be from when it was made."""
    for kind in (YARD, SUPPLIER):
        if key := lot.attributes.get(kind):
            return place(kind, str(key))
    return UNKNOWN


def counted_in(lot: Lot) -> str:
    """What a lot is counted in: supers, jars, or pieces of comb and packaging."""
    if lot.kind in "KA":
        return "jars" if "jars" in lot.attributes else "pieces"
    return "supers" if lot.kind == "S" else "jars"


def number_of(count: int, things: str) -> str:
    """A number of things as said: "1 jar", "2 jars"."""
    return f"{count} {things.removesuffix('s') if count == 1 else things}"


def check_one(count: int, code: str, field: str) -> None:
    """Whoever says a number means one at least.

    Raises:
        Refusal: it is 0 or below.
    """
    if count < 1:
        raise Refusal(ONE_AT_LEAST, field=field, asked=count, code=code)


def is_cappings(lot: Lot) -> bool:
    """Whether a lot is a barrel of cappings as it came off a line, not wax or honey of it."""
    return lot.kind == "W" and "line" in lot.attributes


def is_unknown(lot: Lot) -> bool:
    """Whether a lot was made for honey that nobody could name the source of."""
    return lot.kind == "S" and first_place(lot) == UNKNOWN


def is_from(state: State, lot: Lot, where: str) -> bool:
    """Whether a source lot with no grams from a place any more is still in its reach.

    It is until someone narrows it by name, if it was booked from there at first, or by an
    amendment that was not reversed.
    """
    narrowed = state.mark(lot.code, f"not from/{where}")
    if narrowed and narrowed.value:
        return False
    return where == first_place(lot) or state.mark(lot.code, f"from/{where}") is not None


def home_of(state: State, lot: Lot) -> str:
    """The place a source lot's grams are from now, and go back to."""
    sources = sources_of(state, lot)
    return max(sources, key=lambda place: sources[place])


def told_apart(there_g: int, asked_g: int) -> dict[str, str]:
    """Two masses as the sentence's `there` and `asked`, to the gram where they look alike."""
    shown = format_mass(there_g), format_mass(asked_g)
    if shown[0] == shown[1]:
        shown = format_mass(there_g, decimals=3), format_mass(asked_g, decimals=3)
    return {"there": shown[0], "asked": shown[1]}


def number_in(record: Mapping[str, Json], name: str, default: int) -> int:
    value = record.get(name)
    return value if isinstance(value, int) else default


def find_source(b: Booking, text: str, field: str = "source") -> str:
    """The place honey is taken from: a vessel, or a drum by its lot's code or its own.

    Both go by their names and numbers, too.
    """
    code = code_in(b.state, text, field) if text.strip() else None
    if code is not None and code.letter != "E":
        lot = find_lot(b.state, text, "DPTW", field)
        return own_place(b, lot) or place_of(b, lot, field)
    kind = DRUM if code and b.state.mark(place(DRUM, str(code)), "record") else VESSEL
    if code is not None:
        return find_record(b.state, kind, str(code), field)[0]
    return find_named(b.state, (VESSEL, DRUM), text, field)[0]


def place_of(b: Booking, lot: Lot, field: str) -> str:
    """Where in the house a lot stands with grams: by itself, or a fill or pull in a vessel.

    Raises:
        Refusal: nothing of it is left to take, or it is part of a mixture now.
    """
    classes = (PALLET, DRUM, VESSEL) if lot.kind in "ST" else (DRUM, BARREL, JARS)
    places = [row.place for row in b.state.holdings(lot.id) if row.grams > 0]
    for one in classes:
        for where in places:
            if class_of(where) == one:
                return where
    raise refuse_gone(b, lot, field)


def own_place(b: Booking, lot: Lot) -> str:
    """A one-way drum or barrel that was in the house then, though the books see it empty now.

    The floor is right: a part of it may be written down after the rest was, or after it was
    sent. A registered container is scanned by its own code then.
    """
    rows = b.state.holdings(lot.id)
    own = next((row.place for row in rows if key_of(row.place) == lot.code), "")
    if not own and not any(class_of(row.place) in (DRUM, BARREL) and row.grams for row in rows):
        # Where nothing is left of it only its stay there is on record.
        place_then = place(BARREL if lot.kind == "W" else DRUM, lot.code)
        stood = any(stay.lot == lot.id for stay in b.state.stays(place_then, 0))
        own = place_then if stood else ""
    touch = b.state.last_touch(own)
    gone = any(row.grams and class_of(row.place) in (CUSTOMER, GATE, DISCARDED) for row in rows)
    long_gone = gone and (touch is None or touch.at_ms < b.at_ms - b.margin_ms)
    return "" if long_gone else own


def refuse_gone(b: Booking, lot: Lot, field: str) -> Refusal:
    """The refusal for a lot that cannot be taken, with where it went."""
    label = b.state.mark(lot.code, "label")
    if label and label.value == "void":
        return Refusal(VOID_LABEL, field=field, code=lot.code)
    for row in b.state.holdings(lot.id):
        if row.grams > 0 and class_of(row.place) == VESSEL:
            vessel = b.state.mark(row.place, "record")
            name = vessel.value.get("name") if vessel and isinstance(vessel.value, Mapping) else ""
            return Refusal(POURED, field=field, code=lot.code, vessel=name)
    return Refusal(NOT_IN_HOUSE, field=field, code=lot.code)


def find_drum(b: Booking, text: str, field: str = "drum") -> tuple[Lot, str]:
    """The one lot in a drum and its place, by its lot's code or its container's."""
    source = find_source(b, text, field)
    if class_of(source) != DRUM:
        raise Refusal(NOT_A_DRUM, field=field, place=text)
    rows = [row for row in b.standing(source) if row.grams]
    if len(rows) != 1:
        raise Refusal(NOT_CLOSED if rows else NOTHING_THERE, field=field, place=text)
    return rows[0].lot, source
