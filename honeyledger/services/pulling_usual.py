"""What the ledger knows of a truck, of the hot room, and of where the house stands.

A figure of few days says little: until some days were worked, what is usual stands in for it.
"""

from collections.abc import Mapping, Sequence

from honeyledger.domain.distances import Spot
from honeyledger.services.season_pace import FORTNIGHT, DayPace
from honeyledger.services.store import View

USUAL_TRUCK = 120  # supers; common practice, no source
DAYS_KNOWN = 5


def usual_truck(days: Sequence[DayPace]) -> int:
    """The most supers that came in on one day of the last ones; after few days what is usual."""
    came = [day.received for day in days if day.received > 0]
    return max(came[-FORTNIGHT:]) if len(came) >= DAYS_KNOWN else USUAL_TRUCK


def run_day(days: Sequence[DayPace]) -> int:
    """Supers put through on the middle one of the last run days; 0 without any."""
    ran = sorted([day.supers for day in days if day.supers > 0][-FORTNIGHT:])
    return ran[(len(ran) - 1) // 2] if ran else 0


def fullest(days: Sequence[DayPace], waiting: int) -> int | None:
    """The most supers that stood in the house at the end of a day, reckoned back from now.

    After few days of work nobody knows yet how much the room takes.
    """
    if sum(day.received > 0 for day in days) < DAYS_KNOWN:
        return None
    stood, most = waiting, waiting
    for day in reversed(days):
        most = max(most, stood)
        stood -= day.received - day.supers
    return most


def home_of(view: View) -> Spot | None:
    """Where the house stands by its record; None where that is not on it."""
    mark = view.mark("house", "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    north, east = record.get("latitude"), record.get("longitude")
    return Spot(north, east) if isinstance(north, int) and isinstance(east, int) else None
