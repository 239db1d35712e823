"""The stock of drums, totes and pails by colour class: how much, how wet, what is on hold."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from honeyledger.domain.colour import CLASSES, class_of
from honeyledger.ledger.places import DRUM
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.services.holding import held_lots, reading
from honeyledger.services.store import OnHand, View


@dataclass(frozen=True, slots=True)
class ColourStock:
    """The drums of one colour class; `symbol` is "" for those whose colour was not read.

    Args:
        held, held_g: those a hold reaches.
        wet: those read wetter than what is dried first; `unread` were not read for moisture.
        wettest: hundredths of a percent; None where nothing was read.
    """

    symbol: str
    count: int
    grams: int
    held: int
    held_g: int
    wet: int
    unread: int
    wettest: int | None


def drum_stock(view: View) -> tuple[ColourStock, ...]:
    """What stands in drums now, from the lightest class to the darkest, then what was not read."""
    held = held_lots(view)
    by_class: dict[str, list[OnHand]] = {}
    for row in view.on_hand([DRUM]):
        colour = reading(view, row.lot.code, "colour")
        by_class.setdefault("" if colour is None else class_of(colour).code, []).append(row)
    order = [*(one.code for one in CLASSES), ""]
    return tuple(
        _stock(view, symbol, by_class[symbol], held) for symbol in order if symbol in by_class
    )


def _stock(view: View, symbol: str, rows: Sequence[OnHand], held: Collection[int]) -> ColourStock:
    read = [reading(view, row.lot.code, "moisture") for row in rows]
    known = [one for one in read if one is not None]
    dry_first = dry_first_over(view)
    on_hold = [row for row in rows if row.lot.id in held]
    return ColourStock(
        symbol=symbol,
        count=len({row.place for row in rows}),
        grams=sum(row.grams for row in rows),
        held=len({row.place for row in on_hold}),
        held_g=sum(row.grams for row in on_hold),
        wet=sum(one > dry_first for one in known),
        unread=len(read) - len(known),
        wettest=max(known, default=None),
    )
