"""One page for a call back and for complaints: what is affected, where it is from, who complained.

It answers for one code at a time; the house's complaints are there for all of them.
"""

from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.domain.phrases import joined, phrase
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, format_shares
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.trace_rows import BackTrace
from honeyledger.services.affected import Affected, affected
from honeyledger.services.complaints import ComplaintRow, complaint_rows, traces_of
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View
from honeyledger.services.trace_page import TracePage, trace_page

MOST_COMPLAINTS = 200
_FEW = 3


@dataclass(frozen=True, slots=True)
class ComplaintLine:
    """A complaint with the trace of its jar in words: the largest yards first."""

    row: ComplaintRow
    sources: str

    @property
    def is_open(self) -> bool:
        """Whether nobody has answered it."""
        return not self.row.answer


@dataclass(frozen=True, slots=True)
class RecallPage:
    """What is shown of a code, "" where none is in hand.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        asked: the code as it was typed.
        problem: why it has no scope, in a sentence; "" where it has.
        trace: where a lot comes from; None for a yard.
    """

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    asked: str
    scope: Affected | None
    trace: TracePage | None
    complaints: tuple[ComplaintLine, ...]
    problem: str = ""

    def complaint(self, number: str) -> ComplaintRow | None:
        """A complaint by the number of the entry that took it in."""
        return next(
            (line.row for line in self.complaints if str(line.row.number) == number.strip()), None
        )


def recall_page(view: View, now_ms: int, text: str) -> RecallPage:
    """What there is to know of a code when something is wrong with it."""
    zone = rules_of(view).zone
    scope, trace, problem = None, None, ""
    try:
        scope = affected(view, text) if text else None
        trace = trace_page(view, text) if scope is not None and not scope.is_source else None
    except Refusal as refusal:
        problem = refusal.text
    rows = complaint_rows(view)[:MOST_COMPLAINTS]
    return RecallPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=house_day(now_ms, zone),
        asked=text,
        scope=scope,
        trace=trace,
        complaints=tuple(
            ComplaintLine(row, _sources(one))
            for row, one in zip(rows, traces_of(view, rows), strict=True)
        ),
        problem=problem,
    )


def _sources(trace: BackTrace) -> str:
    """The largest first ancestors with their shares, and how many more there are."""
    shares = format_shares([row.share for row in trace.ancestors])
    pairs = list(zip(trace.ancestors, shares, strict=True))[:_FEW]
    named = joined(phrase("{name} {share}", name=row.name, share=share) for row, share in pairs)
    more = len(shares) - _FEW
    return joined((named, f" +{more}"), "") if more > 0 else named
