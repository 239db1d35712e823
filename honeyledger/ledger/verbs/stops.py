"""A stop of the line: how long it stood still, and why, said by whoever stood there.

A stop moves no honey. The entry's time is when work went on; of what pace the line had, its
minutes are left out.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.phrases import Phrase, phrase
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.in_run import of_run
from honeyledger.ledger.lookup import find_vessel

REASONS: Mapping[str, Phrase] = {
    "uncapping": phrase("uncapping"),
    "extractor": phrase("extractor"),
    "pump": phrase("pump"),
    "settling": phrase("tanks full"),
    "drums": phrase("no empty drum"),
    "supers": phrase("no warm supers"),
    "people": phrase("nobody there"),
    "break": phrase("a break"),
    "power": phrase("no power"),
    "washing": phrase("washing"),
    "other": phrase("something else"),
}
"""Why a line stands still: the first five say where in it."""

LONGEST_MIN = 24 * 60
STOPPED = "stopped/"  # a mark on the line, for each stop
WHY_STOPPED = Sentence("why-stopped", "{reason} is no reason for a stop: say {reasons}.")
HOW_LONG_STOPPED = Sentence(
    "how-long-stopped",
    "Say for how many minutes the line stood, from 1 to 1,440; {minutes} cannot be.",
)


@dataclass(frozen=True, slots=True)
class Stop:
    """The line stood still until now.

    Args:
        reason: one of `REASONS`.
        why: anything worth knowing, such as what broke.
    """

    kind: ClassVar[str] = "stop"
    line: str
    reason: str
    minutes: int
    why: str = ""


def book_stop(facts: Stop, b: Booking) -> None:
    """A fact of the line and of the run that is open on it."""
    line = find_vessel(b.state, facts.line, "line")
    if facts.reason not in REASONS:
        reasons = ", ".join(REASONS)
        raise Refusal(
            WHY_STOPPED, field="reason", reason=facts.reason or "Nothing", reasons=reasons
        )
    if not 1 <= facts.minutes <= LONGEST_MIN:
        raise Refusal(HOW_LONG_STOPPED, field="minutes", minutes=facts.minutes)
    of_run(b, line)
    value = {"reason": facts.reason, "minutes": facts.minutes, "why": facts.why}
    b.mark(line, f"{STOPPED}{b.entry_id}", value)
