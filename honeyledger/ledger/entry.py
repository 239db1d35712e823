"""What is written once and never changed: entries with their lots, postings and origins.

An `Entry` that does not balance, or whose made lots are not whole, cannot be made.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import BrokenRule

Json: TypeAlias = "str | int | Sequence[Json] | Mapping[str, Json]"

LOT_KINDS = "SPTDJKWXA"
SOURCE_KINDS = "SPA"  # made from an outside place; every other lot has origins
COUNTED_KINDS = "A"  # packaging is counted, not weighed, and only in reach: 0 g are allowed


@dataclass(frozen=True, slots=True)
class Lot:
    """Honey of one make-up. `made_g` is what it was made of, in grams, above 0.

    Packaging (kind A) is a lot of no grams.
    """

    id: int
    code: str
    kind: str
    made_by: int
    made_g: int
    season: int
    attributes: Mapping[str, Json] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Posting:
    """Grams of one lot coming to (above 0) or leaving (below 0) one place."""

    line: int
    lot: int
    place: str
    grams: int


@dataclass(frozen=True, slots=True)
class Origin:
    """Lot `child` is made of `grams` of lot `parent`; 0 g says "in reach" and no more."""

    line: int
    child: int
    parent: int
    grams: int
    late: bool = False


@dataclass(frozen=True, slots=True)
class Act:
    """Who does what, when and where: the part of an entry's header a face gives.

    Args:
        happened: when it happened, as said (not when it was typed).
        operator: code of the person.
        station: name of the computer or place of entry.
        command: the face's own id of this command, so that a retry writes once.
        run: code of the open run, or "".
        unsure_ms: how far the time may be off either way ("times approximate"); widens reach.
    """

    happened: Moment
    operator: str
    station: str
    command: str
    run: str = ""
    unsure_ms: int = 0


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that happened.

    `facts` holds what was said ("said"), what the books concluded from it ("effects", see
    `effects`) and what the person was told ("notes"); integers and strings only.

    Raises:
        BrokenRule: postings do not sum to 0 g, or a made lot is not whole.
    """

    id: int
    kind: str
    act: Act
    recorded_ms: int
    part: int
    facts: Mapping[str, Json]
    lots: tuple[Lot, ...] = ()
    postings: tuple[Posting, ...] = ()
    origins: tuple[Origin, ...] = ()
    reverses: int = 0

    def __post_init__(self) -> None:
        total_g = sum(posting.grams for posting in self.postings)
        if total_g:
            raise BrokenRule(f"entry {self.id} ({self.kind}) is out of balance by {total_g} g")
        for lot in self.lots:
            self._check_whole(lot)
        for origin in self.origins:
            if origin.parent == origin.child:
                raise BrokenRule(f"lot {origin.child} cannot be its own origin")
            if origin.grams < 0 or (origin.grams and origin.parent >= origin.child):
                raise BrokenRule(f"entry {self.id}: origin line {origin.line} is out of order")

    def _check_whole(self, lot: Lot) -> None:
        if lot.made_g < (lot.kind not in COUNTED_KINDS):
            raise BrokenRule(f"lot {lot.code} would be made of {lot.made_g} g")
        parents = [origin.grams for origin in self.origins if origin.child == lot.id]
        if lot.kind in SOURCE_KINDS:
            if any(parents):
                raise BrokenRule(f"source lot {lot.code} cannot have origins with grams")
        elif sum(parents) != lot.made_g:
            raise BrokenRule(f"lot {lot.code} is made of {sum(parents)} g, not {lot.made_g} g")
