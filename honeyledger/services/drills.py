"""Rehearsals of a recall: which jar to draw, how long it took, and when the next one is due.

A drill is a case that holds nothing. The clock runs from the entry that opens it to the one that
closes it, and that one says what had to be looked up by hand. One a year is common practice; what
a local code or a customer asks for may be more often.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from honeyledger.domain.moments import Moment, house_day, moment_at
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import JARS, class_of, key_of
from honeyledger.ledger.verbs.recalls import CASE, CLOSED, DRILL, RECALL
from honeyledger.services.recalls import recall_case
from honeyledger.services.store import View

YEAR_DAYS = 365

NO_JARS_TO_DRAW = Sentence(
    "drill-no-jars", "No jars were bottled yet. Name a lot to rehearse with, such as a drum."
)


@dataclass(frozen=True, slots=True)
class Drill:
    """One rehearsal.

    Args:
        minutes: from opening to closing; None while it runs.
        accounted: hundredths of a percent, as the books have it now.
        by_hand: what had to be looked up by hand, as it was closed with.
    """

    code: str
    about: str
    opened: Moment
    minutes: int | None
    lots: int
    customers: int
    accounted: int
    by_hand: str


@dataclass(frozen=True, slots=True)
class DrillDue:
    """When the next rehearsal is due: `day` None where there never was one."""

    day: date | None
    is_due: bool


def jar_lots(view: View) -> tuple[str, ...]:
    """Codes of all lots of jars, here and sent: what a drill draws from."""
    ids = {
        row.lot
        for entry in view.entries(("bottle",))
        for row in entry.postings
        if class_of(row.place) == JARS
    }
    return tuple(sorted(head.code for head in view.lot_heads(ids).values()))


def drills(view: View, now_ms: int) -> tuple[Drill, ...]:
    """All rehearsals, the newest first."""
    zone = rules_of(view).zone
    rows = []
    for mark in view.marked(CASE, f"{RECALL}/"):
        if not isinstance(mark.value, Mapping) or mark.value.get("sort") != DRILL:
            continue
        case = recall_case(view, now_ms, key_of(mark.subject))
        end = view.mark(mark.subject, CLOSED)
        rows.append(
            Drill(
                case.code,
                case.about,
                moment_at(mark.at_ms, zone),
                None if end is None else (end.at_ms - mark.at_ms) // 60_000,
                len(case.lots),
                len(case.consignees),
                case.accounted,
                case.result,
            )
        )
    return tuple(sorted(rows, key=lambda row: (-row.opened.at_ms, row.code)))


def drill_due(view: View, now_ms: int) -> DrillDue:
    """When to rehearse next: a year after the last rehearsal or recall that was closed."""
    zone = rules_of(view).zone
    closed = [mark.at_ms for mark in view.marked(CLOSED, f"{RECALL}/") if mark.value]
    if not closed:
        return DrillDue(None, is_due=bool(view.entries(("dispatch",), last=1)))
    day = house_day(max(closed), zone) + timedelta(days=YEAR_DAYS)
    return DrillDue(day, house_day(now_ms, zone) >= day)


def draw(view: View, number: int) -> str:
    """The jar lot that a number between 0 and the largest draws.

    Raises:
        Refusal: there are no jars.
    """
    codes = jar_lots(view)
    if not codes:
        raise Refusal(NO_JARS_TO_DRAW, field="code")
    return codes[number % len(codes)]
