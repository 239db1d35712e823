"""The card of an invented drum."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.lot_card import (
    CardEvent,
    CardFact,
    CardOrigin,
    LotCardFacts,
)


def drum() -> LotCardFacts:
    """A drum on hold, of three yards."""
    return LotCardFacts(
        code="D26-0611-Y",
        kind="Drum, filled 24 Jul 2026",
        where="row 3 of the store",
        mark=Mark.HOLD,
        state="on hold",
        figures=(("300.5 kg", "made"), ("300.5 kg", "left"), ("17.1 %", "moisture")),
        pfund_mm=39,
        messages=(
            Message(
                Mark.HOLD, "Hold: treatment record", "of Osier Ford is missing. Not dispatched."
            ),
        ),
        origins=(
            CardOrigin("Tamarack Rise", 0.639, "63.9 %", 33),
            CardOrigin("Coulee Bend", 0.342, "34.2 %", 41),
            CardOrigin("Osier Ford", 0.019, "1.9 %", 55, heel_only=True),
        ),
        facts=(CardFact("Run", "R26-0093-U"), CardFact("Drum", "steel, 210 l, tare 17.6 kg")),
        history=(
            CardEvent("24 Jul 2026, 16:20", "Filled from T26-0101-S by Operator 2.", 48_190),
            CardEvent("25 Jul 2026, 08:05", "Measured: 17.1 %, 39 mm.", 48_240),
            CardEvent("25 Jul 2026, 08:40", "Put on hold with the pulls of Osier Ford.", 48_244),
        ),
    )
