"""What there is at each place of the house just now, as plain rows: jars.

These are the tables of the stations, and what a person looks for first in each of them.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.phrases import phrase
from honeyledger.ledger.places import (
    FILLING,
    JARS,
    key_of,
    place,
)
from honeyledger.services.holding import held_lots
from honeyledger.services.stock import PlaceNames
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class JarsNow:
    """A jar lot on hand: `state` is "ready" or "hold"; one still open is "being bottled"."""

    code: str
    product: str
    state: str
    jars: int
    grams: int


def jars_now(view: View) -> tuple[JarsNow, ...]:
    """Bottlings still open, then the jars on hand by product, held ones first."""
    held = held_lots(view)
    names = PlaceNames(view)
    rows = []
    for row in view.on_hand([JARS]):
        product = str(row.lot.attributes.get("product", ""))
        state = phrase("hold") if row.lot.id in held else phrase("ready")
        name = names.of_record(f"product/{product}") if product else ""
        rows.append(JarsNow(row.lot.code, name, state, row.pieces, row.grams))
    filling: dict[str, tuple[int, int]] = {}
    for row in view.on_hand([FILLING]):
        jars, grams = filling.get(row.place, (0, 0))
        filling[row.place] = (jars + row.pieces, grams + row.grams)
    for where, (jars, grams) in filling.items():
        mark = view.mark(place("bottling", key_of(where)), "open")
        record = mark.value if mark and isinstance(mark.value, Mapping) else {}
        name = names.of_record(f"product/{record.get('product', '')}")
        rows.append(JarsNow(key_of(where), name, phrase("being bottled"), jars, grams))
    order = {"being bottled": 0, "hold": 1}
    return tuple(
        sorted(rows, key=lambda row: (order.get(row.state, 2), row.product.casefold(), row.code))
    )
