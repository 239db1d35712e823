"""From what was scanned or typed to the lot, record or place it means, or a clear refusal.

Codes that do not exist are never guessed: the near ones that do exist are offered.
"""

from collections.abc import Mapping

from honeyledger.domain.codes import Code, JarCode, near_codes, parse_code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import DRUM, VESSEL, place
from honeyledger.ledger.state import State

UNKNOWN_CODE = Sentence(
    "unknown-code",
    "{code} is not a code of this house.{asked} Scan it again, or look it up by name.",
)
UNKNOWN_NAME = Sentence(
    "unknown-name",
    "There is no {noun} {name} yet. Register it first, or choose one of those there are: {known}.",
)
TWO_OF_THAT_NAME = Sentence(
    "two-of-that-name", "There are two of the {noun}s called {name}: give the code, {codes}."
)
WRONG_LETTER = Sentence(
    "wrong-letter", "{code} is a {noun}, and a {wanted} is needed here. Scan the {wanted}'s code."
)
MOST_OFFERS = 4
NOUNS = {
    "yard": "yard",
    "vessel": "vessel",
    "drum": "container",
    "operator": "operator",
    "product": "product",
    "customer": "customer",
    "supplier": "supplier",
    "box": "box type",
    "pallet": "pallet tag",
    "run": "run",
}
LOT_NOUNS = {
    "S": "pull",
    "P": "purchase",
    "T": "tank fill",
    "D": "drum",
    "J": "jar lot",
    "W": "wax or cappings lot",
    "X": "sample",
}


def existing_near(state: State, text: str) -> list[str]:
    """Codes of this house one slip away from what was read."""
    near = (code for code in near_codes(text, rules_of(state).prefix) if state.is_given(code))
    return [code for code, _ in zip(near, range(MOST_OFFERS), strict=False)]


def refuse_unknown(state: State, text: str, field: str) -> Refusal:
    """The refusal for a code nobody was given, with the near ones offered."""
    offers = existing_near(state, text)
    asked = f" Was it {' or '.join(offers)}?" if offers else ""
    return Refusal(UNKNOWN_CODE, field=field, offers=offers, code=text.strip(), asked=asked)


def read_code(state: State, text: str, field: str) -> Code | JarCode:
    """The code a text stands for; a misread one is refused with near codes that exist."""
    try:
        return parse_code(text, rules_of(state).prefix, field=field)
    except Refusal as refusal:
        offers = existing_near(state, text)
        if not offers:
            raise
        raise refuse_unknown(state, text, field) from refusal


def find_lot(state: State, text: str, kinds: str = "", field: str = "lot") -> Lot:
    """The lot a code names (of a jar's code, its jar lot), of one of these kinds."""
    code = read_code(state, text, field)
    lot = state.lot_by_code(str(code.lot if isinstance(code, JarCode) else code))
    if lot is None:
        raise refuse_unknown(state, text, field)
    if kinds and lot.kind not in kinds:
        raise Refusal(
            WRONG_LETTER,
            field=field,
            code=lot.code,
            noun=LOT_NOUNS.get(lot.kind, "lot"),
            wanted=" or ".join(LOT_NOUNS.get(kind, "lot") for kind in kinds),
        )
    return lot


def find_record(
    state: State, kind: str, text: str, field: str = ""
) -> tuple[str, Mapping[str, Json]]:
    """A register's subject ("yard/Y26-0014-K") and record, by code, key, number or name."""
    field = field or kind
    wanted = text.strip()
    exact = state.mark(f"{kind}/{wanted}", "record")
    if exact is not None and isinstance(exact.value, Mapping):
        return exact.subject, exact.value
    found: list[tuple[str, Mapping[str, Json]]] = []
    records = [
        (mark.subject, mark.value)
        for mark in state.marked("record", f"{kind}/")
        if isinstance(mark.value, Mapping)
    ]
    for subject, record in records:
        names = [record.get("name", ""), record.get("number", "")]
        if wanted.casefold() in [str(name).casefold() for name in names if name]:
            found.append((subject, record))
    if len(found) == 1:
        return found[0]
    noun = NOUNS.get(kind, kind)
    if found:
        codes = " or ".join(subject.partition("/")[2] for subject, _ in found)
        raise Refusal(TWO_OF_THAT_NAME, field=field, noun=noun, name=wanted, codes=codes)
    if any(character.isdigit() for character in wanted) and kind in ("yard", "vessel", "drum"):
        code = str(read_code(state, wanted, field))
        coded = state.mark(f"{kind}/{code}", "record")
        if coded is not None and isinstance(coded.value, Mapping):
            return coded.subject, coded.value
        raise refuse_unknown(state, wanted, field)
    known = ", ".join(str(record.get("name", "")) for _, record in records[:MOST_OFFERS])
    raise Refusal(UNKNOWN_NAME, field=field, noun=noun, name=wanted, known=known or "none so far")


def find_vessel(state: State, text: str, field: str = "vessel") -> str:
    """The place of a registered vessel or line."""
    return find_record(state, VESSEL, text, field)[0]


def find_pallet(state: State, text: str, field: str = "pallet") -> str:
    """The place of a pallet tag that was given out."""
    code = read_code(state, text, field)
    if isinstance(code, JarCode) or code.letter != "G":
        raise Refusal(
            WRONG_LETTER, field=field, code=str(code), noun=_noun(code), wanted="pallet tag"
        )
    if not state.is_given(str(code)):
        raise refuse_unknown(state, text, field)
    return place("pallet", str(code))


def find_drum_place(state: State, lot: Lot) -> str:
    """Where a drum's honey stands now, or "" where none is left in the house."""
    for holding in state.holdings(lot.id):
        if holding.grams > 0 and holding.place.partition("/")[0] == DRUM:
            return holding.place
    return ""


def _noun(code: Code | JarCode) -> str:
    return "jar" if isinstance(code, JarCode) else code.noun
