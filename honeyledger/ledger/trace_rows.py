"""What a trace answers: plain frozen rows, the same for window, terminal and paper.

Rows that come in thousands are plain tuples by name, which are made four times as fast.
"""

from dataclasses import dataclass
from typing import NamedTuple


class Ancestor(NamedTuple):
    """A first ancestor of what was traced: a yard, a supplier, or nobody knows.

    Args:
        kind: "yard", "supplier" or "unknown".
        code: the place's code, so that it traces forward.
        share: of the honey in what was traced; an estimate (0.0 may still be in reach).
        grams: the share in grams; all rows add up to its honey exactly.
        how: each way it is in: "grams", "heel", "margin", "late", "amended".
        only_through_heel: not reached once origins from one tank fill to the next go.
    """

    kind: str
    code: str
    name: str
    share: float
    grams: int
    how: tuple[str, ...]
    only_through_heel: bool


class AddedLot(NamedTuple):
    """An ingredient or packaging lot in what was traced: no honey, and no first ancestor.

    Args:
        sort: "ingredient" or "packaging"; the latter has no grams.
        share: of all that was traced, honey included.
    """

    code: str
    sort: str
    name: str
    supplier: str
    supplier_lot: str
    share: float
    grams: int


class ReachedLot(NamedTuple):
    """A lot in the reach; `share` is its part of what was traced, or of itself forward."""

    id: int
    code: str
    kind: str
    share: float
    grams: int


class Ribbon(NamedTuple):
    """Honey of `parent` in `child`, in grams: what reached the traced lot, or came of it."""

    child: int
    parent: int
    grams: float
    heel: bool
    late: bool


class SourceRibbon(NamedTuple):
    """Honey of a first ancestor in a source lot, as far as it reached what was traced."""

    code: str
    lot: int
    grams: float


@dataclass(frozen=True, slots=True)
class BackTrace:
    """Where a lot or a jar comes from."""

    code: str
    lot: int
    made_g: int
    ancestors: tuple[Ancestor, ...]
    lots: tuple[ReachedLot, ...]
    ribbons: tuple[Ribbon, ...]
    sources: tuple[SourceRibbon, ...]
    reach_complete: bool
    starts: tuple[tuple[int, float], ...] = ()  # lots traced, by weight: a jar's fills
    added: tuple[AddedLot, ...] = ()

    @property
    def honey_g(self) -> int:
        """What of it is honey."""
        return self.made_g - sum(row.grams for row in self.added)


@dataclass(frozen=True, slots=True)
class CustomerReach:
    """What one customer got of the traced honey: whole lots, since reach is a fact."""

    code: str
    name: str
    lots: tuple[str, ...]
    grams: int
    jars: int


class PlaceReach(NamedTuple):
    """What of the traced honey stands at one inside place."""

    place: str
    lot: str
    grams: int
    pieces: int


@dataclass(frozen=True, slots=True)
class ForwardTrace:
    """Where honey of a place, a lot or a span of days went.

    Args:
        starts: the lots it was in at first, each with the part of it that is meant.
    """

    code: str
    lots: tuple[ReachedLot, ...]
    customers: tuple[CustomerReach, ...]
    on_hand: tuple[PlaceReach, ...]
    on_hand_g: int
    ribbons: tuple[Ribbon, ...] = ()
    starts: tuple[tuple[int, float], ...] = ()
