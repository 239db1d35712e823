"""The extraction floor: open runs, a run's sheet as it goes, and what signing it ties together."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from honeyledger.domain.moments import house_day
from honeyledger.ledger.booking import rules_of
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.in_run import entries_in
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import DRUM, VESSEL, YARD, class_of, key_of, place
from honeyledger.ledger.run_balance import RunBalance, balance_of
from honeyledger.ledger.sources import home_of
from honeyledger.ledger.state import Mark
from honeyledger.ledger.trace_rows import Ancestor
from honeyledger.services.exposure import Called, called_back
from honeyledger.services.floor_pace import Pace, pace_of
from honeyledger.services.holding import name_in, reading
from honeyledger.services.line import DAY_MS
from honeyledger.services.pull_sheets import AgainstSheets, against_sheets
from honeyledger.services.store import View
from honeyledger.services.tracing import trace_back

FEWEST_RUNS = 5  # closed runs before the house's own spread is believed


@dataclass(frozen=True, slots=True)
class RunRow:
    """A run in the list: open ones have no closing time."""

    code: str
    line: str
    line_name: str
    opened_ms: int
    closed_ms: int | None


@dataclass(frozen=True, slots=True)
class WentIn:
    """A pull that went in, at estimated grams."""

    code: str
    yard: str
    yard_name: str
    supers: int
    grams: int


@dataclass(frozen=True, slots=True)
class HeelIn:
    """What stood in a vessel when the run was opened, with the yards it is from."""

    vessel: str
    name: str
    grams: int


@dataclass(frozen=True, slots=True)
class CameOut:
    """A drum or cappings barrel by scale; readings in hundredths of a percent and tenths of mm.

    `container` is a code, and `container_name` what people call it.
    """

    code: str
    kind: str
    container: str
    grams: int
    pending: bool
    moisture: int | None
    colour: int | None
    container_name: str = ""


@dataclass(frozen=True, slots=True)
class Tie:
    """A yard that shares the run's drums: what recalling it would recall.

    `drums` are of this run, `others` are drums of other runs that hold the same honey.
    """

    code: str
    name: str
    share: float
    grams: int
    only_through_heel: bool
    drums: int
    others: int


@dataclass(frozen=True, slots=True)
class VesselNow:
    """A vessel of the run's line: what the books see in it, and since when it was not washed.

    `capacity_g` is what it holds full, `depth_cm` how deep it is then; 0 where nobody said.
    """

    code: str
    name: str
    grams: int
    washed_ms: int | None
    capacity_g: int = 0
    depth_cm: int = 0


@dataclass(frozen=True, slots=True)
class RunSheet:
    """Everything a person sees of a run before signing it.

    Args:
        called: what would go with it, were it called back now; None once it is signed.
    """

    run: RunRow
    went_in: tuple[WentIn, ...]
    heels_in: tuple[HeelIn, ...]
    came_out: tuple[CameOut, ...]
    vessels: tuple[VesselNow, ...]
    ties: tuple[Tie, ...]
    pace: Pace
    balance: RunBalance
    usual_permille: int
    pallets_open: tuple[str, ...]
    against: AgainstSheets = field(default_factory=AgainstSheets)
    called: Called | None = None


def runs(view: View) -> tuple[RunRow, ...]:
    """All runs, newest first."""
    return _runs_under(view, ["run/"])


def opened_in(view: View, year: int, zone: str) -> list[Mark]:
    """What was said when each run of a year was opened, the newest first.

    A season's page asks for one year, and a large house has tens of thousands of all its years.
    """
    # A day more at each end, whatever the zone: the days decide.
    since_ms, before_ms = (_new_year_ms(one) for one in (year, year + 1))
    marks = view.marked_between("opened", "run/", since_ms - DAY_MS, before_ms + DAY_MS)
    found = [mark for mark in marks if house_day(mark.at_ms, zone).year == year]
    return sorted(found, key=lambda mark: (-mark.at_ms, mark.subject))


def runs_of_year(view: View, year: int, zone: str) -> tuple[RunRow, ...]:
    """The runs that were opened in a year, newest first."""
    opened = opened_in(view, year, zone)
    closed = view.marked_on("closed", {mark.subject for mark in opened})
    return tuple(
        _run_row(view, mark, end.at_ms if (end := closed.get(mark.subject)) else None)
        for mark in opened
    )


def _new_year_ms(year: int) -> int:
    return (date(year, 1, 1) - date(1970, 1, 1)).days * DAY_MS


def recent_runs(view: View, now_ms: int) -> tuple[RunRow, ...]:
    """Those of this season and the last, and what is open from before, newest first.

    A large house has tens of thousands from all its years, and a page is asked for all day.
    """
    recent = _runs_under(view, _recent(view, now_ms))
    known = {row.code for row in recent}
    begun = view.marked_without("opened", "closed", "run/")
    older = [_run_row(view, mark, None) for mark in begun if key_of(mark.subject) not in known]
    return _newest_first([*recent, *older])


def run_row(view: View, code: str) -> RunRow | None:
    """One run; None where there is none of this code."""
    opened = view.mark(place("run", code), "opened")
    closed = view.mark(place("run", code), "closed")
    return _run_row(view, opened, closed.at_ms if closed else None) if opened else None


def _recent(view: View, now_ms: int) -> list[str]:
    """How the marks of this season's runs and the last one's begin."""
    rules = rules_of(view)
    season = house_day(now_ms, rules.zone).year
    before = f"{rules.prefix}-" if rules.prefix else ""
    return [f"run/{before}R{year % 100:02d}-" for year in (season, season - 1)]


def _runs_under(view: View, beginnings: Sequence[str]) -> tuple[RunRow, ...]:
    rows = []
    for under in beginnings:
        closed = {mark.subject: mark.at_ms for mark in view.marked("closed", under)}
        for mark in view.marked("opened", under):
            rows.append(_run_row(view, mark, closed.get(mark.subject)))
    return _newest_first(rows)


def _newest_first(rows: Sequence[RunRow]) -> tuple[RunRow, ...]:
    return tuple(sorted(rows, key=lambda row: (-row.opened_ms, row.code)))


def _run_row(view: View, opened: Mark, closed_ms: int | None) -> RunRow:
    value = opened.value if isinstance(opened.value, Mapping) else {}
    line = str(value.get("line", ""))
    name = name_in(view, place(VESSEL, line))
    return RunRow(key_of(opened.subject), line, name, opened.at_ms, closed_ms)


def run_sheet(view: View, code: str, now_ms: int) -> RunSheet | None:
    """A run's sheet as the entries stand now; None where there is no such run."""
    run = run_row(view, code)
    if run is None:
        return None
    balance, entries = balance_of(view, code), entries_in(view, code)
    lots = view.lots({row.pull for row in balance.loaded})
    went_in = tuple(
        _went_in(view, lots[row.pull], row.supers, row.grams) for row in balance.loaded
    )
    drums = [view.lot(row.lot) for row in balance.drums]
    barrels = [view.lot(row.lot) for row in balance.barrels]
    weights = {row.lot: row for row in (*balance.drums, *balance.barrels)}
    came_out = tuple(
        _came_out(view, lot, weights[lot.id].grams, weights[lot.id].pending)
        for lot in (*drums, *barrels)
    )
    return RunSheet(
        run=run,
        went_in=went_in,
        heels_in=_heels_in(view, code),
        came_out=came_out,
        vessels=_vessels(view, code),
        ties=_ties(view, drums),
        pace=pace_of(view, balance, entries, now_ms if run.closed_ms is None else None),
        balance=balance,
        usual_permille=usual_spread(view, now_ms),
        pallets_open=tuple(sorted({key_of(row.place) for row in view.held_at("pallet")})),
        against=against_sheets(view, balance, entries),
        called=called_back(view, code) if run.closed_ms is None else None,
    )


