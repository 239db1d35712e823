"""Who has some of a recall, or had: what they got, were told, answered, sent back, destroyed."""

from collections.abc import Collection, Mapping, Sequence

from honeyledger.domain.moments import Moment, house_day, moment_at
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import CUSTOMER, GATE, class_of, key_of
from honeyledger.ledger.state import Mark
from honeyledger.ledger.verbs.recalls import ANSWERED, TOLD, Case
from honeyledger.services.holding import gate_name, name_in
from honeyledger.services.recall_rows import Consignee, Notice
from honeyledger.services.store import View


def outside(view: View, lots: Collection[int]) -> list[tuple[str, int, int, int]]:
    """Place, lot, grams, pieces of all that customers have or had."""
    return [
        (row.place, row.lot, row.grams, row.pieces)
        for row in view.holdings_of(sorted(lots), emptied=True)
        if class_of(row.place) in (CUSTOMER, GATE)
    ]


def consignees(view: View, case: Case, lots: Mapping[int, Lot]) -> tuple[Consignee, ...]:
    """Each with what they got, who got most first."""
    theirs: dict[str, list[tuple[str, int, int, int]]] = {}
    for row in outside(view, lots):
        theirs.setdefault(row[0], []).append(row)
    papers, back = _papers(view, theirs, set(lots)), _returned(view, theirs, set(lots))
    marks = view.marks(case.subject)
    rows = []
    for where, held in theirs.items():
        key = key_of(where) if class_of(where) == CUSTOMER else ""
        record = view.mark(where, "record")
        value = record.value if record and isinstance(record.value, Mapping) else {}
        answer, answered = _answer(view, marks, key)
        rows.append(
            Consignee(
                key=key,
                name=name_in(view, where, key) if key else gate_name(key_of(where)),
                details={n: str(v) for n, v in value.items() if n != "name" and str(v)},
                lots=tuple(sorted({lots[row[1]].code for row in held})),
                has_g=sum(row[2] for row in held),
                has_pieces=sum(row[3] for row in held),
                back_g=back.get(where, 0),
                notes=tuple(papers.get(where, ())),
                told=_notices(view, marks, key),
                answered=answered,
                here_g=_said(answer, "here_g"),
                here_pieces=_said(answer, "here_jars"),
                destroyed_g=_said(answer, "destroyed_g") or 0,
                destroyed_pieces=_said(answer, "destroyed_jars") or 0,
                proof=word(answer, "proof"),
                passed_on=word(answer, "passed_on"),
            )
        )
    return tuple(sorted(rows, key=lambda row: (-row.has_g - row.back_g, row.name)))


def _papers(
    view: View, places: Collection[str], lots: Collection[int]
) -> dict[str, list[tuple[str, str]]]:
    """The notes by which lots in scope went to each, in their order."""
    zone = rules_of(view).zone
    rows = [row for row in view.moved("dispatch", lots) if row.place in places]
    codes = view.codes_given({row.entry for row in rows})
    made: dict[str, list[tuple[str, str]]] = {}
    for row in rows:
        day = house_day(row.happened_ms, zone).isoformat()
        made.setdefault(row.place, []).extend((code, day) for code in codes.get(row.entry, ()))
    return made


def _returned(view: View, places: Collection[str], lots: Collection[int]) -> dict[str, int]:
    back: dict[str, int] = {}
    for row in view.moved("take back", lots):
        if row.place in places:
            back[row.place] = back.get(row.place, 0) - row.grams
    return back


def _notices(view: View, marks: Sequence[Mark], key: str) -> tuple[Notice, ...]:
    if not key:
        return ()
    zone = rules_of(view).zone
    rows = [
        Notice(
            mark.entry,
            moment_at(mark.at_ms, zone),
            person_in(view, word(mark.value, "by")),
            *(word(mark.value, name) for name in ("how", "whom", "note")),
        )
        for mark in marks
        if mark.name.startswith(f"{TOLD}{key}/") and isinstance(mark.value, Mapping)
    ]
    return tuple(sorted(rows, key=lambda row: (row.at.at_ms, row.entry)))


def _answer(
    view: View, marks: Sequence[Mark], key: str
) -> tuple[Mapping[str, Json], Moment | None]:
    """The latest answer of a customer and when it came."""
    found = [mark for mark in marks if key and mark.name.startswith(f"{ANSWERED}{key}/")]
    if not found:
        return {}, None
    last = max(found, key=lambda mark: (mark.at_ms, mark.entry))
    assert isinstance(last.value, Mapping)
    return last.value, moment_at(last.at_ms, rules_of(view).zone)


def _said(answer: Mapping[str, Json], name: str) -> int | None:
    number = answer.get(name, -1)
    return number if isinstance(number, int) and number >= 0 else None


def word(value: Mapping[str, Json], name: str) -> str:
    """A text of a mark, "" where it says nothing."""
    return str(value.get(name, ""))


def person_in(view: View, who: str) -> str:
    """A person by name, as signed where the register does not know them."""
    return name_in(view, f"operator/{who}", who) if who else ""
