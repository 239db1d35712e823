"""Orders of customers that have not gone out yet: who wants what by which day.

An order is a record of the house. It is done when its record says so, or when a dispatch note
carries its name as the customer's reference.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from honeyledger.ledger.places import CUSTOMER, place
from honeyledger.ledger.yard_log import told
from honeyledger.services.holding import name_in
from honeyledger.services.season_books import said_of
from honeyledger.services.store import View

ORDER = "order"


@dataclass(frozen=True, slots=True)
class Order:
    """An order; `due` None where nobody said a day."""

    name: str
    customer: str
    goods: str
    due: date | None


def open_orders(view: View) -> tuple[Order, ...]:
    """The orders that wait, those due first."""
    marks = [mark for mark in view.marked("record", f"{ORDER}/") if _waits(mark.value)]
    if not marks:
        return ()
    entries = view.entries(("dispatch", "reverse"), min(mark.at_ms for mark in marks))
    undone = {entry.reverses for entry in entries if entry.reverses}
    gone = {
        str(said_of(entry).get("reference", "")).strip().casefold()
        for entry in entries
        if not entry.reverses and entry.id not in undone
    }
    rows = []
    for mark in marks:
        if told(mark, "name").casefold() in gone:
            continue
        key, due = told(mark, "customer"), told(mark, "due")
        customer = name_in(view, place(CUSTOMER, key), key)
        day = date.fromisoformat(due) if due else None
        rows.append(Order(told(mark, "name"), customer, told(mark, "goods"), day))
    return tuple(sorted(rows, key=lambda one: (one.due or date.max, one.name.casefold())))


def _waits(value: object) -> bool:
    return isinstance(value, Mapping) and not value.get("done")
