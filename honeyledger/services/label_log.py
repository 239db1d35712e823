"""Which labels were printed: a second one says so where it may, the house's log says it always.

Tags of the floor carry a small mark, since two of them may stand on two things. What goes to the
shop never does: a label of a jar says what the law asks for, and the log says the rest.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import fields, replace
from typing import Any, TypeVar

from honeyledger.domain.codes import JarCode, parse_code
from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.ledger.verbs.printing import (
    Printed,
    joined,
    prints_of,
    serials_printed,
    shared,
)
from honeyledger.services.label_forms import JAR_BACK, JAR_FRONT, LID_SEAL
from honeyledger.services.papers import JarLabel
from honeyledger.services.store import View

_Row = TypeVar("_Row")
_OF_JAR = (JarLabel.label, JAR_BACK, LID_SEAL)
"""The labels that carry a jar's own code."""


def marked(view: View, rows: Iterable[_Row]) -> list[_Row]:
    """The same rows, each with which print of its label it is, where labels of its kind say so."""
    made: list[_Row] = []
    for row in rows:
        if any(one.name == "again" for one in fields(row)):  # type: ignore[arg-type]
            times = prints_of(view, _label(row), _code(row))
            row = replace(row, again=times) if times else row  # type: ignore[type-var]
        made.append(row)
    return made


def put_on_record(rows: Sequence[Any], copies: int = 1) -> list[Printed]:
    """What is recorded once these labels are out: one fact a label, of jars one a stretch.

    Args:
        copies: how many of each row.
    """
    jars = [row for row in rows if isinstance(row, JarLabel)]
    others = Counter((row.label, row.code) for row in rows if not isinstance(row, JarLabel))
    facts = [Printed(label, code, times * copies) for (label, code), times in others.items()]
    return facts + [
        Printed(label, lot, copies, first, last) for label, lot, first, last in _stretches(jars)
    ]


def told_before(view: View, rows: Sequence[Any]) -> Phrase | None:
    """What is worth knowing of labels that were printed before; None where none was."""
    jars = [row for row in rows if isinstance(row, JarLabel)]
    for label, lot, first, last in _stretches(jars):
        before = shared(serials_printed(view, label, lot), first, last)
        if before and label == JAR_FRONT:
            return phrase("Such fronts were printed before for this lot.")
        if before:
            return phrase(
                "Printed before: serials {serials}. No two jars may carry one code, so throw the "
                "older labels away.",
                serials=", ".join(_words(*one) for one in before),
            )
    times = max((getattr(row, "again", 0) for row in rows), default=0)
    return (
        phrase("It was printed before: this is reprint {again}.", again=times) if times else None
    )


def told_of_code(view: View, rows: Sequence[Any]) -> Phrase | None:
    """Where the code of a jar is whose front has none; None where the label has it."""
    front = next((row for row in rows if getattr(row, "label", "") == JAR_FRONT), None)
    if front is None:
        return None
    _, lot, first, last = next(iter(_stretches([front])))
    if any(shared(serials_printed(view, label, lot), first, last) for label in _OF_JAR):
        return phrase("The front has no code: it is on the back or on the lid seal.")
    return phrase(
        "The front has no code: it is on the back and on the lid seal, and neither was printed "
        "yet. A jar without one of them is traced by its lot at best."
    )


def told_of_copies(rows: Sequence[Any], copies: int) -> Phrase | None:
    """What is worth knowing where a jar's own code is printed more than once."""
    if copies > 1 and any(getattr(row, "label", "") in _OF_JAR for row in rows):
        return phrase("Each jar's own code comes {copies} times: put one on a jar.", copies=copies)
    return None


def _stretches(rows: Sequence[JarLabel]) -> list[tuple[str, str, int, int]]:
    """Kind, lot, first and last serial of what is printed of jars."""
    serials: dict[tuple[str, str], list[tuple[int, int]]] = {}
    for row in rows:
        jar = _jar(row.code)
        serials.setdefault((row.label, str(jar.lot)), []).append((jar.serial, jar.serial))
    return [(*of, *stretch) for of, ones in serials.items() for stretch in joined(ones)]


def _jar(code: str) -> JarCode:
    """A jar's code as it is printed, with the prefix of its house or without."""
    prefix = code.partition("-")[0] if code.count("-") > 3 else ""
    read = parse_code(code, prefix)
    assert isinstance(read, JarCode)
    return read


def _words(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}–{last}"


def _label(row: Any) -> str:
    return str(row.label)


def _code(row: Any) -> str:
    return str(row.code)
