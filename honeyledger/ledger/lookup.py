"""From what was scanned or typed to the lot, record or place it means, or a clear refusal.

Codes that do not exist are never guessed: the near ones that do exist are offered.
"""

from collections.abc import Mapping, Sequence
from datetime import date
from difflib import get_close_matches
from string import ascii_uppercase, digits

from honeyledger.domain.codes import NOT_A_CODE, Code, JarCode, near_codes, parse_code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import DRUM, VESSEL, place
from honeyledger.ledger.state import State
from honeyledger.ledger.units import pack_scanned, refuse_retail

UNKNOWN_CODE = Sentence(
    "unknown-code",
    "{code} is not a code of this house.{asked} Scan it again, or look it up by name.",
)
UNKNOWN_NAME = Sentence(
    "unknown-name",
    "There is no {noun} called {name}. Choose one, such as {known}, or register it first.",
)
NONE_REGISTERED = Sentence(
    "none-registered", "There is no {noun} called {name}, nor any other. Register it first."
)
NOTHING_NAMED = Sentence("nothing-named", "Name the {noun}, or scan its code.")
TWO_OF_THAT_NAME = Sentence(
    "two-of-that-name", "More than one {noun} is called {name}: give the code instead, {codes}."
)
SEVERAL_OF_THAT_NAME = Sentence(
    "several-of-that-name", "{name} is {what}: say by its code which is meant."
)
WRONG_LETTER = Sentence(
    "wrong-letter", "{code} is {what}, but {wanted} is needed here. Scan that code instead."
)
NOT_CLOSED_YET = Sentence(
    "not-closed-yet", "{code} is still being bottled. Close the bottling first."
)
WAS_REVERSED = Sentence(
    "was-reversed",
    "{code} was reversed with entry {entry} and stands for nothing. Take its label off, and use "
    "the code that came after it.",
)
NOT_A_DAY = Sentence("not-a-day", "{text} is not a day: write it like 2026-07-24.")
MOST_OFFERS = 4
CODED = ("yard", "vessel", "drum", "equipment", "operator")
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
    "room": "room",
    "check": "check",
    "equipment": "piece of equipment",
    "stock": "label stock",
    "shift": "shift",
    "order": "order",
}
LOT_NOUNS = {
    "S": "pull",
    "P": "drum bought in",
    "T": "tank fill",
    "D": "drum",
    "J": "jar lot",
    "K": "comb honey",
    "W": "barrel of cappings or wax",
    "X": "sample",
    "A": "added ingredient",
}


def existing_near(state: State, text: str) -> list[str]:
    """Codes of this house one slip away from what was read."""
    near = (code for code in near_codes(text, rules_of(state).prefix) if state.is_given(code))
    found = [code for code, _ in zip(near, range(MOST_OFFERS), strict=False)]
    return found or _jar_with_check(state, text)


def _jar_with_check(state: State, text: str) -> list[str]:
    """The jar's code that was typed up to its check character, of a lot that there is."""
    prefix = rules_of(state).prefix
    if not any(_looks_like_a_code(text + one, prefix) for one in "0A"):
        return []  # a name: every verb is told names, and no other character makes it a code
    for character in digits + ascii_uppercase:
        try:
            code = parse_code(text + character, prefix)
        except Refusal:
            continue
        if isinstance(code, JarCode) and state.is_given(str(code.lot)):
            return [str(code)]
    return []


def _looks_like_a_code(text: str, prefix: str) -> bool:
    try:
        parse_code(text, prefix)
    except Refusal as refusal:
        return refusal.key != NOT_A_CODE.key
    return True


def refuse_unknown(state: State, text: str, field: str) -> Refusal:
    """The refusal for a code nobody was given, with the near ones offered."""
    offers = existing_near(state, text)
    asked = f" Was it {' or '.join(offers)}?" if offers else ""
    return Refusal(UNKNOWN_CODE, field=field, offers=offers, code=text.strip(), asked=asked)


