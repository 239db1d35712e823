"""The weather of a day, as a person noted it: of the whole house, or of one yard.

It explains a season's yields to those who look at them later; nothing is reckoned from it.
"""

from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import YARD, key_of
from honeyledger.ledger.yard_log import past_day

WEATHER = "weather"
SORTS = ("sun", "heat", "cloud", "rain", "storm", "wind", "cold", "frost", "drought", "smoke")
COLDEST, HOTTEST = -600, 600  # tenths of a degree Celsius; common practice, no source

NO_WEATHER = Sentence("no-weather", "Say what the weather was: {known}, or write a note.")
NOT_A_WEATHER = Sentence(
    "not-a-weather", "{text} is no weather here: say {known}, and the rest in a note."
)
NOT_OUTDOORS = Sentence(
    "not-outdoors", "{degrees} °C is no weather bees stand in. Type the day's highest again."
)


@dataclass(frozen=True, slots=True)
class Weather:
    """What a day's weather was.

    Args:
        sort: one of `SORTS`, or "" with a note.
        yard: where; "" for everywhere the house has bees.
        high: the day's highest, tenths of a degree Celsius.
    """

    kind: ClassVar[str] = WEATHER
    sort: str = ""
    day: str = ""
    yard: str = ""
    high: int | None = None
    note: str = ""


def book_weather(facts: Weather, b: Booking) -> None:
    """A dated note that stands by itself."""
    known = ", ".join(SORTS)
    sort, note = facts.sort.strip().casefold(), facts.note.strip()
    if not sort and not note:
        raise Refusal(NO_WEATHER, field="sort", known=known)
    if sort and sort not in SORTS:
        raise Refusal(NOT_A_WEATHER, field="sort", text=facts.sort.strip(), known=known)
    if facts.high is not None and not COLDEST <= facts.high <= HOTTEST:
        raise Refusal(NOT_OUTDOORS, field="high", degrees=f"{facts.high / 10:g}")
    yard = key_of(find_record(b.state, YARD, facts.yard)[0]) if facts.yard.strip() else ""
    value: dict[str, Json] = {"day": past_day(b, facts.day, "day"), "sort": sort}
    value |= {"yard": yard, "note": note}
    if facts.high is not None:
        value["high"] = facts.high
    b.mark(f"{WEATHER}/{b.entry_id}", WEATHER, value)
