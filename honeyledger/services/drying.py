"""Hours until what waits in the hot room is dry enough, from its readings since it came in."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.air import balance_moisture
from honeyledger.domain.drying_trend import TOO_FEW, hours_to
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.effects import rows_of
from honeyledger.services.store import View

HOUR_MS = 3_600_000
READ_BY = ("receive", "measure", "dry", "amend", "reverse")

Readings = Sequence[tuple[int, int]]
"""Moments in milliseconds, and hundredths of a percent."""


@dataclass(frozen=True, slots=True)
class ToDry:
    """How long honey that is too wet needs yet: hours from now, from and to.

    Args:
        why_not: in words, where the readings do not say; then the hours mean nothing.
        too_few: whether that is because there are too few of them.
    """

    target: int
    soonest_h: int = 0
    latest_h: int = 0
    why_not: str = ""
    too_few: bool = False


def moistures_of(
    view: View, codes: Collection[str], since_ms: int
) -> Mapping[str, list[tuple[int, int]]]:
    """The readings of lots since then, the oldest first; what was reversed is left out."""
    found: dict[str, list[tuple[int, int]]] = {}
    if not codes:
        return found
    entries = view.entries(READ_BY, since_ms)
    undone = {entry.reverses for entry in entries if entry.reverses}
    for entry in entries:
        if entry.reverses or entry.id in undone:
            continue
        for subject, name, value in rows_of(entry, "marks"):
            if name == "moisture" and subject in codes and isinstance(value, int):
                at = entry.act.happened.at_ms, value
                found.setdefault(str(subject), []).append(at)
    return {code: sorted(rows) for code, rows in found.items()}


def to_dry(readings: Readings, now_ms: int, humidity: int | None, target: int) -> ToDry | None:
    """How long honey needs yet in the air it stands in; None where it is dry enough.

    Args:
        humidity: of that air, hundredths of a percent, where it was read.
    """
    if not readings or readings[-1][1] <= target:
        return None
    balance = None if humidity is None else balance_moisture(humidity)
    try:
        dries = hours_to(target, readings, balance)
    except Refusal as refusal:
        return ToDry(target, why_not=refusal.text, too_few=refusal.key == TOO_FEW.key)
    ago = (now_ms - readings[-1][0]) / HOUR_MS
    soonest, latest = max(0.0, dries.soonest - ago), max(0.0, dries.latest - ago)
    return ToDry(target, int(soonest), -int(-latest // 1))