def read_code(state: State, text: str, field: str) -> Code | JarCode:
    """The code a text stands for; a misread one is refused with near codes that exist.

    The number of a case or pallet (SSCC) stands for its code.
    """
    try:
        text = pack_scanned(state, text, field) or text
        return parse_code(text, rules_of(state).prefix, field=field)
    except Refusal as refusal:
        if retail := refuse_retail(state, text, field):
            raise retail from refusal
        offers = existing_near(state, text)
        if not offers:
            raise
        raise refuse_unknown(state, text, field) from refusal


def find_lot(
    state: State,
    text: str,
    kinds: str = "",
    field: str = "lot",
    *,
    reversed_too: bool = False,
) -> Lot:
    """The lot a code names (of a jar's code, its jar lot), of one of these kinds.

    Raises:
        Refusal: no such lot, another kind of thing, or one whose entry was reversed.
    """
    code = read_code(state, text, field)
    plain = code.lot if isinstance(code, JarCode) else code
    lot = state.lot_by_code(str(plain))
    wanted = _either([LOT_NOUNS.get(kind, "lot") for kind in kinds])
    if lot is None:
        if isinstance(_value(state, f"bottling/{plain}", "open"), Mapping):
            raise Refusal(NOT_CLOSED_YET, field=field, code=plain)
        raise refuse_wrong(state, plain, text, wanted, field)
    if kinds and lot.kind not in kinds:
        raise refuse_wrong(state, plain, text, wanted, field)
    if not reversed_too and (by := state.reversed_by(lot.made_by)):
        raise Refusal(WAS_REVERSED, field=field, code=lot.code, entry=by)
    return lot


def refuse_wrong(state: State, code: Code, text: str, wanted: str, field: str) -> Refusal:
    """The refusal for a code of this house that is of the wrong sort, or of no house at all."""
    if not state.is_given(str(code)):
        return refuse_unknown(state, text, field)
    return Refusal(
        WRONG_LETTER, field=field, code=code, what=_a(_noun(state, code)), wanted=_a(wanted)
    )


def _noun(state: State, code: Code) -> str:
    if code.letter == "E":
        kinds = [kind for kind in (VESSEL, DRUM, "equipment") if _is_on_record(state, kind, code)]
        return NOUNS[kinds[0]] if kinds else code.noun
    return LOT_NOUNS.get(code.letter, code.noun)


def _is_on_record(state: State, kind: str, code: Code) -> bool:
    return bool(_value(state, f"{kind}/{code}", "record"))


def _value(state: State, subject: str, name: str) -> Json:
    mark = state.mark(subject, name)
    return mark.value if mark else 0


