"""A dispatch note as it was written: to whom, and what went on it."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.codes import JarCode, parse_code
from honeyledger.domain.freight import container_number, fits_check_digit
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking, rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import find_lot, read_code, refuse_wrong
from honeyledger.ledger.places import place
from honeyledger.ledger.state import State

DISPATCHED = "dispatched"

NOTE_REVERSED = Sentence(
    "note-reversed",
    "Dispatch note {note} was reversed: nothing went out on it. Look for its next.",
)

CONTAINER_MISREAD = Sentence(
    "container-misread",
    "The last digit of container {number} does not fit the others: read it again at its door.",
)


@dataclass(frozen=True, slots=True)
class NoteLine:
    """A lot that went on a note, with its grams and jars by the house's own scale and count."""

    lot: Lot
    grams: int
    jars: int


@dataclass(frozen=True, slots=True)
class Note:
    """A dispatch note; `said` holds carrier, contract, seals and whatever else was told."""

    code: str
    customer: str
    entry: int
    at_ms: int
    said: Mapping[str, Json]


def is_note(state: State, text: str) -> bool:
    """Whether a text is the code of a dispatch note, given or not."""
    try:
        code = parse_code(text, rules_of(state).prefix)
    except Refusal:
        return False
    return not isinstance(code, JarCode) and code.letter == "N"


def find_note(state: State, text: str, field: str = "note") -> Note:
    """The dispatch note a code names.

    Raises:
        Refusal: no such note, another kind of thing, or one that was reversed.
    """
    code = read_code(state, text, field)
    plain = code.lot if isinstance(code, JarCode) else code
    if plain.letter != "N" or not state.is_given(str(plain)):
        raise refuse_wrong(state, plain, text, "dispatch note", field)
    mark = state.mark(place("note", str(plain)), DISPATCHED)
    if mark is None or not isinstance(mark.value, Mapping):
        raise Refusal(NOTE_REVERSED, field=field, note=plain)
    return Note(str(plain), str(mark.value["to"]), mark.entry, mark.at_ms, mark.value)


def lines_of(state: State, note: Note) -> list[NoteLine]:
    """What went on a note, in the order of the lots' ids."""
    entry = state.entry(note.entry)
    assert entry is not None
    lines = []
    for subject, name, value in rows_of(entry, "marks"):
        if name == f"note/{note.code}" and isinstance(value, Mapping):
            lot = find_lot(state, str(subject))
            grams, jars = value.get("grams", 0), value.get("jars", 0)
            assert isinstance(grams, int)
            assert isinstance(jars, int)
            lines.append(NoteLine(lot, grams, jars))
    return sorted(lines, key=lambda line: line.lot.id)


def note_container(b: Booking, text: str) -> None:
    """A freight container's number that cannot be: said, and kept as it was typed."""
    number = container_number(text)
    if number and not fits_check_digit(number):
        b.note(CONTAINER_MISREAD, number=number)
