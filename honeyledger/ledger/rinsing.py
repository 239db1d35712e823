"""Honey that is rinsed out of vessels and kept: weighed back into a vessel of its own.

The scale is right: what the books saw more or less than was caught is weighing difference. All
that stood in the vessels washed is in the reach of what is made of it, at 0 g too.
"""

from collections.abc import Sequence

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.lookup import find_vessel
from honeyledger.ledger.mixing import Taken, name_of, put
from honeyledger.ledger.sources import Weight, net_of

RINSED_INTO_ITSELF = Sentence(
    "rinsed-into-itself", "{vessel} is washed itself: name another vessel for its rinse honey."
)
NOTHING_RINSED = Sentence(
    "nothing-rinsed",
    "By the books nothing was in what is washed: enter first what came in, or leave the rinse "
    "out.",
)
WHERE_RINSED = Sentence(
    "where-rinsed", "Name the vessel that the rinse honey went into, or give no weight for it."
)
RINSE_CARE = Sentence(
    "rinse-care",
    "Rinse honey is wet and ferments: keep it apart, read its moisture, and sell it as honey only "
    "if your local code allows it.",
)


def catch_rinse(b: Booking, vessels: Sequence[str], into: str, rinse_g: int | None) -> None:
    """What is in these vessels goes over as rinse honey, by the weight of the honey in it.

    Raises:
        Refusal: nobody said where it went; it is one of the vessels; nothing was there.
    """
    if not into.strip():
        if rinse_g is not None:
            raise Refusal(WHERE_RINSED, field="rinse_into")
        return
    net_of(Weight(net_g=rinse_g), None)
    kept = find_vessel(b.state, into, "rinse_into")
    if kept in vessels:
        raise Refusal(RINSED_INTO_ITSELF, field="rinse_into", vessel=name_of(b.state, kept))
    rows = [(vessel, row) for vessel in vessels for row in b.standing(vessel)]
    seen = sum(row.grams for _, row in rows)
    if not rows or (not seen and rinse_g is None):
        raise Refusal(NOTHING_RINSED, field="rinse_into")
    caught = seen if rinse_g is None else rinse_g
    # Where the books see it run empty, what clung is of the last that stood there.
    weights = [row.grams for _, row in rows] if seen else [*([0] * (len(rows) - 1)), 1]
    parts = largest_remainder(caught, weights)
    grams: dict[int, int] = {}
    for (vessel, row), part in zip(rows, parts, strict=True):
        b.differ(row.lot.id, vessel, part - row.grams)
        b.move(row.lot.id, vessel, kept, part)
        grams[row.lot.id] = grams.get(row.lot.id, 0) + part
    put(b, kept, [Taken(lot, part) for lot, part in grams.items()])
    b.note(RINSE_CARE)
