"""Whose honey it is, apart from where it stands: owner and consignor as dated facts of a lot.

Who holds it follows from where it stands. The house's own honey has no owner written down.
"""

from collections.abc import Mapping

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import find_named
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import CUSTOMER, SUPPLIER
from honeyledger.ledger.state import State

OWNER, CONSIGNOR = "owner", "consignor"
HOUSE = "house"
PARTIES = (CUSTOMER, SUPPLIER)

STRANGER = Sentence(
    "stranger",
    "{owner} is no customer or supplier of this house: register them, so that they can be settled "
    "with by name, or reverse this and name one{such}.",
)
OWNERS_YARD = Sentence(
    "owners-yard",
    "The bees of {yard} are {owner}'s, and so is this honey. If it is not, reverse it and say "
    "whose it is, or house.",
)
OTHERS_HONEY = Sentence(
    "others-honey",
    "{code} belongs to {owner}: it leaves on their word only. Say in whose name it goes, or that "
    "title goes over.",
)


def find_party(state: State, text: str, field: str) -> str:
    """A customer or supplier by name or key; HOUSE for the house itself."""
    if _is_house(state, text):
        return HOUSE
    return find_named(state, PARTIES, text, field)[0]


def _is_house(state: State, text: str) -> bool:
    """Whether the house itself is meant: by the word, or by its name."""
    return text.strip().casefold() in (HOUSE, party_name(state, HOUSE).casefold())


def whose(b: Booking, typed: str, yard: str, record: Mapping[str, Json]) -> str:
    """Whose honey a yard gives: as typed, else as its record says; "" where it is the house's."""
    owner = typed.strip() or str(record.get(OWNER, "")).strip()
    if owner and not typed.strip() and not _is_house(b.state, owner):
        b.note(OWNERS_YARD, yard=yard, owner=owner)
    note_stranger(b, owner)
    return owner


def note_stranger(b: Booking, owner: str) -> None:
    """An owner who is in no register stays a name, and is told of."""
    if not owner.strip() or _is_house(b.state, owner):
        return
    try:
        find_named(b.state, PARTIES, owner, OWNER)
    except Refusal as refusal:
        known = refusal.facts.get("known", "")
        b.note(STRANGER, owner=owner.strip(), such=f", such as {known}" if known else "")


def said_owner(state: State, lot: Lot, marked: Json) -> str:
    """A lot's owner from the value of its latest mark, else as it was received; HOUSE if nobody's.

    A name that was typed when it came in, and has no record, stays a name.
    """
    if isinstance(marked, Mapping):
        return str(marked.get(OWNER, HOUSE))
    name = str(lot.attributes.get(OWNER, "")).strip()
    if name and _is_house(state, name):
        return HOUSE
    for kind in PARTIES:
        for record in state.marked("record", f"{kind}/") if name else ():
            if (
                isinstance(record.value, Mapping)
                and str(record.value.get("name", "")).casefold() == name.casefold()
            ):
                return record.subject
    return name or HOUSE


def owner_of(state: State, lot: Lot) -> str:
    """Whose a lot is now: HOUSE, a party's subject, or a name without a record."""
    mark = state.mark(lot.code, OWNER)
    return said_owner(state, lot, mark.value if mark else 0)


def party_name(state: State, party: str) -> str:
    """An owner or consignor as people say it."""
    if party == HOUSE:
        mark = state.mark(HOUSE, "record")
        record = mark.value if mark and isinstance(mark.value, Mapping) else {}
        return str(record.get("name", "")) or "the house"
    return name_of(state, party)


def pass_title(b: Booking, lot: Lot, owner: str, document: str) -> None:
    """From this entry on the lot is this owner's."""
    b.mark(lot.code, OWNER, {OWNER: owner, "document": document, "by": b.act.operator})


def note_owner(b: Booking, lot: Lot, marked: Json, told: Mapping[str, str], customer: str) -> None:
    """Somebody else's honey leaves: said, unless it goes to them, in their name, or with title."""
    owner = said_owner(b.state, lot, marked)
    if OWNER not in told and owner not in (HOUSE, customer, told.get(CONSIGNOR)):
        b.note(OTHERS_HONEY, code=lot.code, owner=party_name(b.state, owner))
