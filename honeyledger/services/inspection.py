"""One pack for an inspector about one jar or lot: where it is from, and how it was made.

Customers are not in it, nor where a yard stands: what an inspector wants beyond it is asked for
and shown by a person. Everything is from the books as they are; nothing is recorded by making it.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from honeyledger.domain.moments import Moment, moment_at
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.ledger.verbs.printing import prints_of
from honeyledger.services.complaints import ComplaintRow, complaint_rows
from honeyledger.services.histories import Told, history_of
from honeyledger.services.holding import name_in, noun_of
from honeyledger.services.printed import INSPECTORS_PACK, printed_words
from honeyledger.services.readings import Readings, readings_of
from honeyledger.services.setup import mass_unit
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back
from honeyledger.services.yard_days import yard_days

AROUND_MS = 2 * 86_400_000
"""Washes and checks are told from two days before the first of it was made, to the day it was."""
_LATER = 86_400_000
_TO_OTHERS = ("dispatch", "take back", "buyer's weight", "approve", "empties", "transfer title")


@dataclass(frozen=True, slots=True)
class YardNote:
    """What was done in one of its yards this season; `day` is ISO."""

    yard: str
    day: str
    what: str


@dataclass(frozen=True, slots=True)
class Done:
    """Something that was done at a time: a wash, a check, a calibration."""

    at: Moment
    what: str
    about: str
    by: str


@dataclass(frozen=True, slots=True)
class Inspection:
    """The pack.

    Args:
        code: as it was asked for, a jar's own among them.
        made: when the lot was made.
        complete: False where a part of it came from a source nobody named.
        washes, checks: around the days on which it was made.
        printed: when it was printed, and by whom.
        again: which print of it this is, after the first.
    """

    code: str
    lot: str
    noun: str
    product: str
    made: Moment
    house: str
    unit: MassUnit
    complete: bool
    sources: tuple[Ancestor, ...]
    yards: tuple[YardNote, ...]
    readings: tuple[Readings, ...]
    washes: tuple[Done, ...]
    checks: tuple[Done, ...]
    history: tuple[Told, ...]
    complaints: tuple[ComplaintRow, ...]
    entries: int
    digest: str
    printed: str
    again: int = 0


def inspection(view: View, now_ms: int, text: str, operator: str = "") -> Inspection:
    """The pack for a jar or a lot, printed by whoever is named by their code.

    Raises:
        Refusal: no such code; near codes that exist are offered.
    """
    trace = trace_back(view, text, ribbons=False)
    lot = find_lot(view, text, field="code")
    zone, unit = rules_of(view).zone, mass_unit(view)
    above = [one.id for one in trace.lots]
    heads = view.lot_heads(above)
    made_by = view.lots(above)
    moments = {
        head.id: head.happened_ms
        for head in view.entry_heads({one.made_by for one in made_by.values()})
    }
    times = [moments[one.made_by] for one in made_by.values() if heads[one.id].kind != "S"] or [
        moments[lot.made_by]
    ]
    span = (min(times) - AROUND_MS, max(times) + _LATER)
    head = view.head()
    told = history_of(view, lot, view.history(lot.id), PlaceNames(view), unit)
    product = str(lot.attributes.get("product", ""))
    return Inspection(
        code=trace.code,
        lot=lot.code,
        noun=noun_of(view, lot),
        product=name_in(view, f"product/{product}", product) if product else "",
        made=moment_at(moments[lot.made_by], zone),
        house=name_in(view, "house"),
        unit=unit,
        complete=trace.reach_complete,
        sources=trace.ancestors,
        yards=_yard_notes(view, trace.ancestors, unit, lot.season),
        readings=readings_of(view, lot),
        washes=tuple(done_between(view, ("wash",), span)),
        checks=tuple(done_between(view, ("check", "calibrate"), span)),
        history=tuple(one for one in told if one.kind not in _TO_OTHERS and not one.reversed_by),
        complaints=complaint_rows(view, lot.code),
        entries=head.entry,
        digest=head.digest,
        printed=printed_words(view, now_ms, operator),
        again=prints_of(view, INSPECTORS_PACK, trace.code),
    )


def _yard_notes(
    view: View, sources: Sequence[Ancestor], unit: MassUnit, season: int
) -> tuple[YardNote, ...]:
    """What was given, found and pulled in each yard of it, this season."""
    notes = []
    for source in sources:
        if source.kind != "yard" or not source.share:
            continue
        for day in yard_days(view, source.code, unit).days:
            if day.day.startswith(str(season)):
                notes.append(YardNote(source.name, day.day, day.sentence))
    return tuple(notes)


def done_between(view: View, kinds: Collection[str], span: tuple[int, int]) -> Sequence[Done]:
    """What was done in a stretch of time, in its order, reversed entries left out."""
    rows = []
    for entry in view.entries(kinds, span[0]):
        if entry.act.happened.at_ms > span[1] or entry.reverses or view.reversed_by(entry.id):
            continue
        by = entry.act.operator
        who = name_in(view, f"operator/{by}", by) if by else ""
        rows.append(Done(entry.act.happened, _what(entry), _about(view, entry), who))
    return sorted(rows, key=lambda row: (row.at.at_ms, row.about))


def _what(entry: Entry) -> str:
    said = entry.facts.get("said", {})
    assert isinstance(said, dict)
    if entry.kind == "wash":
        return "washed"
    if entry.kind == "calibrate":
        return f"read {said.get('against') or 'something known'}"
    result = "right" if said.get("result", "ok") == "ok" else "found off"
    value = str(said.get("value", ""))
    return f"{said.get('what', '')}: {result}{f', {value}' if value else ''}"


def _about(view: View, entry: Entry) -> str:
    """What it was done to, by name."""
    if entry.kind == "wash":
        places = [str(place) for (place,) in rows_of(entry, "touched")]
        return ", ".join(dict.fromkeys(name_in(view, place, place) for place in places))
    for subject, _, _ in rows_of(entry, "marks"):
        if name := name_in(view, str(subject)):
            return name
    return ""
