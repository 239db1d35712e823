"""The clock of waiting supers where there is the small hive beetle: how long they have yet.

Sources: eggs fail to hatch below 50 % relative humidity, and damage by larvae is likely where
honey is held for more than 5 days (abstract of the Agricultural Research Service of the USDA, no.
112437); that honey is extracted within 1 to 3 days is practice of the trade.
"""

from collections.abc import Sequence
from dataclasses import dataclass

DRY = 5_000
"""Hundredths of a percent of humidity; below it eggs fail to hatch."""
USUAL_HOURS, LIKELY_HOURS = 72, 120
IN_TIME, HURRY, LATE, HELD_BACK = "in time", "hurry", "late", "held back by dry air"


@dataclass(frozen=True, slots=True)
class Clock:
    """Supers on the clock.

    Args:
        left: hours until damage is likely, 0 where they are over.
        state: "in time" up to 3 days, "hurry" up to 5, "late" after; "held back by dry air" where
            every reading of the air was dry. Those may have larvae already, so their hours count.
    """

    hours: int
    left: int
    state: str


def clock(hours: int, humidities: Sequence[int] = ()) -> Clock:
    """How supers stand that wait for so many hours, in air of these readings since they came.

    No reading is no dry air.
    """
    left = max(0, LIKELY_HOURS - hours)
    if humidities and max(humidities) < DRY:
        return Clock(hours, left, HELD_BACK)
    state = IN_TIME if hours <= USUAL_HOURS else HURRY if hours <= LIKELY_HOURS else LATE
    return Clock(hours, left, state)
