"""Drums for a blend and pallets for runs, picked so that the recall to expect is least.

Both are one model. A source is on a lot when one of the parcels that hold it is; what comes back
with a source is then the mass of the lot. The product of "on the lot" and the lot's mass is exact
as a row each: at least the lot's mass less all that could be in it where the source is not.
Masses are in kilograms, moistures in hundredths of a percent; every answer is reckoned again in
whole grams, and one that a rounding made look as if it fitted is forbidden and looked for anew.
"""

import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from honeyledger.optimisation.model import Model, Solved
from honeyledger.services.planning import (
    Parcel,
    Progress,
    Proposal,
    Runs,
    Wanted,
    blend_recall_g,
    expected_recall_g,
    first_in_blend,
    first_in_runs,
    fits,
    fits_run,
    fits_runs,
    may_go_in,
    runs_recall_g,
)

_KG = 1000
_TRIES = 5


@dataclass(frozen=True, slots=True)
class SolverPlanner:
    """The port's plans by HiGHS."""

    def blend(
        self, parcels: Sequence[Parcel], wanted: Wanted, limit_s: float, progress: Progress
    ) -> Proposal | None:
        """One lot of whole parcels, the rest left as they are."""
        by_hand = first_in_blend(parcels, wanted)
        able = [parcel for parcel in parcels if may_go_in(parcel, wanted)]
        best = by_hand
        stays = expected_recall_g([parcel] for parcel in parcels)
        model, columns = _blend_model(parcels, able, wanted)
        start = None
        if by_hand is not None:
            start = _blend_start(columns, able, set(by_hand.lots[0]))
        for solved in _tries(model, start, limit_s, progress):
            if solved.values is None:
                return None if best is None else replace(best, stopped="time")
            chosen = [p for p in able if solved.values[columns.parcels[p.code]] > 0.5]
            codes = tuple(parcel.code for parcel in chosen)
            bound_g = None if solved.bound is None else round(float(stays) + solved.bound * _KG)
            if not fits(chosen, wanted):
                _forbid(model, columns.parcels, codes)
                continue
            found = Proposal((codes,), blend_recall_g(parcels, codes), bound_g, solved.stopped)
            return better(best, found)
        return None if best is None else replace(best, stopped="time")

    def runs(
        self, parcels: Sequence[Parcel], asked: Runs, limit_s: float, progress: Progress
    ) -> Proposal | None:
        """Every pallet into one of the runs."""
        by_hand = first_in_runs(parcels, asked)
        best = by_hand if fits_runs(parcels, by_hand.lots, asked) else None
        model, columns = runs_model(parcels, asked)
        start = None if best is None else _runs_start(columns, parcels, best.lots)
        for solved in _tries(model, start, limit_s, progress):
            if solved.values is None:
                return None if best is None else replace(best, stopped="time")
            lots = tuple(
                tuple(p.code for p in parcels if solved.values[columns.put[p.code, at]] > 0.5)
                for at in range(asked.runs)
            )
            bound_g = None if solved.bound is None else round(solved.bound * _KG)
            if not fits_runs(parcels, lots, asked):
                forbid_runs(model, columns, parcels, lots, asked)
                continue
            lots = tuple(lot for lot in lots if lot)
            found = Proposal(lots, runs_recall_g(parcels, lots), bound_g, solved.stopped)
            return better(best, found)
        return None if best is None else replace(best, stopped="time")


@dataclass(frozen=True, slots=True)
class _BlendColumns:
    parcels: Mapping[str, int]
    sources: Mapping[str, int]
    back: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class RunColumns:
    """Which column is what: by pallet and run, and by source and run."""

    put: Mapping[tuple[str, int], int]
    holds: Mapping[tuple[str, int], int]
    back: Mapping[tuple[str, int], int]


def _blend_model(
    parcels: Sequence[Parcel], able: Sequence[Parcel], wanted: Wanted
) -> tuple[Model, _BlendColumns]:
    """Costs are the change against leaving all as it is, in kilograms."""
    model = Model()
    every = len(frozenset[str]().union(*(parcel.sources for parcel in parcels)))
    put = {p.code: model.yes_or_no(-p.grams / _KG * len(p.sources) / max(every, 1)) for p in able}
    most = wanted.most_g / _KG
    by_source = _by_source(able)
    holds = {source: model.yes_or_no() for source in by_source}
    back = {source: model.amount(most, 1 / every) for source in by_source}
    mass = {put[p.code]: p.grams / _KG for p in able}
    model.row(mass, wanted.least_g / _KG, most)
    for source, inside in by_source.items():
        for parcel in inside:
            model.row({holds[source]: 1.0, put[parcel.code]: -1.0}, least=0.0)
        model.row(
            {back[source]: 1.0, holds[source]: -most, **{c: -kg for c, kg in mass.items()}},
            least=-most,
        )
        # Without the whole lot a source still brings back what it is in itself.
        own = {put[p.code]: -p.grams / _KG for p in inside}
        model.row({back[source]: 1.0, **own}, least=0.0)
    _moisture_rows(model, [(put[p.code], p) for p in able], wanted)
    return model, _BlendColumns(put, holds, back)


