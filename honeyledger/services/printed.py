"""When a paper was printed, and by whom, in the words that stand at the foot of its pages."""

from honeyledger.domain.moments import format_moment, moment_at
from honeyledger.ledger.booking import rules_of
from honeyledger.services.holding import name_in
from honeyledger.services.store import View


def printed_words(view: View, now_ms: int, operator: str = "") -> str:
    """When it is printed, and by whom where somebody is named by their code."""
    when = format_moment(moment_at(now_ms, rules_of(view).zone))
    who = name_in(view, f"operator/{operator}", operator) if operator else ""
    return f"Printed {when} by {who}" if who else f"Printed {when}"
