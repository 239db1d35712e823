"""Everything the page of recalls shows at once: all cases, the one in hand, when to rehearse."""

from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import VESSEL, YARD
from honeyledger.ledger.signing import OPERATOR
from honeyledger.services.dock import Choice, choices
from honeyledger.services.drills import DrillDue, drill_due
from honeyledger.services.recall_rows import CaseHead, RecallCase, ScopeHead
from honeyledger.services.recall_starts import TheirLot, their_lots
from honeyledger.services.recalls import case_heads, recall_case, scope_head
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View
from honeyledger.services.through import EQUIPMENT


@dataclass(frozen=True, slots=True)
class RecallsPage:
    """The cases of a house at one moment.

    Args:
        ledger: the ledger's own id, which tells two houses apart.
        their_lots: lot numbers of suppliers, with all that came in under each.
        case: the one in hand; None where there is none at all, or it is read yet.
        scope: its first answer, while the rest is read; None once `case` is there.
        equipment: vessels and pieces of equipment that honey goes through.
    """

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    heads: tuple[CaseHead, ...]
    case: RecallCase | None
    yards: tuple[Choice, ...]
    people: tuple[Choice, ...]
    drill: DrillDue
    their_lots: tuple[TheirLot, ...] = ()
    scope: ScopeHead | None = None
    equipment: tuple[Choice, ...] = ()

    @property
    def open_ones(self) -> tuple[CaseHead, ...]:
        """Cases that are not closed."""
        return tuple(head for head in self.heads if not head.is_closed)


def recalls_page(view: View, now_ms: int, wanted: str = "", *, first: bool = False) -> RecallsPage:
    """The page now, with the case in hand: the one wanted, else the newest open, else newest.

    Args:
        first: only what can be told at once; the scope stands for the case until it is read.
    """
    zone = rules_of(view).zone
    heads = case_heads(view, looked=not first)
    known = [head.code for head in heads]
    others = [head.code for head in heads if not head.is_closed] or known
    code = wanted if wanted in known else next(iter(others), "")
    return RecallsPage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=house_day(now_ms, zone),
        heads=heads,
        case=recall_case(view, now_ms, code) if code and not first else None,
        yards=choices(view, YARD),
        people=choices(view, OPERATOR),
        drill=drill_due(view, now_ms),
        their_lots=their_lots(view),
        scope=scope_head(view, code) if code and first else None,
        equipment=(*choices(view, VESSEL), *choices(view, EQUIPMENT)),
    )
