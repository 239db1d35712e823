"""From which run a drum may be that nobody wrote down: by its day, and by what the runs miss."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta

from honeyledger.domain.moments import house_day
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.places import key_of

MOST = 5
LONGEST_AGO_MS = 400 * 86_400_000  # a season and the winter after it


@dataclass(frozen=True, slots=True)
class Candidate:
    """A run, and the grams its scales found too little; None where it is not closed yet."""

    run: str
    missing_g: int | None

    @property
    def text(self) -> str:
        """As it stands in a sentence."""
        if self.missing_g is None:
            return f"{self.run} (still open)"
        return f"{self.run} ({format_mass(self.missing_g)} missing)"


def runs_near(b: Booking, net_g: int, filled_on: str) -> list[Candidate]:
    """Runs a drum of this weight may be of, the likeliest first.

    Where the day of filling is known, those of that day and the days beside it; else those that
    miss at least half of its weight. Nearest by weight first, then the newest.
    """
    zone = b.act.happened.zone
    found = []
    for mark in b.state.marked("opened", "run/"):
        if not b.at_ms - LONGEST_AGO_MS <= mark.at_ms <= b.at_ms:
            continue
        closed = b.state.mark(mark.subject, "closed")
        missing = _missing_g(closed.value) if closed else None
        if filled_on:
            first = house_day(mark.at_ms, zone) - timedelta(days=1)
            last = house_day(closed.at_ms if closed else b.at_ms, zone) + timedelta(days=1)
            if not first.isoformat() <= filled_on <= last.isoformat():
                continue
        elif missing is not None and missing * 2 < net_g:
            continue
        off = net_g if missing is None else abs(missing - net_g)
        found.append((off, -mark.at_ms, Candidate(key_of(mark.subject), missing)))
    return [row[2] for row in sorted(found, key=lambda row: row[:2])][:MOST]


def _missing_g(closed: object) -> int:
    balance = closed.get("balance") if isinstance(closed, Mapping) else None
    gap = balance.get("estimate_gap_g") if isinstance(balance, Mapping) else 0
    return gap if isinstance(gap, int) else 0
