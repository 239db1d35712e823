"""Everything the extraction station shows at once: runs, the run in hand, the queue, choices."""

from collections.abc import Mapping
from dataclasses import dataclass

from honeyledger.domain.phrases import phrase
from honeyledger.domain.units import MassUnit
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.places import PALLET, VESSEL, YARD, key_of, place
from honeyledger.ledger.verbs.owners import SETTLED
from honeyledger.ledger.wetness import dry_first_over
from honeyledger.services.dock import Choice, choices
from honeyledger.services.floor import RunRow, RunSheet, recent_runs, run_sheet
from honeyledger.services.floor_pace import BoxFrames
from honeyledger.services.holding import held_lots, name_in, reading
from honeyledger.services.instruments import instruments
from honeyledger.services.setup import mass_unit
from honeyledger.services.store import View


@dataclass(frozen=True, slots=True)
class QueueRow:
    """A pallet that waits: its yards, supers and estimated grams, and since when it stands.

    `state` is "ready", "dry first" or "hold"; frames are by the boxes' records.
    """

    pallet: str
    yards: str
    supers: int
    frames: int
    grams: int
    since_ms: int
    state: str
    moisture: int | None


@dataclass(frozen=True, slots=True)
class FloorPage:
    """The station at one moment; `sheet` is None where there was never a run.

    `unit` and `zone` are the house's; `ledger` tells this house from others; `settled` are the
    runs whose owners have signed what they get.
    """

    runs: tuple[RunRow, ...]
    sheet: RunSheet | None
    queue: tuple[QueueRow, ...]
    lines: tuple[Choice, ...]
    sources: tuple[Choice, ...]
    containers: tuple[Choice, ...]
    products: tuple[Choice, ...]
    unit: MassUnit
    zone: str
    ledger: str
    settled: frozenset[str] = frozenset()
    instruments: tuple[Choice, ...] = ()


def floor_page(view: View, run: str, now_ms: int) -> FloorPage:
    """The station with the run named while it is open, else the newest open one, else the last."""
    rows = recent_runs(view, now_ms)
    still_open = [row.code for row in rows if row.closed_ms is None]
    last = rows[0].code if rows else ""
    code = run if run in still_open else still_open[0] if still_open else last
    vessels = choices(view, VESSEL)
    fed = _fed(view)
    lines = tuple(row for row in vessels if _is_line(view, row.code, fed)) or vessels
    return FloorPage(
        runs=rows,
        sheet=run_sheet(view, code, now_ms) if code else None,
        queue=_queue(view),
        lines=lines,
        sources=vessels,
        containers=choices(view, "drum"),
        products=choices(view, "product"),
        unit=mass_unit(view),
        zone=rules_of(view).zone,
        instruments=instruments(view),
        ledger=view.head().ledger_id,
        settled=frozenset(key_of(mark.subject) for mark in view.marked(SETTLED, "run/")),
    )


def _fed(view: View) -> set[str]:
    """Codes of the lines that feed a vessel."""
    return {
        str(mark.value.get("fed_by", ""))
        for mark in view.marked("record", f"{VESSEL}/")
        if isinstance(mark.value, Mapping)
    }


def _is_line(view: View, code: str, fed: set[str]) -> bool:
    mark = view.mark(place(VESSEL, code), "record")
    value = mark.value if mark and isinstance(mark.value, Mapping) else {}
    return value.get("sort") == "line" or code in fed


def _queue(view: View) -> tuple[QueueRow, ...]:
    """Pallets that stand in the house, those that wait longest first."""
    held, boxes, dry_first = held_lots(view), BoxFrames(view), dry_first_over(view)
    rows = []
    for where in dict.fromkeys(row.place for row in view.on_hand([PALLET])):
        standing = view.standing(where)
        names = [
            name_in(view, place(YARD, str(row.lot.attributes.get("yard", "")))) for row in standing
        ]
        moistures = [
            moisture
            for row in standing
            if (moisture := reading(view, row.lot.code, "moisture")) is not None
        ]
        wettest = max(moistures, default=None)
        is_wet = wettest is not None and wettest > dry_first
        state = phrase("dry first") if is_wet else phrase("ready")
        if any(row.lot.id in held for row in standing):
            state = phrase("hold")
        rows.append(
            QueueRow(
                pallet=key_of(where),
                yards=", ".join(dict.fromkeys(name for name in names if name)),
                supers=sum(row.pieces for row in standing),
                frames=sum(row.pieces * boxes.of(row.lot.id) for row in standing),
                grams=sum(row.grams for row in standing),
                since_ms=min((row.since_ms for row in standing), default=0),
                state=state,
                moisture=wettest,
            )
        )
    return tuple(sorted(rows, key=lambda row: (row.since_ms, row.pallet)))
