"""Everything the dispatch station shows at once: the shelf, the customers, the notes."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import CUSTOMER, SUPPLIER
from honeyledger.services.dispatch_notes import Lately, NoteRow, lately, note_rows
from honeyledger.services.dispatching import (
    GroupOnHand,
    OnShelf,
    on_hand_by_group,
    packs,
    shelf,
)
from honeyledger.services.dock import Choice, choices
from honeyledger.services.line import DAY_MS
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View

LATELY_DAYS = 60


@dataclass(frozen=True, slots=True)
class DispatchPage:
    """Dispatch at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        parties: who may have honey in their name, customers and suppliers.
        products: what is bottled here, whether there is any now or not.
        people: who may sign.
        shelf: every lot that could be sent, jars by product first, the oldest first.
        by_code: the same by code, with the cases and shipping pallets.
        on_hand: the same by product.
        notes: the newest notes, newest first.
        lately: what each customer had in the last days, by key; "gate" for the farm gate.
    """

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    now_ms: int
    customers: tuple[Choice, ...]
    parties: tuple[Choice, ...]
    products: tuple[Choice, ...]
    people: tuple[Choice, ...]
    shelf: tuple[OnShelf, ...]
    by_code: Mapping[str, OnShelf]
    on_hand: tuple[GroupOnHand, ...]
    notes: tuple[NoteRow, ...]
    lately: Mapping[str, Lately]

    def on_shelf(self, code: str) -> OnShelf | None:
        """A lot, case or pallet by its code; None for one that is not, or no longer, there."""
        return self.by_code.get(code)

    def group(self, group: str) -> GroupOnHand | None:
        """What there is of a group; None where there is nothing."""
        return next((row for row in self.on_hand if row.group == group), None)


def dispatch_page(view: View, now_ms: int) -> DispatchPage:
    """Dispatch as the ledger has it now."""
    zone = rules_of(view).zone
    rows = shelf(view)
    customers = choices(view, CUSTOMER)
    return DispatchPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=house_day(now_ms, zone),
        now_ms=now_ms,
        customers=customers,
        parties=(*customers, *choices(view, SUPPLIER)),
        products=choices(view, "product"),
        people=choices(view, "operator"),
        shelf=rows,
        by_code={row.code: row for row in (*rows, *packs(view, rows))},
        on_hand=on_hand_by_group(view, rows),
        notes=note_rows(view),
        lately=lately(view, now_ms - LATELY_DAYS * DAY_MS),
    )
