"""What a house checks on a schedule: each check's interval, and when it is due.

Which checks there are is data. A day counts from the last time it was found right: one found off
is open until it is found right again.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum

from honeyledger.domain.phrases import phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.withholding import Interval, Unit, first_day

NO_SUCH_CHECK = Sentence(
    "no-such-check", "{text} is no check of this house. Choose one of the list: {known}."
)
PRACTICE = "common practice, no source"
MOST_NAMED = 6


class State(Enum):
    """Where a check stands."""

    OFF = "found off"
    OVERDUE = "overdue"
    DUE = "due today"
    NEVER = "never made"
    IN_ORDER = "in order"

    @property
    def needs_a_person(self) -> bool:
        """Whether somebody has to do something."""
        return self is not State.IN_ORDER


WORDS = {
    State.OFF: phrase("found off"),
    State.OVERDUE: phrase("overdue"),
    State.DUE: phrase("due today"),
    State.NEVER: phrase("never made"),
    State.IN_ORDER: phrase("in order"),
}
ORDER = tuple(WORDS)


@dataclass(frozen=True, slots=True)
class ListedCheck:
    """A check that a house makes again and again.

    Args:
        key: what entries know it by.
        look: what is looked at, in a sentence.
        sort: of which sort of equipment it is made, each piece by itself; "" for none.
        source: where the interval is from.
    """

    key: str
    name: str
    look: str
    every: Interval
    sort: str = ""
    source: str = PRACTICE


@dataclass(frozen=True, slots=True)
class Made:
    """The last time a check was made: the local day, and whether all was right."""

    day: date
    right: bool


def due_day(check: ListedCheck, last_right: date | None) -> date | None:
    """The day on which it is due again; None where it was never found right."""
    return None if last_right is None else first_day(last_right, check.every)


def state_of(last: Made | None, due: date | None, today: date) -> State:
    """Where a check stands today, by the last time it was made and the day it is due."""
    if last is None:
        return State.NEVER
    if not last.right:
        return State.OFF
    if due is None or due > today:
        return State.IN_ORDER
    return State.DUE if due == today else State.OVERDUE


def every_words(every: Interval) -> str:
    """An interval as people say it."""
    one, many = {
        Unit.DAYS: (phrase("every day"), "every {n} days"),
        Unit.WEEKS: (phrase("every week"), "every {n} weeks"),
        Unit.MONTHS: (phrase("every month"), "every {n} months"),
    }[every.unit]
    if every.count == 1:
        return one
    # Plain literals, so that they can be translated.
    return {
        "every {n} days": phrase("every {n} days", n=every.count),
        "every {n} weeks": phrase("every {n} weeks", n=every.count),
        "every {n} months": phrase("every {n} months", n=every.count),
    }[many]


def with_own(
    shipped: Iterable[ListedCheck], own: Iterable[ListedCheck], left_out: Iterable[str] = ()
) -> tuple[ListedCheck, ...]:
    """The program's list with a house's own over it, less what the house does not make."""
    found = {check.key: check for check in shipped}
    found |= {check.key: check for check in own}
    for key in left_out:
        found.pop(key, None)
    return tuple(found.values())


def check_named(checks: Sequence[ListedCheck], text: str) -> ListedCheck:
    """A check by its key or its name.

    Raises:
        Refusal: there is no such check.
    """
    wanted = " ".join(text.split()).casefold()
    for check in checks:
        if wanted and wanted in (check.key.casefold(), check.name.casefold()):
            return check
    names = [check.name for check in checks]
    known = ", ".join(names[:MOST_NAMED]) + (" ..." if len(names) > MOST_NAMED else "")
    offers = [name for name in names if wanted and wanted in name.casefold()]
    raise Refusal(
        NO_SUCH_CHECK, field="check", offers=offers, text=text.strip() or "Nothing", known=known
    )
