"""An instrument found off: which of its readings are in doubt, and what they would have been.

Nobody knows when it went off, so every reading since it was last found right is in doubt, until
it is found right again. Beside each stands the value it would have had if the instrument had been
off all the time by as much as it was found to be: the reading itself stays as it was read.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

Of = TypeVar("Of", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Checked:
    """An instrument was read against something known, in its own unit."""

    at_ms: int
    known: int
    read: int


@dataclass(frozen=True, slots=True)
class Read(Generic[Of]):
    """A reading of something, such as a lot's code."""

    at_ms: int
    of: Of
    value: int


@dataclass(frozen=True, slots=True)
class InDoubt(Generic[Of]):
    """A reading in doubt.

    Args:
        corrected: what it would be with the instrument off all the time.
        since_ms: when the instrument was last found right before; None where it never was.
        found_ms: when it was found off.
    """

    reading: Read[Of]
    corrected: int
    since_ms: int | None
    found_ms: int


def in_doubt(
    checks: Sequence[Checked], readings: Sequence[Read[Of]], may_be_off: int
) -> tuple[InDoubt[Of], ...]:
    """The readings of one instrument that its checks put in doubt, in the order of time.

    What was read in the moment of a good check counts as read after it; found off twice, a reading
    goes by the check that came next after it, and what came after the last by that one.

    Args:
        may_be_off: how far it may be off and is right still.
    """
    found = []
    checks = sorted(checks, key=lambda one: one.at_ms)
    for reading in sorted(readings, key=lambda one: one.at_ms):
        good = [one for one in checks if one.at_ms <= reading.at_ms and _is_right(one, may_be_off)]
        since_ms = good[-1].at_ms if good else None
        off = _off_by(checks, reading.at_ms, since_ms, may_be_off)
        if off is not None:
            corrected = reading.value - (off.read - off.known)
            found.append(InDoubt(reading, corrected, since_ms, off.at_ms))
    return tuple(found)


def _is_right(check: Checked, may_be_off: int) -> bool:
    return abs(check.read - check.known) <= may_be_off


def _off_by(
    checks: Sequence[Checked], at_ms: int, since_ms: int | None, may_be_off: int
) -> Checked | None:
    """The check that puts a reading of a moment in doubt: the next one, else the last before."""
    following = next((one for one in checks if one.at_ms > at_ms), None)
    if following is not None and not _is_right(following, may_be_off):
        return following
    before = [one for one in checks if one.at_ms <= at_ms and (since_ms or 0) <= one.at_ms]
    last = before[-1] if before else None
    return last if last is not None and not _is_right(last, may_be_off) else None