def _went_in(view: View, lot: Lot, supers: int, grams: int) -> WentIn:
    where = home_of(view, lot)
    yard = key_of(where) if class_of(where) == YARD else ""
    name = name_in(view, where, "source not known")
    return WentIn(lot.code, yard, name, supers, grams)


def _came_out(view: View, lot: Lot, grams: int, pending: bool) -> CameOut:
    amended = view.mark(lot.code, "container")
    container = str(amended.value if amended else lot.attributes.get("container", ""))
    return CameOut(
        code=lot.code,
        kind=lot.kind,
        container=container,
        grams=grams,
        pending=pending,
        moisture=reading(view, lot.code, "moisture"),
        colour=reading(view, lot.code, "colour"),
        container_name=name_in(view, place(DRUM, container), container) if container else "",
    )


def _opened_with(view: View, code: str) -> dict[str, int]:
    """The run's vessels as it was opened, with the grams each held."""
    mark = view.mark(place("run", code), "opened")
    rows = mark.value.get("heels", ()) if mark and isinstance(mark.value, Mapping) else ()
    assert isinstance(rows, Sequence)
    return {str(row[0]): int(str(row[1])) for row in rows if isinstance(row, Sequence)}


def _heels_in(view: View, code: str) -> tuple[HeelIn, ...]:
    return tuple(
        HeelIn(vessel, name_of(view, place(VESSEL, vessel)), grams)
        for vessel, grams in _opened_with(view, code).items()
        if grams
    )


