"""What came in from each yard, lot by lot: net grams and supers, by the day of the pull.

A pull is what a yard's place gave, so what was amended or reversed counts as it stands now. Honey
that was full in drums before the house kept a ledger is none.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.places import YARD
from honeyledger.ledger.sources import first_place
from honeyledger.services.season_books import number_of
from honeyledger.services.store import View

PULLED = "pulled"
# A list of all lots of twenty years is written out, sorted and let go in one breath each, in which
# no other thread gets a turn.
_YARDS_AT_ONCE = 50


@dataclass(frozen=True, slots=True)
class Pull:
    """What a yard gave with one lot, net; `yard` is its place.

    Args:
        crew: who pulled it, as it was said; "" where nobody said.
    """

    yard: str
    season: int
    day: date
    supers: int
    grams: int
    crew: str = ""
    code: str = ""


def yard_records(view: View) -> Mapping[str, Mapping[str, Json]]:
    """The record of each yard, by its place."""
    return {
        mark.subject: mark.value
        for mark in view.marked("record", f"{YARD}/")
        if isinstance(mark.value, Mapping)
    }


def pulls_of(view: View, yards: Sequence[str]) -> list[Pull]:
    """What each yard gave with each lot, net; supers stand where their honey does.

    Honey of unknown source that was amended to a pallet has the yard's grams in the pull's place:
    then the pull keeps its supers and has none. What was reversed is left out.
    """
    made: list[Pull] = []
    for first in range(0, len(yards), _YARDS_AT_ONCE):
        made += _pulls_of(view, yards[first : first + _YARDS_AT_ONCE])
    return made


def _pulls_of(view: View, yards: Sequence[str]) -> list[Pull]:
    lots = {yard: [lot for lot in view.source_lots(yard) if _is_yield(lot)] for yard in yards}
    by_id = {lot.id: lot for found in lots.values() for lot in found}
    grams: dict[int, dict[str, int]] = {}
    for row in view.sources_of(sorted(by_id)) if by_id else ():
        grams.setdefault(row.lot, {})[row.place] = -row.grams
    days = _days(view, by_id.values())
    made: list[Pull] = []
    for yard, found in lots.items():
        for lot in found:
            here = grams.get(lot.id, {})
            taken_over = not any(one > 0 for one in here.values())
            if taken_over and (first_place(lot) != yard or view.reversed_by(lot.made_by)):
                continue
            if taken_over or here.get(yard, 0) > 0:
                supers = number_of(lot.attributes, "count")
                crew = str(lot.attributes.get("crew", ""))
                net_g = here.get(yard, 0)
                made.append(Pull(yard, lot.season, days[lot.id], supers, net_g, crew, lot.code))
    return made


def _is_yield(lot: Lot) -> bool:
    """Pulls, and honey that came in without one; not what is stated to have been there before."""
    return PULLED in lot.attributes or lot.attributes.get("basis") != "stated"


def _days(view: View, lots: Iterable[Lot]) -> dict[int, date]:
    """The day each was pulled; of what came in without a pull, the day it was met."""
    found, met = {}, []
    for lot in lots:
        day = lot.attributes.get(PULLED)
        if day:
            found[lot.id] = date.fromisoformat(str(day))
        else:
            met.append(lot)
    heads = {head.id: head for head in view.entry_heads({lot.made_by for lot in met})}
    zone = rules_of(view).zone
    return found | {lot.id: house_day(heads[lot.made_by].happened_ms, zone) for lot in met}
