"""What jars hold: yards by share, and what a label may claim of them.

A claim is judged by the reach, not by the shares: a yard that is in at 0 g is in. Shares of
countries are estimates by proportional mixing, in falling order.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from honeyledger.ledger.entry import Json
from honeyledger.ledger.places import SUPPLIER, YARD, place
from honeyledger.ledger.stated import ALL
from honeyledger.ledger.trace_rows import Ancestor, BackTrace, ReachedLot
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_mixture


@dataclass(frozen=True, slots=True)
class PartOf:
    """A country or region with its share; "" where the books do not say which."""

    name: str
    share: float


@dataclass(frozen=True, slots=True)
class Makeup:
    """What jars will hold.

    Args:
        sources: yards, suppliers and honey nobody can name, largest share first.
        countries, regions: in falling order of share.
        seasons: the years its honey is of.
        organic: names of those sources that claim it; `not_organic` of those that do not.
        is_known: whether every source has a name.
    """

    grams: int
    sources: tuple[Ancestor, ...]
    countries: tuple[PartOf, ...]
    regions: tuple[PartOf, ...]
    seasons: tuple[int, ...]
    organic: tuple[str, ...]
    not_organic: tuple[str, ...]
    is_known: bool


def makeup_of(view: View, grams: Mapping[int, int]) -> Makeup | None:
    """What honey of these lots holds, mixed as it stands; None where there is none."""
    if sum(grams.values()) <= 0:
        return None
    trace = trace_mixture(view, grams)
    records = {row.code: _record(view, place(row.kind, row.code)) for row in trace.ancestors}
    organic = [row for row in trace.ancestors if records[row.code].get("organic")]
    return Makeup(
        grams=trace.made_g,
        sources=trace.ancestors,
        countries=_countries(view, trace, records),
        regions=_summed(
            [(str(records[row.code].get("region", "")), row.share) for row in trace.ancestors]
        ),
        seasons=_seasons(view, trace),
        organic=tuple(row.name for row in organic),
        not_organic=tuple(row.name for row in trace.ancestors if row not in organic),
        is_known=trace.reach_complete,
    )


def _record(view: View, subject: str) -> Mapping[str, Json]:
    mark = view.mark(subject, "record")
    return mark.value if mark and isinstance(mark.value, Mapping) else {}


def _countries(
    view: View, trace: BackTrace, records: Mapping[str, Mapping[str, Json]]
) -> tuple[PartOf, ...]:
    """A yard is in its own country, else in the house's; a drum bought in says where it is from.

    Where it does not, its papers do, else its supplier.
    """
    house = str(_record(view, "house").get("country", ""))
    parts = []
    for row in trace.ancestors:
        if row.kind == YARD:
            parts.append((str(records[row.code].get("country", "")) or house, row.share))
        elif row.kind != SUPPLIER:
            parts.append(("", row.share))
    # Shares of lots are of all that was traced, those of sources of its honey.
    whole = trace.made_g / trace.honey_g if trace.honey_g else 0.0
    for bought in trace.lots:
        if bought.kind == "P":
            supplier = str(view.lot(bought.id).attributes.get("supplier", ""))
            said = _countries_of(view, bought, records.get(supplier, {}))
            parts += [(name, part * bought.share * whole) for name, part in said]
    return _summed(parts)


def _countries_of(
    view: View, bought: ReachedLot, supplier: Mapping[str, Json]
) -> list[tuple[str, float]]:
    """What was said of a drum bought in: a blend's countries are told apart by their shares."""
    attributes = view.lot(bought.id).attributes
    shares = attributes.get("countries", {})
    if isinstance(shares, Mapping) and shares and all(shares.values()):
        return [(name, int(str(permille)) / ALL) for name, permille in shares.items()]
    papers = view.mark(bought.code, "country")
    country = papers.value if papers else attributes.get("country", "")
    return [(str(country or supplier.get("country", "")), 1.0)]


def _summed(parts: Sequence[tuple[str, float]]) -> tuple[PartOf, ...]:
    sums: dict[str, list[float]] = {}
    for name, share in parts:
        sums.setdefault(name, []).append(share)
    rows = [PartOf(name, fsum(shares)) for name, shares in sums.items()]
    return tuple(sorted(rows, key=lambda row: (-row.share, row.name)))


def _seasons(view: View, trace: BackTrace) -> tuple[int, ...]:
    sources = view.lots({row.id for row in trace.lots if row.kind in "SP"})
    return tuple(sorted({lot.season for lot in sources.values()}))
