"""The best-before line of a jar, from the day it was bottled and how long its product keeps."""

from calendar import monthrange
from datetime import date

from honeyledger.services.label_marks import DAY_IS_NEEDED, YEAR_IS_ENOUGH


def best_before(bottled: date, keeps_months: int | None) -> str:
    """The best-before line of honey bottled that day; "" where the product has none.

    Over 18 months the year is enough, from three months up month and year, below that its day
    (Regulation (EU) 1169/2011, Annex X, as read in secondary sources; follow your local code).
    """
    if not keeps_months:
        return ""
    months = bottled.year * 12 + bottled.month - 1 + keeps_months
    year, month = divmod(months, 12)
    if keeps_months <= DAY_IS_NEEDED:
        last = min(bottled.day, monthrange(year, month + 1)[1])
        return f"Best before {last} {date(year, month + 1, 1):%b} {year}"
    if keeps_months > YEAR_IS_ENOUGH:
        return f"Best before end {year}"
    return f"Best before end {date(year, month + 1, 1):%b} {year}"
