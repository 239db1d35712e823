"""Days as GS1 codes carry them: six digits, year, month, day; day 00 is the month's last.

The century is the one nearest to the day it is read on: up to 49 years back and 50 ahead (value
from memory, GS1's own rule).
"""

import re
from calendar import monthrange
from datetime import date

from honeyledger.domain.refusals import Refusal, Sentence

NOT_A_GS1_DAY = Sentence(
    "not-a-gs1-day",
    "{text} is no day as GS1 codes carry it: six digits, year, month and day, such as 260430.",
)
DAYS = ("11", "13", "15", "17")
"""The application identifiers that carry a day."""
_BACK = 49


def gs1_day(text: str, today: date, *, field: str = "code") -> date:
    """The day of six digits.

    Raises:
        Refusal: it is none.
    """
    if re.fullmatch(r"[0-9]{6}", text, re.ASCII):
        first = today.year - _BACK
        year = first + (int(text[:2]) - first) % 100
        month, day = int(text[2:4]), int(text[4:])
        if 1 <= month <= 12 and day <= (last := monthrange(year, month)[1]):
            return date(year, month, day or last)
    raise Refusal(NOT_A_GS1_DAY, field=field, text=text.strip() or "nothing")
