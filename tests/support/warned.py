"""Whether the program had warned of a yard that is missing from a reach, and by what.

A load that was never written down leaves its mark in the books: honey that nobody can name, a
weight above what they saw, or supers on the floor that are not there when somebody counts.
"""

from dataclasses import dataclass

from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import PALLET, UNKNOWN, key_of
from honeyledger.services.house import notes_of
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back
from tests.support.seasons import Hole, Season

SHORTFALL = "more-than-the-books"


@dataclass(frozen=True, slots=True)
class Warned:
    """What spoke for a hole: each one is a separate sign.

    Args:
        unknown: honey of unknown source is in the lot's own reach, put on hold when it was found.
        shortfall: a draw in its reach weighed more than the books saw, and its note said so.
        standing: the missing yard's supers stand on a pallet in the books that is empty in truth.
    """

    unknown: bool
    shortfall: bool
    standing: bool

    @property
    def by_itself(self) -> bool:
        """Whether the lot's own page says it, without anybody counting pallets."""
        return self.unknown or self.shortfall

    @property
    def at_all(self) -> bool:
        """Whether anything says it."""
        return self.by_itself or self.standing


def warned_of(season: Season, hole: Hole) -> Warned:
    """The signs that speak for a hole, at the end of its season."""
    return season.built.house.ask(lambda view: _warned_of(view, season, hole))


def _warned_of(view: View, season: Season, hole: Hole) -> Warned:
    trace = trace_back(view, hole.code)
    reach = {lot.id for lot in trace.lots}
    return Warned(
        unknown=any(row.kind == UNKNOWN for row in trace.ancestors),
        shortfall=any(_lots_of(entry) & reach for entry in _with_shortfall(view)),
        standing=hole.missing <= _standing_though_gone(view, season),
    )


def _with_shortfall(view: View) -> list[Entry]:
    return [e for e in view.entries() if SHORTFALL in [key for key, _ in notes_of(e)]]


def _lots_of(entry: Entry) -> set[int]:
    return {posting.lot for posting in entry.postings}


def _standing_though_gone(view: View, season: Season) -> set[str]:
    """Yards with supers on pallets in the books that are not on the floor any more."""
    there = {pallet.tag for pallet in season.world.pallets}
    gone = [row for row in view.on_hand([PALLET]) if key_of(row.place) not in there]
    return {str(row.lot.attributes.get("yard", "")) for row in gone}
