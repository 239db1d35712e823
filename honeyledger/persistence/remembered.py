"""What views have read of a house, kept for the next one while the chain ends where it did.

A head's digest stands for all that was ever written, upgrades and projections made anew included
(each is an entry), so that what was read under it is right for whoever finds it again, whatever
another station did meanwhile. The origin rows of a walk are read each time.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias, TypeVar

from honeyledger.ledger.state import HoldingRow
from honeyledger.services.store import HeadRow

MOST_KEPT = 30_000
"""Answers of one kind that are kept: of lots 16 megabytes, and never those of a whole house."""

Sourced: TypeAlias = tuple[HeadRow, tuple[HoldingRow, ...]]
"""A lot's head with the places its honey came from.

Plain tuples of plain values: in them Python looks for garbage once and never again.
"""

K = TypeVar("K")
V = TypeVar("V")


@dataclass(slots=True)
class Remembered:
    """Answers by what was asked for. Nothing is ever taken out: other threads read along.

    Args:
        names: of registers, None of those without one.
        typed: of entries, the kind and how long after it happened each was recorded.
        voids: the lines of each entry that do not count; None while nobody has read them.
        walks: how many were made before they were.
        is_full: whether the next view had better begin anew.
    """

    names: dict[str, str | None] = field(default_factory=dict)
    heads: dict[int, HeadRow] = field(default_factory=dict)
    sourced: dict[int, Sourced] = field(default_factory=dict)
    typed: dict[int, tuple[str, int]] = field(default_factory=dict)
    voids: Mapping[int, Collection[int]] | None = None
    walks: int = 0
    is_full: bool = False

    def answers(
        self, kept: dict[K, V], wanted: Collection[K], read: Callable[[Collection[K]], dict[K, V]]
    ) -> dict[K, V]:
        """Answers in the order wanted, of which only those not kept are read."""
        if len(wanted) > MOST_KEPT:
            return read(wanted)
        missing = [one for one in wanted if one not in kept]
        if missing:
            found = read(missing)
            if len(kept) + len(found) > MOST_KEPT:
                self.is_full = True
                return {one: found[one] if one in found else kept[one] for one in wanted}
            kept.update(found)
        return {one: kept[one] for one in wanted}


class Memory:
    """What is remembered of one end of the chain, the last one that anybody asked at."""

    def __init__(self) -> None:
        self._kept = ("", Remembered())

    def at(self, digest: str) -> Remembered:
        """What was read at this end of the chain."""
        kept_at, remembered = self._kept
        if kept_at != digest or remembered.is_full:
            remembered = Remembered()
            self._kept = (digest, remembered)
        return remembered