def _a(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def _either(nouns: Sequence[str]) -> str:
    first = ", ".join(nouns[:-1])
    return f"{first} or {nouns[-1]}" if first else (nouns or ["lot"])[-1]


def find_record(
    state: State, kind: str, text: str, field: str = ""
) -> tuple[str, Mapping[str, Json]]:
    """A register's subject ("yard/Y26-0014-K") and record, by code, key, number or name."""
    field = field or kind
    wanted = text.strip()
    noun = NOUNS.get(kind, kind)
    if not wanted:
        raise Refusal(NOTHING_NAMED, field=field, noun=noun)
    exact = state.mark(f"{kind}/{wanted}", "record")
    if exact is not None and isinstance(exact.value, Mapping):
        return exact.subject, exact.value
    records = _records(state, kind)
    low = wanted.casefold()
    found = [(subject, record) for subject, record in records if _is_called(record, low)]
    if len(found) == 1:
        return found[0]
    if found:
        codes = [subject.partition("/")[2] for subject, _ in found]
        raise Refusal(
            TWO_OF_THAT_NAME,
            field=field,
            offers=codes,
            noun=noun,
            name=wanted,
            codes=" or ".join(codes),
        )
    if kind in CODED and (code := code_in(state, wanted, field)) is not None:
        coded = state.mark(f"{kind}/{code}", "record")
        if coded is not None and isinstance(coded.value, Mapping):
            return coded.subject, coded.value
        raise refuse_wrong(state, code, wanted, noun, field)
    raise refuse_name(state, (kind,), wanted, field)


def find_named(
    state: State, kinds: Sequence[str], text: str, field: str
) -> tuple[str, Mapping[str, Json]]:
    """The one record of these registers that is called so.

    Raises:
        Refusal: none is, or more than one: a yard, a vessel and a drum may share a name.
    """
    wanted = text.strip()
    if not wanted:
        noun = _either([NOUNS.get(kind, kind) for kind in kinds])
        raise Refusal(NOTHING_NAMED, field=field, noun=noun)
    low = wanted.casefold()
    called = [
        (kind, subject)
        for kind in kinds
        for subject, record in _records(state, kind)
        if _is_called(record, low)
    ]
    found = dict.fromkeys(kind for kind, _ in called)
    if len(found) > 1:
        codes = [subject.partition("/")[2] for _, subject in called]
        parts = [
            f"{_a(NOUNS.get(kind, kind))} ({code})"
            for (kind, _), code in zip(called, codes, strict=True)
        ]
        what = f"{', '.join(parts[:-1])} and {parts[-1]}"
        raise Refusal(SEVERAL_OF_THAT_NAME, field=field, offers=codes, name=wanted, what=what)
    if found:
        return find_record(state, next(iter(found)), wanted, field)
    raise refuse_name(state, kinds, wanted, field)


def refuse_name(state: State, kinds: Sequence[str], wanted: str, field: str) -> Refusal:
    """The refusal for a name nothing has, with names to choose from."""
    noun = _either([NOUNS.get(kind, kind) for kind in kinds])
    names = [str(one.get("name", "")) for kind in kinds for _, one in _records(state, kind)]
    if not names:
        return Refusal(NONE_REGISTERED, field=field, noun=noun, name=wanted)
    known = _nearest(wanted, names)
    return Refusal(UNKNOWN_NAME, field=field, noun=noun, name=wanted, known=known)


def _records(state: State, kind: str) -> list[tuple[str, Mapping[str, Json]]]:
    return [
        (mark.subject, mark.value)
        for mark in state.marked("record", f"{kind}/")
        if isinstance(mark.value, Mapping)
    ]


def _is_called(record: Mapping[str, Json], low: str) -> bool:
    """Whether a record has a name or number, given in lower case, however it is written."""
    names = record.get("name", ""), record.get("number", "")
    return any(name and str(name).casefold() == low for name in names)


def code_in(state: State, text: str, field: str) -> Code | None:
    """The code a text stands for; None where it looks like a name ("Tank 9") and not a code."""
    try:
        code = read_code(state, text, field)
    except Refusal as refusal:
        if refusal.key == NOT_A_CODE.key:
            return None
        raise
    return code.lot if isinstance(code, JarCode) else code


def near_names(state: State, kind: str, wanted: str) -> str:
    """Names in a register that are like what was typed; "" where none is."""
    names = {str(record.get("name", "")) for _, record in _records(state, kind)}
    by_low = {name.casefold(): name for name in sorted(names) if name}
    close = get_close_matches(wanted.casefold(), by_low, MOST_OFFERS)
    return _either([by_low[name] for name in close]) if close else ""


def _nearest(wanted: str, names: Sequence[str]) -> str:
    """Names to choose from: those most like what was typed, or the first ones."""
    by_low = {name.casefold(): name for name in names}
    close = get_close_matches(wanted.casefold(), by_low, MOST_OFFERS)
    return _either([by_low[name] for name in close] or sorted(names)[:MOST_OFFERS])


def find_vessel(state: State, text: str, field: str = "vessel") -> str:
    """The place of a registered vessel or line."""
    return find_record(state, VESSEL, text, field)[0]


def find_pallet(state: State, text: str, field: str = "pallet") -> str:
    """The place of a pallet tag that was given out."""
    code = read_code(state, text, field)
    plain = code.lot if isinstance(code, JarCode) else code
    if plain.letter != "G" or not state.is_given(str(plain)):
        raise refuse_wrong(state, plain, text, NOUNS["pallet"], field)
    return place("pallet", str(plain))


def read_iso_day(text: str, field: str) -> str:
    """A day as the ledger keeps it, or "" where none is given; days are compared as text."""
    try:
        return date.fromisoformat(text).isoformat() if text else ""
    except ValueError:
        raise Refusal(NOT_A_DAY, field=field, text=text) from None