def _vessels(view: View, code: str) -> tuple[VesselNow, ...]:
    rows = []
    for vessel in (place(VESSEL, key) for key in _opened_with(view, code)):
        washed = view.mark(vessel, "washed")
        cuts = washed and isinstance(washed.value, Mapping) and washed.value.get("cuts")
        rows.append(
            VesselNow(
                key_of(vessel),
                name_of(view, vessel),
                sum(row.grams for row in view.standing(vessel)),
                washed.at_ms if washed and cuts else None,
                _size(view, vessel, "capacity_g"),
                _size(view, vessel, "depth_cm"),
            )
        )
    return tuple(rows)


def _size(view: View, vessel: str, fact: str) -> int:
    mark = view.mark(vessel, "record")
    size = mark.value.get(fact) if mark and isinstance(mark.value, Mapping) else None
    return size if isinstance(size, int) else 0


def _ties(view: View, drums: Sequence[Lot]) -> tuple[Tie, ...]:
    """Yards over all drums of the run, by mass, with what recalling each would recall."""
    total = sum(drum.made_g for drum in drums)
    if not total:
        return ()
    grams: dict[str, float] = {}
    first: dict[str, Ancestor] = {}
    direct: set[str] = set()
    sources: dict[str, set[int]] = {}
    for drum in drums:
        trace = trace_back(view, drum.code)  # its sources are needed, drawn or not
        for row in trace.ancestors:
            first.setdefault(row.code, row)
            grams[row.code] = grams.get(row.code, 0.0) + row.share * drum.made_g
            if not row.only_through_heel:
                direct.add(row.code)
        for ribbon in trace.sources:
            sources.setdefault(ribbon.code, set()).add(ribbon.lot)
    here = {drum.id for drum in drums}
    rows = []
    for code, row in first.items():
        reached = {edge.child for edge in view.descent(sorted(sources[code]))}
        kinds = view.lots(reached)
        found = {lot for lot in reached if kinds[lot].kind == "D"}
        share = grams[code] / total
        rows.append(
            Tie(
                code=code,
                name=row.name,
                share=share,
                grams=round(grams[code]),
                only_through_heel=code not in direct,
                drums=len(found & here),
                others=len(found - here),
            )
        )
    return tuple(sorted(rows, key=lambda row: (-row.share, row.name)))


def usual_spread(view: View, now_ms: int) -> int:
    """How far this house's estimates usually are off its scales, in thousandths.

    The mean over its closed runs of this season and the last once there are five of them; the
    house's setting until then.
    """
    gaps = []
    closed = [mark for under in _recent(view, now_ms) for mark in view.marked("closed", under)]
    for mark in closed:
        balance = mark.value.get("balance") if isinstance(mark.value, Mapping) else None
        if isinstance(balance, Mapping):
            gap, came_in = balance.get("estimate_gap_g", 0), balance.get("in_g", 0)
            if isinstance(gap, int) and isinstance(came_in, int) and came_in:
                gaps.append(abs(gap) * 1000 // came_in)
    if len(gaps) < FEWEST_RUNS:
        house = view.mark("house", "record")
        value = house.value if house and isinstance(house.value, Mapping) else {}
        spread = value.get("usual_spread_permille", 60)
        return spread if isinstance(spread, int) else 60
    return sum(gaps) // len(gaps)
