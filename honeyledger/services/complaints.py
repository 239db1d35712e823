"""Complaints with the trace of what each is about, newest first."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.state import Mark
from honeyledger.ledger.trace_rows import BackTrace
from honeyledger.ledger.verbs.jars import COMPLAINT
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back


@dataclass(frozen=True, slots=True)
class ComplaintRow:
    """A complaint: `number` is the entry that took it in, `day` ISO, `jar` a jar's code or ""."""

    number: int
    lot: str
    jar: str
    day: str
    who: str
    what: str
    answer: str


def complaint_rows(view: View, text: str = "") -> tuple[ComplaintRow, ...]:
    """All complaints, or those about a lot; answered ones among them, newest first.

    Raises:
        Refusal: no such lot.
    """
    if text:
        code = find_lot(view, text, field="code").code
        marks = [mark for mark in view.marks(code) if mark.name.startswith(COMPLAINT)]
    else:
        said = [rows_of(entry, "marks") for entry in view.entries(("complaint",))]
        names = {(str(subject), str(name)) for rows in said for subject, name, _ in rows}
        marks = [mark for pair in sorted(names) if (mark := view.mark(*pair))]
    rows = [_row(mark) for mark in marks]
    return tuple(sorted(rows, key=lambda row: -row.number))


def _row(mark: Mark) -> ComplaintRow:
    value = mark.value if isinstance(mark.value, Mapping) else {}
    said = {name: str(value.get(name, "")) for name in ("jar", "day", "who", "what", "answer")}
    return ComplaintRow(int(mark.name.removeprefix(COMPLAINT)), mark.subject, **said)


def traces_of(view: View, rows: tuple[ComplaintRow, ...]) -> tuple[BackTrace, ...]:
    """The trace of each complaint: of its jar where the code was given, else of its lot."""
    return tuple(trace_back(view, row.jar or row.lot, ribbons=False) for row in rows)
