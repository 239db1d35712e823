"""When a paper was printed, by whom, and which print of it it is: what tells two of them apart."""

from dataclasses import replace
from typing import TypeVar

from honeyledger.domain.moments import format_moment, moment_at
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.verbs.printing import prints_of
from honeyledger.services.holding import name_in
from honeyledger.services.store import View

DISPATCH_NOTE = "dispatch-note"
DRUM_LIST = "drum-list"
RUN_SHEET = "run-sheet"
STANDING_LIST = "standing-list"
RECALL_REPORT = "recall-report"
RECALL_LETTERS = "recall-letters"
INSPECTORS_PACK = "inspectors-pack"
FLOOR_PAD = "floor-pad"
DAY_SHEET = "day-sheet"
TRUCK_SHEET = "truck-sheet"
SEASON_PLAN = "season-plan"
YIELD_REPORT = "yields"
LOSS_REPORT = "losses"
PACE_REPORT = "pace"
SEASON_CHARTS = "season-charts"
TRACE_RIVER = "trace-river"
WHO_HAS_IT = "who-has-it"
"""Papers that are no kind of `paper_kinds`, by the word their prints are on record under."""

_Paper = TypeVar("_Paper")


def printed_words(view: View, now_ms: int, operator: str = "") -> str:
    """When it is printed, and by whom where somebody is named by their code."""
    when = format_moment(moment_at(now_ms, rules_of(view).zone))
    who = name_in(view, f"operator/{operator}", operator) if operator else ""
    return f"Printed {when} by {who}" if who else f"Printed {when}"


def as_printed(
    view: View, what: _Paper, kind: str, of: str, now_ms: int, operator: str = ""
) -> _Paper:
    """The same paper with what tells this print of it from another.

    Args:
        what: a paper that has `printed` and `again`.
        kind: the word its prints are on record under.
        of: the code or the words it is of; "" for the whole house.
        operator: the code of who prints it; "" where nobody is named.
    """
    words, again = printed_words(view, now_ms, operator), prints_of(view, kind, of)
    made: _Paper = replace(what, printed=words, again=again)  # type: ignore[type-var]
    return made
