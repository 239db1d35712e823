"""What a backup is worth: what was recorded since, and for how long that has been at stake."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from honeyledger.services.store import View

# A day's work is what may be lost: common practice, no source.
OLD_MS = 24 * 60 * 60_000


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy of a house's file.

    Args:
        file: where it was written.
        at_ms: when, milliseconds UTC.
        ledger: the id of the ledger it is a copy of.
        entry, digest: its head.
    """

    file: str
    at_ms: int
    ledger: str
    entry: int
    digest: str


@dataclass(frozen=True, slots=True)
class Keeper:
    """Makes the backups of one house, and knows of the last.

    Args:
        where: the house's file or address.
        kept: "here" by this program; "server" where the database server's own tools do it;
            "nobody" where there is nothing to lose.
        make: writes a copy of the house at a place into a file, told on the way how far it is.
        last: the last backup of a ledger, by its id.
    """

    where: str
    kept: Literal["here", "server", "nobody"]
    make: Callable[[str, str, Callable[[int, int], None] | None], Backup]
    last: Callable[[str], Backup | None]


@dataclass(frozen=True, slots=True)
class AtStake:
    """What no backup has: how many entries, and when the first of them was recorded.

    Args:
        kept: the last backup; None where there is none of this ledger.
        since_ms: milliseconds UTC; 0 where everything is kept.
    """

    kept: Backup | None
    entries: int
    since_ms: int

    def is_old(self, now_ms: int) -> bool:
        """Whether more than a day's work would be lost with this computer."""
        return bool(self.entries) and now_ms - self.since_ms > OLD_MS


def at_stake(view: View, kept: Backup | None) -> AtStake:
    """Compare the last backup with the ledger; one of another course of it counts for nothing."""
    head = view.head()
    if kept is not None and not _is_of(view, kept):
        kept = None
    entries = head.entry - (kept.entry if kept else 0)
    if not entries:
        return AtStake(kept, 0, 0)
    first = view.entry_heads([head.entry - entries + 1])[0]
    return AtStake(kept, entries, first.recorded_ms)


def _is_of(view: View, kept: Backup) -> bool:
    """Whether the ledger still has the entry the backup ends with: it may have been put back."""
    if kept.ledger != view.head().ledger_id:
        return False
    heads = view.entry_heads([kept.entry]) if kept.entry else ()
    return not kept.entry or bool(heads and heads[0].digest == kept.digest)
