"""An instrument found off: every reading made with it since it was last found right.

Only readings that name their instrument can be told; the others are not in the list, and a person
who has found one off should know that.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.calibration import Checked, Read, in_doubt
from honeyledger.domain.moments import Moment, moment_at
from honeyledger.domain.quantities import QUANTITIES
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.results import parse_result
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.composite import COMPOSITE
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import key_of
from honeyledger.ledger.state import Mark
from honeyledger.ledger.verbs.checks import CHECKED, EQUIPMENT
from honeyledger.ledger.verbs.measuring import MAY_BE_OFF
from honeyledger.ledger.yard_log import noted, told
from honeyledger.services.dock import Choice
from honeyledger.services.holding import name_in
from honeyledger.services.readings import checks_of
from honeyledger.services.store import View

NOT_OFF = Sentence(
    "not-off", "{name} reads what is known: nothing is in doubt. Type both figures again if it is."
)
WHICH_CHECK = Sentence(
    "which-check", "{name} was checked on {checks}: say which of them this is about."
)
NO_READERS = ("sieve", "magnet", "scale")
"""Sorts of equipment that read nothing of honey."""
LATELY_MS = 60 * 86_400_000
"""For so long a page shows what an instrument found off puts in doubt."""


@dataclass(frozen=True, slots=True)
class Off:
    """An instrument as it was found off, in the ledger's units.

    Args:
        of: what it reads, see `domain.quantities`; figures are in its parts.
        check: what its checks are called, "" where it has one kind only.
    """

    instrument: str
    of: str
    known: int
    read: int
    check: str = ""


@dataclass(frozen=True, slots=True)
class DoubtRow:
    """A reading in doubt, and what it would be with the instrument off all the time."""

    code: str
    read_at: Moment
    value: int
    corrected: int


@dataclass(frozen=True, slots=True)
class Doubts:
    """What is in doubt; `unnamed` counts readings of that time that name no instrument."""

    name: str
    since: Moment | None
    rows: tuple[DoubtRow, ...]
    unnamed: int
    of: str = "moisture"


def instruments(view: View) -> tuple[Choice, ...]:
    """What a reading may be made with, by name, to choose from."""
    rows = [
        Choice(name, name, str(record.get("sort", "")))
        for mark in view.marked("record", f"{EQUIPMENT}/")
        if isinstance(record := mark.value, Mapping) and record.get("sort") not in NO_READERS
        if (name := str(record.get("name", "")))
    ]
    return tuple(sorted(rows, key=lambda row: row.name.casefold()))


def readings_in_doubt(view: View, off: Off, now_ms: int) -> Doubts:
    """The readings an instrument puts in doubt, oldest first.

    Raises:
        Refusal: there is no such instrument, it is not off, or it has checks of several kinds.
    """
    subject, record = find_record(view, EQUIPMENT, off.instrument, "instrument")
    name = str(record.get("name", ""))
    if off.known == off.read:
        raise Refusal(NOT_OFF, field="read", name=name)
    checks = _checks(view, subject, name, off, now_ms)
    names = {name.casefold(), key_of(subject).casefold()}
    readings, unnamed = _readings(view, off.of, names)
    return _doubts(view, (name, off.of), (checks, 0), (readings, unnamed))


def doubtful_lately(view: View, now_ms: int) -> Mapping[tuple[str, int], int]:
    """Moistures in doubt by what was found off lately: lot and reading, to what it would be."""
    found = doubts_on_record(view, since_ms=now_ms - LATELY_MS)
    return {
        (row.code, row.value): row.corrected
        for one in found
        if one.of == "moisture"
        for row in one.rows
    }


def doubts_on_record(view: View, instrument: str = "", since_ms: int = 0) -> tuple[Doubts, ...]:
    """What calibrations on record put in doubt, of one instrument or of all that were found off.

    Args:
        since_ms: those found off before are left out.

    Raises:
        Refusal: there is no such instrument.
    """
    subjects = [mark.subject for mark in view.marked("record", f"{EQUIPMENT}/")]
    if instrument:
        subjects = [find_record(view, EQUIPMENT, instrument, "instrument")[0]]
    found = []
    for subject in subjects:
        marks = [one for one in noted(view, subject, CHECKED) if told(one, "of")]
        off = [one for one in marks if told(one, "result") != "ok" and one.at_ms >= since_ms]
        name = name_in(view, subject)
        names = {name.casefold(), key_of(subject).casefold()}
        for of in dict.fromkeys(told(one, "of") for one in off):
            may_be_off = MAY_BE_OFF.get(of, QUANTITIES[of].repeats_to)
            checks = checks_of(view, subject, of), may_be_off
            first_ms = min(one.at_ms for one in off if told(one, "of") == of)
            read = _readings(view, of, names, _right_before(checks[0], first_ms, may_be_off))
            found.append(_doubts(view, (name, of), checks, read))
    return tuple(found)


def _right_before(checks: Sequence[Checked], at_ms: int, may_be_off: int) -> int:
    """When it was last found right before a moment; 0 where it never was."""
    right = [one.at_ms for one in checks if abs(one.known - one.read) <= may_be_off]
    return max((one for one in right if one < at_ms), default=0)


def _doubts(
    view: View,
    what: tuple[str, str],
    checks: tuple[Sequence[Checked], int],
    read: tuple[Sequence[Read[str]], Sequence[Read[str]]],
) -> Doubts:
    """What checks, with how far it may be off, say to readings, and to those that name nothing."""
    (name, of), (done, may_be_off), (readings, unnamed) = what, checks, read
    found = in_doubt(done, readings, may_be_off)
    right = [one.at_ms for one in done if abs(one.known - one.read) <= may_be_off]
    since_ms = found[0].since_ms if found else max(right, default=None)
    zone = rules_of(view).zone
    return Doubts(
        name,
        None if since_ms is None else moment_at(since_ms, zone),
        tuple(
            DoubtRow(
                one.reading.of,
                moment_at(one.reading.at_ms, zone),
                one.reading.value,
                one.corrected,
            )
            for one in found
        ),
        len(in_doubt(done, unnamed, may_be_off)),
        of,
    )


def _checks(view: View, subject: str, name: str, off: Off, now_ms: int) -> list[Checked]:
    """Its checks of one kind; found off now where none since it was right says so."""
    marks = noted(view, subject, CHECKED)
    kinds = sorted({told(mark, "what") for mark in marks}, key=str.casefold)
    if not off.check and len({kind.casefold() for kind in kinds}) > 1:
        raise Refusal(WHICH_CHECK, field="check", name=name, checks=", ".join(kinds))
    wanted = off.check.strip().casefold()
    meant = [mark for mark in marks if wanted in ("", told(mark, "what").casefold())]
    checks = [_checked(mark, off) for mark in sorted(meant, key=lambda mark: mark.at_ms)]
    if not checks or checks[-1].known == checks[-1].read:
        checks.append(Checked(now_ms, off.known, off.read))
    return checks


def _checked(mark: Mark, off: Off) -> Checked:
    is_right = told(mark, "result") == "ok"
    return Checked(mark.at_ms, off.known, off.known if is_right else off.read)


def _readings(
    view: View, of: str, names: Collection[str], since_ms: int = 0
) -> tuple[Sequence[Read[str]], Sequence[Read[str]]]:
    """Readings made with an instrument of these names, and those that name none.

    Of a sample's reading those of its lots are listed, not the sample.
    """
    entries = view.entries(("measure", "reverse"), since_ms)
    undone = {entry.reverses for entry in entries if entry.reverses}
    readings: list[Read[str]] = []
    unnamed: list[Read[str]] = []
    for entry in entries:
        said = entry.facts.get("said")
        if entry.reverses or entry.id in undone or not isinstance(said, Mapping):
            continue
        instrument = str(said.get("instrument", "")).strip().casefold()
        if instrument and instrument not in names:
            continue
        for subject, parts in _figures(entry, of):
            one = Read(entry.act.happened.at_ms, subject, parts)
            (readings if instrument else unnamed).append(one)
    return readings, unnamed


def _figures(entry: Entry, of: str) -> list[tuple[str, int]]:
    """The lots an entry read this quantity of, with its figure in parts."""
    found = []
    for subject, name, value in rows_of(entry, "marks"):
        if str(name).removeprefix(COMPOSITE) != of:
            continue
        parts = value if isinstance(value, int) else None
        if isinstance(value, str) and of in QUANTITIES:
            parts = QUANTITIES[of].parts(parse_result(value))
        if parts is not None:
            found.append((str(subject), parts))
    lots = [row for row in found if not row[0].startswith("X")]
    return lots or found