def runs_model(parcels: Sequence[Parcel], asked: Runs) -> tuple[Model, RunColumns]:
    """Which pallet goes into which run; costs are the recall to expect, in kilograms."""
    model = Model()
    by_source = _by_source(parcels)
    most = min(asked.most_g, sum(parcel.grams for parcel in parcels)) / _KG
    runs, latest = range(asked.runs), dict(asked.latest)
    put = {(p.code, at): model.yes_or_no() for at in runs for p in parcels}
    holds = {(source, at): model.yes_or_no() for at in runs for source in by_source}
    back = {
        (source, at): model.amount(most, 1 / len(by_source)) for at in runs for source in by_source
    }
    for parcel in parcels:
        last = latest.get(parcel.code, asked.runs)
        model.row({put[parcel.code, at]: 1.0 for at in runs if at <= last}, 1.0, 1.0)
        late = {put[parcel.code, at]: 1.0 for at in runs if at > last}
        if late:
            model.row(late, 0.0, 0.0)
    for at in runs:
        mass = {put[p.code, at]: p.grams / _KG for p in parcels}
        model.row(mass, 0.0, most)
        for source, inside in by_source.items():
            for parcel in inside:
                model.row({holds[source, at]: 1.0, put[parcel.code, at]: -1.0}, least=0.0)
            model.row(
                {
                    back[source, at]: 1.0,
                    holds[source, at]: -most,
                    **{column: -kg for column, kg in mass.items()},
                },
                least=-most,
            )
        asked_here = Wanted(0, asked.most_g, moisture_most=asked.moisture_most)
        _moisture_rows(model, [(put[p.code, at], p) for p in parcels], asked_here)
    for source, inside in by_source.items():
        # However runs are cut, a source brings back at least what it is in.
        whole = sum(parcel.grams for parcel in inside) / _KG
        model.row({back[source, at]: 1.0 for at in runs}, least=whole)
    return model, RunColumns(put, holds, back)


def _moisture_rows(model: Model, columns: Sequence[tuple[int, Parcel]], wanted: Wanted) -> None:
    for limit, is_most in ((wanted.moisture_most, True), (wanted.moisture_least, False)):
        if limit is None:
            continue
        terms = {
            column: parcel.grams / _KG * ((parcel.moisture or 0) - limit)
            for column, parcel in columns
        }
        model.row(terms, **({"most": 0.0} if is_most else {"least": 0.0}))


def _by_source(parcels: Sequence[Parcel]) -> dict[str, list[Parcel]]:
    found: dict[str, list[Parcel]] = {}
    for parcel in parcels:
        for source in sorted(parcel.sources):
            found.setdefault(source, []).append(parcel)
    return found


def _blend_start(
    columns: _BlendColumns, able: Sequence[Parcel], codes: set[str]
) -> dict[int, float]:
    chosen = [parcel for parcel in able if parcel.code in codes]
    grams = sum(parcel.grams for parcel in chosen)
    start = {columns.parcels[parcel.code]: 1.0 for parcel in chosen}
    for source in _by_source(chosen):
        start[columns.sources[source]] = 1.0
        start[columns.back[source]] = grams / _KG
    return start


def _runs_start(
    columns: RunColumns, parcels: Sequence[Parcel], lots: Sequence[Sequence[str]]
) -> dict[int, float]:
    by_code = {parcel.code: parcel for parcel in parcels}
    start: dict[int, float] = {}
    for at, lot in enumerate(lots):
        inside = [by_code[code] for code in lot]
        grams = sum(parcel.grams for parcel in inside)
        start |= {columns.put[code, at]: 1.0 for code in lot}
        for source in _by_source(inside):
            start[columns.holds[source, at]] = 1.0
            start[columns.back[source, at]] = grams / _KG
    return start


def _forbid(model: Model, columns: Mapping[str, int], codes: Sequence[str]) -> None:
    """Not this choice again: one of them is out, or one more is in."""
    inside = set(codes)
    terms = {column: -1.0 if code in inside else 1.0 for code, column in columns.items()}
    model.row(terms, least=1.0 - len(inside))


def forbid_runs(
    model: Model,
    columns: RunColumns,
    parcels: Sequence[Parcel],
    lots: Sequence[Sequence[str]],
    asked: Runs,
) -> None:
    """Not these runs again: each that does not fit is forbidden at every place, no other is.

    A run that fits stays allowed, and so does an empty one; where each fits by itself, only all
    of them together are forbidden.
    """
    by_code = {parcel.code: parcel for parcel in parcels}
    wrong = [lot for lot in lots if not fits_run([by_code[code] for code in lot], asked)]
    for at in range(asked.runs):
        here = {code: column for (code, run), column in columns.put.items() if run == at}
        for lot in wrong:
            _forbid(model, here, lot)
    if not wrong:
        put = {(code, at) for at, lot in enumerate(lots) for code in lot}
        terms = {column: -1.0 if key in put else 1.0 for key, column in columns.put.items()}
        model.row(terms, least=1.0 - len(put))


def _tries(
    model: Model, start: Mapping[int, float] | None, limit_s: float, progress: Progress
) -> Iterator[Solved]:
    """Solutions to look at; asked again where one did not fit exactly."""
    end = time.monotonic() + limit_s
    for _ in range(_TRIES):
        yield model.solve(end - time.monotonic(), start, progress)


def better(by_hand: Proposal | None, found: Proposal) -> Proposal:
    """What was found, unless oldest first is smaller; with the bound and how the search ended."""
    if by_hand is None or found.expected_g <= by_hand.expected_g:
        return found
    return replace(by_hand, bound_g=found.bound_g, stopped=found.stopped)
