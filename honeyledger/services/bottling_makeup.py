"""What jars hold: yards by share, and what a label may claim of them.

A claim is judged by the reach, not by the shares: a yard that is in at 0 g is in. Shares are
estimates by proportional mixing.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.claims import Claims
from honeyledger.ledger.claims import claims_of
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_mixture


@dataclass(frozen=True, slots=True)
class Makeup:
    """What jars will hold.

    Args:
        sources: yards, suppliers and honey nobody can name, largest share first.
        is_known: whether every source has a name.
    """

    grams: int
    sources: tuple[Ancestor, ...]
    claims: Claims
    is_known: bool


def makeup_of(view: View, grams: Mapping[int, int]) -> Makeup | None:
    """What honey of these lots holds, mixed as it stands; None where there is none."""
    claims = claims_of(view, grams)
    if claims is None:
        return None
    trace = trace_mixture(view, grams)
    return Makeup(trace.made_g, trace.ancestors, claims, trace.reach_complete)
