"""What went through a piece of equipment, looked up while a case is being opened on it.

Which lots they are is for the books to say, so the form waits for their answer; it opens no case
on an answer for another place or other times.
"""

from collections.abc import Callable
from dataclasses import dataclass

from honeyledger.desktop.desk import Desk, refusal_of
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.models.asked import FormTyped
from honeyledger.domain.moments import parse_moment
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.services.store import View
from honeyledger.services.through import through

PLACE, SINCE, UNTIL = "through", "since", "until"
_FIELDS = {"equipment": PLACE, "to": UNTIL}

STILL_LOOKED_UP = Sentence(
    "passing-looked-up",
    "What went through it then is being looked up. Wait a moment, then go on.",
)
NO_SINCE = Sentence(
    "passing-no-since", "Type from when on it may have happened, as in yesterday 14:30."
)
NOTHING_WENT_THROUGH = Sentence(
    "passing-nothing",
    "Nothing went through {name} between these times. Correct them, or scan what is meant.",
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """The place and the times as they are typed."""

    place: str
    since: str
    until: str


def wanted(typed: FormTyped) -> Wanted | None:
    """What is to be looked up; None where no place is chosen."""
    place = typed.text(PLACE)
    return Wanted(place, typed.text(SINCE), typed.text(UNTIL)) if place else None


def passed(view: View, now_ms: int, one: Wanted) -> tuple[str, ...]:
    """The codes of all that went through; up to now where no end is typed.

    Raises:
        Refusal: a time cannot be read; the times run backwards; nothing did.
    """
    zone = rules_of(view).zone
    if not one.since:
        raise Refusal(NO_SINCE, field=SINCE)
    since_ms = parse_moment(one.since, zone, now_ms, field=SINCE).at_ms
    until_ms = parse_moment(one.until, zone, now_ms, field=UNTIL).at_ms if one.until else now_ms
    try:
        found = through(view, one.place, since_ms, until_ms)
    except Refusal as refusal:
        refusal.field = _FIELDS.get(refusal.field, refusal.field)
        raise
    if not found.lots:
        raise Refusal(NOTHING_WENT_THROUGH, field=PLACE, name=found.name)
    return found.lots


class Passing:
    """Looks up what is typed, and knows the answer to what was typed last.

    Args:
        came: called when an answer has come.
    """

    def __init__(self, desk: Desk, came: Callable[[], object]) -> None:
        self._desk, self._came = desk, came
        self._asked: Wanted | None = None
        self._answer: tuple[str, ...] | Refusal | None = None

    def look(self, typed: FormTyped, *, anew: bool = False) -> None:
        """Ask for what is typed now, unless it is known or under way."""
        one = wanted(typed)
        if one == self._asked and not anew:
            return
        self._asked, self._answer = one, None
        if one is None:
            return
        house = self._desk.house
        now_ms = house.clock()

        def answered(outcome: Outcome[tuple[str, ...]]) -> None:
            if one == self._asked:
                self._answer = refusal_of(outcome) if outcome.value is None else outcome.value
                self._came()

        self._desk.jobs.read(
            lambda: house.ask(lambda view: passed(view, now_ms, one)),
            answered,
            about=(self, "passed"),
        )

    def lots(self, typed: FormTyped) -> tuple[str, ...]:
        """The codes of what is typed now; none where no place is chosen.

        Raises:
            Refusal: why there are none; or the answer has not come yet.
        """
        one = wanted(typed)
        if one is None:
            return ()
        if one != self._asked or self._answer is None:
            raise Refusal(STILL_LOOKED_UP, field=PLACE)
        if isinstance(self._answer, Refusal):
            raise self._answer
        return self._answer
