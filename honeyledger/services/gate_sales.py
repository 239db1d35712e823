"""What went at the farm gate, day by day: each day is a place of its own."""

from dataclasses import dataclass
from datetime import date

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.lookup import read_iso_day
from honeyledger.ledger.places import GATE, key_of
from honeyledger.services.dispatching import group_name, group_of
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View

GATE_BACKWARDS = Sentence(
    "gate-backwards", "The days from {first} to {last} run backwards. Give the earlier one first."
)


@dataclass(frozen=True, slots=True)
class GateSale:
    """What of one lot went on one day, returns taken off: jars where it is counted so, grams."""

    day: date
    code: str
    name: str
    jars: int
    grams: int


def gate_sales(view: View, first_day: str = "", last_day: str = "") -> tuple[GateSale, ...]:
    """Sales at the farm gate by day, then by lot, of these days (ISO, inclusive).

    Raises:
        Refusal: the days run backwards.
    """
    first, last = read_iso_day(first_day, "first_day"), read_iso_day(last_day, "last_day")
    if last and first > last:
        raise Refusal(GATE_BACKWARDS, field="last_day", first=first, last=last)
    names = PlaceNames(view)
    held = [
        row
        for row in view.held_at(GATE)
        if first <= key_of(row.place) <= (last or "9999") and (row.grams or row.pieces)
    ]
    lots = view.lots({row.lot for row in held})
    return tuple(
        GateSale(
            day=date.fromisoformat(key_of(row.place)),
            code=lots[row.lot].code,
            name=group_name(group_of(view, lots[row.lot]), names),
            jars=row.pieces,
            grams=row.grams,
        )
        for row in sorted(held, key=lambda row: (row.place, row.lot))
    )
