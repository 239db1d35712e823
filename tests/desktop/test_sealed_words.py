"""What the program sealed in words of its own is said again; what people typed is not."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication

from honeyledger.desktop import language
from honeyledger.desktop.language import note_words, refusal_words, say
from honeyledger.desktop.sealed_words import _found, sealed_words
from honeyledger.domain.phrases import Phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_share
from honeyledger.ledger.mixing import few
from honeyledger.ledger.verbs.dock import COUNT_DIFFERS, Line, Receive
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import NO_NAME, Register
from honeyledger.ledger.verbs.yards import FeedYard, Treat
from honeyledger.services.house import notes_of
from tests.support.houses import BuiltHouse

CELL = Sentence("test-cell", "{file}, row {row}, {column}: {what}")
WHOLE = Sentence("test-whole", "{text} is not a whole number: type {what}, such as {example}.")


@pytest.fixture
def house(light: QApplication) -> Iterator[BuiltHouse]:
    """The day is 24 July 2026; the window is in Spanish."""
    language.wear(light, "es")
    made = BuiltHouse()
    made.yard("Creek", colonies=30)
    made.vessel("Tank 1")
    yield made
    language.wear(light, language.ENGLISH)


def _notes(house: BuiltHouse, facts: object) -> list[str]:
    entries = house.do(facts).entries
    return [note_words(key, text) for entry in entries for key, text in notes_of(entry)]


def test_the_hold_of_a_treatment_is_said_again(house: BuiltHouse) -> None:
    notes = _notes(house, Treat("Creek", "Tiras", "", "2026-07-02", "2026-07-09", "2026-08-23"))
    held = "tratado con Tiras el 2 jul 2026, no libre hasta el 23 ago 2026"
    assert held in notes[0]
    assert "2 jul 2026 hasta el 22 ago 2026" in notes[0]
    done = house.do(Receive((Line("Creek", 10, pulled="2026-07-20"),)))
    tag = next(code for code in done.given if code[0] == "G")
    with pytest.raises(Refusal) as refused:
        house.do(Load(tag, "Tank 1"))
    assert held in refusal_words(refused.value)
    assert "treated with Tiras" in refused.value.text
    fed = _notes(house, FeedYard("Creek", "jarabe", "2026-06-11", 40_000, supers_on=True))
    assert "alimentado con 40.0 kg de jarabe el 11 jun 2026 con alzas puestas" in fed[0]
    assert "en adelante, hasta que alguien las libere" in fed[0]


@pytest.mark.parametrize(
    ("sealed", "facts"),
    [
        (
            "treated with Strips, new on 2 Jul 2026, not out yet, then 14 days",
            ("Strips, new", "2 Jul 2026", "14 days"),
        ),
        ("treated with Strips on 2 Jul 2026, not out yet", ("Strips", "2 Jul 2026")),
        (
            "treated with Strips on 2 Jul 2026, out on 9 Jul 2026",
            ("Strips", "2 Jul 2026", "9 Jul 2026"),
        ),
        (
            "Screen 1 found off on screens since 9 Jul 2026 14:05",
            ("Screen 1", "screens", "9 Jul 2026 14:05"),
        ),
        ("Screen 1 found off on a check", ("Screen 1", "a check")),
        ("Screen 1 found off since 9 Jul 2026 14:05", ("Screen 1", "9 Jul 2026 14:05")),
    ],
)
def test_each_reason_the_program_makes_is_known_again(sealed: str, facts: tuple[str, ...]) -> None:
    assert sealed_words(sealed) == sealed, "in English it is what was sealed"
    found = _found(sealed)
    assert found is not None
    assert tuple(said for _, said in found[1]) == facts


def test_the_reason_of_a_treatment_that_is_in_is_one_of_them(house: BuiltHouse) -> None:
    treated = Treat("Creek", "Strips", "", "2026-07-02", interval="14 days")
    text = house.do(treated).notes[0]
    assert _found(text.rpartition(": ")[2].rstrip(".")) is not None


def test_counts_and_lists_within_a_sentence(house: BuiltHouse) -> None:
    text = COUNT_DIFFERS.text.format(yard="Creek", count=36, sheet=40, off="4 missing")
    assert note_words(COUNT_DIFFERS.key, text).startswith(
        "Creek: llegaron 36 alzas, la hoja dice 40. Faltan 4"
    )
    assert sealed_words(few(["A", "B", "C", "D", "E", "F"])) == "A, B, C, D y 2 más"
    assert [say(format_share(share)) for share in (0.5, 0.000_01)] == ["50.0 %", "< 0.1 %"]


def test_words_kept_by_their_key(house: BuiltHouse) -> None:
    with pytest.raises(Refusal) as refused:
        house.do(Register("yard", {"name": ""}))
    assert refused.value.sentence is NO_NAME
    assert "(colmenar)" in refusal_words(refused.value)


def test_a_sentence_within_a_sentence_is_said_with_its_own_facts(house: BuiltHouse) -> None:
    what = Phrase(WHOLE.text, {"text": "many", "what": "a number of colonies", "example": "24"})
    cell = Refusal(CELL, file="yards.csv", row=2, column="colonies", what=what)
    assert cell.text == (
        "yards.csv, row 2, colonies: many is not a whole number: type a number of colonies, "
        "such as 24."
    )
    assert refusal_words(cell).endswith(
        "many no es un número entero: escriba un número de colmenas, como 24."
    )


@pytest.mark.parametrize(
    "typed",
    ["strips were left in", "treated with care", "to the shop", "4 missing jars", "under 3"],
)
def test_what_people_typed_stays_as_it_is(house: BuiltHouse, typed: str) -> None:
    assert sealed_words(typed) == typed
    assert say(typed) == typed
