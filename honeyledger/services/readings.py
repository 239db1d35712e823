"""What was read of a lot, quantity by quantity: every reading, their mean and spread, what counts.

What counts is the latest of the lot's own readings, else the latest composite it has part in. A
reading made with an instrument that was found off stays as it was read; beside it stands what it
would have been.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from honeyledger.domain.calibration import Checked, Read, in_doubt
from honeyledger.domain.moments import Moment
from honeyledger.domain.quantities import IN_PARTS, QUANTITIES, Quantity, reported
from honeyledger.domain.repeated import FEWEST, Repeated, together
from honeyledger.domain.results import Result
from honeyledger.ledger.composite import COMPOSITE
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import Entry, Json, Lot
from honeyledger.ledger.verbs.measuring import (
    MAY_BE_OFF,
    calibrations,
    instrument_called,
)
from honeyledger.ledger.yard_log import told
from honeyledger.services.holding import name_in
from honeyledger.services.store import View

CHANGES_IT = ("dry",)
"""Entries after which an earlier moisture is no reading of the same honey."""


@dataclass(frozen=True, slots=True)
class LotReading:
    """One reading of a lot.

    Args:
        parts: its figure in parts of the quantity; None of what is below or above something.
        of: what the reading was said of, where that is not the lot itself: a sample, a tank.
        lots: how many lots it belongs to; more than one is a composite.
        corrected: in parts, of one in doubt: with the instrument off all the time by as much.
        right_ms: when its instrument was last found right before, 0 where it never was.
    """

    entry: int
    read_at: Moment
    result: Result
    parts: int | None
    by: str = ""
    instrument: str = ""
    laboratory: str = ""
    report: str = ""
    sampled: str = ""
    of: str = ""
    lots: int = 1
    corrected: int | None = None
    right_ms: int = 0

    def words(self, of: Quantity) -> str:
        """The result as people read it: of what the house goes by, its usual places."""
        if self.parts is not None and of.name in IN_PARTS:
            return of.said(self.parts)
        return of.words(self.result)


@dataclass(frozen=True, slots=True)
class Readings:
    """All readings of one quantity of a lot, the oldest first.

    Args:
        together: mean, spread and the odd one of the lot's own figures since it was last dried;
            None of fewer than two.
        odd: the entry of the odd one, 0 where none is.
    """

    quantity: Quantity
    rows: tuple[LotReading, ...]
    together: Repeated | None = None
    odd: int = 0

    @property
    def counts(self) -> LotReading:
        """The one that counts."""
        own = [row for row in self.rows if row.lots == 1]
        return (own or self.rows)[-1]


def readings_of(view: View, lot: Lot) -> tuple[Readings, ...]:
    """What was read of a lot, in the order of `domain.quantities`."""
    found: dict[str, list[LotReading]] = {}
    dried_ms = 0
    for entry in _counting(view, view.history(lot.id)):
        marks = [row for row in rows_of(entry, "marks") if row[0] == lot.code]
        if marks and entry.kind in CHANGES_IT:
            dried_ms = max(dried_ms, entry.act.happened.at_ms)
        for _, name, value in marks:
            plain = str(name).removeprefix(COMPOSITE)
            if plain in QUANTITIES and isinstance(value, int | str):
                row = _reading(view, entry, QUANTITIES[plain], value, lot.code)
                lots = _lots_of(entry, plain) if plain != name else 1
                found.setdefault(plain, []).append(replace(row, lots=lots))
    return tuple(
        _together(view, of, rows, dried_ms)
        for name, of in QUANTITIES.items()
        if (rows := found.get(name))
    )


def results_of(readings: Sequence[Readings]) -> Mapping[str, Result]:
    """What counts of each quantity, as rules of markets ask for it."""
    return {row.quantity.name: row.counts.result for row in readings}


def _counting(view: View, entries: Sequence[Entry]) -> list[Entry]:
    counting = [one for one in entries if not one.reverses and not view.reversed_by(one.id)]
    return sorted(counting, key=lambda one: (one.act.happened.at_ms, one.id))


def _reading(view: View, entry: Entry, of: Quantity, value: Json, code: str) -> LotReading:
    result = of.result(value) if isinstance(value, int) else reported(of, str(value))
    said = entry.facts.get("said", {})
    assert isinstance(said, Mapping)
    by, of_what = entry.act.operator, str(said.get("lot", "")) if entry.kind == "measure" else ""
    return LotReading(
        entry=entry.id,
        read_at=entry.act.happened,
        result=result,
        parts=of.parts(result),
        by=name_in(view, f"operator/{by}", by) if by else "",
        instrument=str(said.get("instrument", "")),
        laboratory=str(said.get("laboratory", "")),
        report=str(said.get("report", "")),
        sampled=str(said.get("sampled", "")),
        of="" if of_what.strip().casefold() == code.casefold() else of_what,
    )


def _lots_of(entry: Entry, name: str) -> int:
    """To how many lots one reading belongs."""
    return sum(1 for _, marked, _ in rows_of(entry, "marks") if marked == f"{COMPOSITE}{name}")


def _together(view: View, of: Quantity, rows: Sequence[LotReading], dried_ms: int) -> Readings:
    rows = with_corrections(view, of, rows)
    own = [
        (row, row.parts)
        for row in rows
        if row.lots == 1 and row.parts is not None and row.read_at.at_ms >= dried_ms
    ]
    if len(own) < FEWEST - 1 or of.name == "temperature":
        return Readings(of, tuple(rows))
    found = together([parts for _, parts in own], of.repeats_to)
    odd = own[found.odd][0].entry if found.odd is not None else 0
    return Readings(of, tuple(rows), found, odd)


def with_corrections(view: View, of: Quantity, rows: Sequence[LotReading]) -> list[LotReading]:
    """The readings, those in doubt with what they would be."""
    by_instrument: dict[str, list[Read[int]]] = {}
    for at, row in enumerate(rows):
        if row.instrument and row.parts is not None:
            subject = instrument_called(view, row.instrument)
            by_instrument.setdefault(subject, []).append(Read(row.read_at.at_ms, at, row.parts))
    shown = list(rows)
    for subject, read in by_instrument.items():
        checks = checks_of(view, subject, of.name) if subject else []
        for one in read if checks else ():
            right_ms = _right_before(checks, one.at_ms, of)
            shown[one.of] = replace(shown[one.of], right_ms=right_ms)
        for doubt in in_doubt(checks, read, _may_be_off(of)) if checks else ():
            at = doubt.reading.of
            shown[at] = replace(shown[at], corrected=doubt.corrected)
    return shown


def _right_before(checks: Sequence[Checked], at_ms: int, of: Quantity) -> int:
    right = [one.at_ms for one in checks if abs(one.known - one.read) <= _may_be_off(of)]
    return max((one for one in right if one <= at_ms), default=0)


def _may_be_off(of: Quantity) -> int:
    return MAY_BE_OFF.get(of.name, of.repeats_to)


def checks_of(view: View, instrument: str, of: str) -> list[Checked]:
    """An instrument's calibrations on record, the oldest first."""
    return [
        Checked(mark.at_ms, int(told(mark, "known")), int(told(mark, "read")))
        for mark in calibrations(view, instrument, of)
    ]
