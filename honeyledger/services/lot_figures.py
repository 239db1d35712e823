"""What a lot brings to a sum: its grams in the house, and what was last read of it."""

from dataclasses import dataclass

from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.places import is_inside
from honeyledger.services.holding import reading
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class LotFigures:
    """A lot's figures.

    Args:
        moisture: hundredths of a percent; colour tenths of a millimetre; None where not read.
    """

    code: str
    grams: int
    moisture: int | None
    colour: int | None


def lot_figures(view: View, text: str) -> LotFigures:
    """The figures of a lot.

    Raises:
        Refusal: there is no such lot.
    """
    lot = find_lot(view, text)
    here = sum(row.grams for row in view.holdings(lot.id) if is_inside(row.place))
    moisture, colour = (reading(view, lot.code, name) for name in ("moisture", "colour"))
    return LotFigures(lot.code, here, moisture, colour)
