"""A run against the pull sheets of what went in: supers, pallets emptied, scans in doubt.

Told before anybody signs: a pallet that is still half full, or a super that the sheet has and
nobody loaded, is found now or by a recall.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from honeyledger.ledger.entry import Entry
from honeyledger.ledger.places import PALLET, class_of, key_of, place
from honeyledger.ledger.run_balance import RunBalance
from honeyledger.services.dock import supers_on_sheet
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class AgainstSheets:
    """What the run took, against what the sheets of its pulls say.

    Args:
        supers: loaded in this run; `on_sheets` of all its pulls, as counted where no sheet says.
        pallets: how many it took from; `not_empty` are those on which something still stands.
        unsure: loads whose time is not sure, as they were typed in from paper or late.
    """

    supers: int = 0
    on_sheets: int = 0
    pallets: int = 0
    not_empty: tuple[str, ...] = ()
    unsure: int = 0


def against_sheets(view: View, balance: RunBalance, entries: Sequence[Entry]) -> AgainstSheets:
    """A run's loads against the pull sheets."""
    loads = [entry for entry in entries if entry.kind == "load"]
    pallets = sorted(
        {
            key_of(row.place)
            for entry in loads
            for row in entry.postings
            if class_of(row.place) == PALLET
        }
    )
    pulls = {row.pull for row in balance.loaded}
    return AgainstSheets(
        supers=balance.supers,
        on_sheets=sum(supers_on_sheet(view, lot) for lot in view.lots(pulls).values()),
        pallets=len(pallets),
        not_empty=tuple(one for one in pallets if view.standing(place(PALLET, one))),
        unsure=sum(bool(entry.act.unsure_ms) for entry in loads),
    )
