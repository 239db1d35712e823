"""Everything the page of exposure shows at once: what ties most, and what the open runs tie now.

An open run is told before it is signed, while a wash or a second run would still keep apart what
it ties together.
"""

from dataclasses import dataclass
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.in_run import entries_in
from honeyledger.ledger.places import is_source
from honeyledger.services.exposure import Called, Exposure, called_back, exposure
from honeyledger.services.floor import recent_runs
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class OpenRun:
    """A run that is not signed yet.

    Args:
        sources: how many yards and suppliers are in reach of what is in it.
        called: what would go with it, were it called back now.
    """

    code: str
    name: str
    sources: int
    called: Called


@dataclass(frozen=True, slots=True)
class ExposurePage:
    """The house at one moment; `ledger` tells it from others."""

    ledger: str
    unit: MassUnit
    zone: str
    today: date
    whole: Exposure
    runs: tuple[OpenRun, ...]


def exposure_page(view: View, now_ms: int) -> ExposurePage:
    """The page now."""
    zone = rules_of(view).zone
    return ExposurePage(
        ledger=view.head().ledger_id,
        unit=mass_unit(view),
        zone=zone,
        today=house_day(now_ms, zone),
        whole=exposure(view),
        runs=tuple(
            OpenRun(row.code, row.line_name, _sources(view, row.code), called_back(view, row.code))
            for row in recent_runs(view, now_ms)
            if row.closed_ms is None
        ),
    )


def _sources(view: View, run: str) -> int:
    lots = {row.lot for entry in entries_in(view, run) for row in entry.postings}
    above = {edge.parent for edge in view.ancestry(sorted(lots))} | lots
    rows = view.sources_of(sorted(above))
    return len({row.place for row in rows if row.grams < 0 and is_source(row.place)})
