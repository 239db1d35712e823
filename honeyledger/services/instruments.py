"""An instrument found off: every reading made with it since it was last found right.

Only readings that name their instrument can be told; the others are not in the list, and a person
who has found one off should know that.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.calibration import Checked, Read, in_doubt
from honeyledger.domain.moments import Moment, moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import key_of
from honeyledger.ledger.state import Mark
from honeyledger.ledger.verbs.yards import CHECKED, EQUIPMENT
from honeyledger.ledger.yard_log import noted, told
from honeyledger.services.store import View

NOT_OFF = Sentence(
    "not-off", "{name} reads what is known: nothing is in doubt. Type both figures again if it is."
)
WHICH_CHECK = Sentence(
    "which-check", "{name} was checked on {checks}: say which of them this is about."
)


@dataclass(frozen=True, slots=True)
class Off:
    """An instrument as it was found off, in the ledger's units.

    Args:
        of: what it reads: "moisture", "colour" or "temperature".
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
    found = in_doubt(checks, readings, 0)
    right = [one.at_ms for one in checks if one.known == one.read]
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
        len(in_doubt(checks, unnamed, 0)),
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
    view: View, of: str, names: set[str]
) -> tuple[Sequence[Read[str]], Sequence[Read[str]]]:
    """Readings made with an instrument of these names, and those that name none."""
    entries = view.entries(("measure", "reverse"))
    undone = {entry.reverses for entry in entries if entry.reverses}
    readings, unnamed = [], []
    for entry in entries:
        said = entry.facts.get("said")
        if entry.reverses or entry.id in undone or not isinstance(said, Mapping):
            continue
        instrument = str(said.get("instrument", "")).strip().casefold()
        for subject, name, value in rows_of(entry, "marks"):
            if name != of or not isinstance(value, int):
                continue
            if instrument in names:
                readings.append(Read(entry.act.happened.at_ms, str(subject), value))
            elif not instrument:
                unnamed.append(Read(entry.act.happened.at_ms, str(subject), value))
    return readings, unnamed
