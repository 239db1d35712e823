"""Containers that are with customers: a statement of what each owes, oldest first."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.moments import Moment, moment_at
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.empties import is_out
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import CUSTOMER, DRUM, key_of
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class Owed:
    """A container of the house that is with a customer.

    Args:
        container: its code; `name` is what it is called.
        customer: the place; `customer_name` is what people call it.
        lot: the drum it went out with, on the dispatch note `note`.
    """

    container: str
    name: str
    sort: str
    customer: str
    customer_name: str
    lot: str
    note: str
    since: Moment


def empties_owed(view: View, customer: str = "") -> tuple[Owed, ...]:
    """What a customer owes, or all of them, by customer, then by when it went out.

    Raises:
        Refusal: there is no such customer.
    """
    wanted = find_record(view, CUSTOMER, customer)[0] if customer.strip() else ""
    names, zone = PlaceNames(view), rules_of(view).zone
    rows = []
    for mark in view.marked("record", f"{DRUM}/"):
        out = is_out(view, mark.subject)
        if out is None or (wanted and out.customer != wanted):
            continue
        sort = mark.value.get("sort", "") if isinstance(mark.value, Mapping) else ""
        rows.append(
            Owed(
                container=key_of(mark.subject),
                name=names.of_record(mark.subject),
                sort=str(sort) or "drum",
                customer=out.customer,
                customer_name=names[out.customer],
                lot=out.lot,
                note=out.note,
                since=moment_at(out.since_ms, zone),
            )
        )
    return tuple(sorted(rows, key=lambda row: (row.customer_name, row.since.at_ms, row.name)))
