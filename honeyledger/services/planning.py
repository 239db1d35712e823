"""What is asked of a plan, what a plan is, and how large a recall it would make.

Honey that goes into one lot comes back together when one of its sources is found bad. The recall
to expect of some lots is the mean over their sources, each as likely as the next to be the bad
one, of the mass of all lots that hold some of it. Fewer sources a lot, and fewer lots a source,
make it smaller: the batch dispersion of the food-engineering literature (Dupuy, Botta-Genoulaz
and Guinet 2005, Journal of Food Engineering; from memory).

A plan proposes, a person takes it. What a solver finds is reckoned again here, in whole grams.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

Progress = Callable[[float, float], bool]
"""Told the best figure so far and the bound, both the solver's own; answers whether to go on."""


@dataclass(frozen=True, slots=True)
class Parcel:
    """Honey that is moved whole: a drum, or a pallet of supers.

    Args:
        sources: what it came from, each a name of the caller's; at least one.
        moisture: hundredths of a percent; None where it was not read.
        colour: tenths of a Pfund millimetre; None where it was not read.
        since_ms: it waits since; the order of first in, first out.
    """

    code: str
    grams: int
    sources: frozenset[str]
    moisture: int | None = None
    colour: int | None = None
    since_ms: int = 0


@dataclass(frozen=True, slots=True)
class Wanted:
    """What one lot must be.

    Args:
        least_g, most_g: its mass lies between them, both included.
        moisture_most, moisture_least: of its mean by mass, hundredths of a percent.
        lightest, darkest: of every part, tenths of a millimetre: colours have no mean.
    """

    least_g: int
    most_g: int
    moisture_most: int | None = None
    moisture_least: int | None = None
    lightest: int | None = None
    darkest: int | None = None

    @property
    def asks_moisture(self) -> bool:
        """A part that was not read cannot go in."""
        return self.moisture_most is not None or self.moisture_least is not None


@dataclass(frozen=True, slots=True)
class Runs:
    """Waiting pallets to put into runs, washed between.

    Args:
        most_g: of one run.
        runs: at most so many, the first is run first.
        moisture_most: of the mean of each, hundredths of a percent.
        latest: the last run, from 0, in which a pallet may go that waits too long; by code.
    """

    most_g: int
    runs: int
    moisture_most: int | None = None
    latest: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Proposal:
    """Lots to make, by the codes that go in.

    Args:
        expected_g: the recall to expect, of these lots and all that stays as it is.
        bound_g: no plan can come below it; None where nothing was proved.
        stopped: "proved", "time", "asked", or "by age" where nobody looked for better.
    """

    lots: tuple[tuple[str, ...], ...]
    expected_g: int
    bound_g: int | None
    stopped: str

    @property
    def gap(self) -> float | None:
        """How far from the best it can be at most, as a part of its own figure."""
        if self.bound_g is None:
            return None
        return max(0, self.expected_g - self.bound_g) / self.expected_g if self.expected_g else 0.0


class Planner(Protocol):
    """Finds plans; always answers what is at least as good as `first`, where that is possible."""

    def blend(
        self, parcels: Sequence[Parcel], wanted: Wanted, limit_s: float, progress: Progress
    ) -> Proposal | None:
        """One lot of whole parcels; None where none was found."""
        ...

    def runs(
        self, parcels: Sequence[Parcel], asked: Runs, limit_s: float, progress: Progress
    ) -> Proposal | None:
        """Every parcel into one of the runs; None where none was found."""
        ...


def expected_recall_g(lots: Iterable[Sequence[Parcel]]) -> Fraction:
    """The mean over all sources of what comes back with one, exactly."""
    back: dict[str, int] = {}
    for lot in lots:
        grams = sum(parcel.grams for parcel in lot)
        for source in frozenset[str]().union(*(parcel.sources for parcel in lot)):
            back[source] = back.get(source, 0) + grams
    return Fraction(sum(back.values()), len(back)) if back else Fraction()


def blend_recall_g(parcels: Sequence[Parcel], chosen: Iterable[str]) -> int:
    """The recall to expect where the chosen are made one lot and the others stay as they are."""
    taken = set(chosen)
    together = [parcel for parcel in parcels if parcel.code in taken]
    lots = [together, *([parcel] for parcel in parcels if parcel.code not in taken)]
    return round(expected_recall_g(lot for lot in lots if lot))


def runs_recall_g(parcels: Sequence[Parcel], runs: Iterable[Iterable[str]]) -> int:
    """The recall to expect of runs."""
    by_code = {parcel.code: parcel for parcel in parcels}
    return round(expected_recall_g([by_code[code] for code in run] for run in runs))


def may_go_in(parcel: Parcel, wanted: Wanted) -> bool:
    """Whether a parcel may be a part at all: its colour fits, and what must be read was read."""
    if wanted.asks_moisture and parcel.moisture is None:
        return False
    if wanted.lightest is None and wanted.darkest is None:
        return True
    if parcel.colour is None:
        return False
    return (wanted.lightest or 0) <= parcel.colour and (
        wanted.darkest is None or parcel.colour <= wanted.darkest
    )


def fits(chosen: Sequence[Parcel], wanted: Wanted) -> bool:
    """Whether parts make the lot that is wanted, exactly."""
    grams = sum(parcel.grams for parcel in chosen)
    if not wanted.least_g <= grams <= wanted.most_g:
        return False
    return all(may_go_in(parcel, wanted) for parcel in chosen) and keeps_moisture(
        chosen, wanted.moisture_least, wanted.moisture_most
    )


def keeps_moisture(chosen: Sequence[Parcel], least: int | None, most: int | None) -> bool:
    """Whether the mean by mass lies between the two, exactly; a part not read fails both."""
    if least is None and most is None:
        return True
    if any(parcel.moisture is None for parcel in chosen):
        return False
    grams = sum(parcel.grams for parcel in chosen)
    water = sum(parcel.grams * (parcel.moisture or 0) for parcel in chosen)
    return (most is None or water <= most * grams) and (least is None or water >= least * grams)


def fits_runs(parcels: Sequence[Parcel], runs: Sequence[Sequence[str]], asked: Runs) -> bool:
    """Whether every pallet is in one run, and each run keeps what is asked."""
    by_code = {parcel.code: parcel for parcel in parcels}
    if len(runs) > asked.runs or sorted(by_code) != sorted(code for run in runs for code in run):
        return False
    latest = dict(asked.latest)
    for at, run in enumerate(runs):
        chosen = [by_code[code] for code in run]
        if not fits_run(chosen, asked) or any(latest.get(code, at) < at for code in run):
            return False
    return True


def fits_run(chosen: Sequence[Parcel], asked: Runs) -> bool:
    """Whether these make one run, wherever it stands in the order; an empty one does."""
    if not chosen:
        return True
    grams = sum(parcel.grams for parcel in chosen)
    return grams <= asked.most_g and keeps_moisture(chosen, None, asked.moisture_most)


def oldest_first(parcels: Sequence[Parcel]) -> list[Parcel]:
    """The order of first in, first out; codes decide between the same moment."""
    return sorted(parcels, key=lambda parcel: (parcel.since_ms, parcel.code))


def first_in_blend(parcels: Sequence[Parcel], wanted: Wanted) -> Proposal | None:
    """The oldest that fit, as a person goes along the row; None where that does not come out."""
    chosen: list[Parcel] = []
    grams = 0
    for parcel in oldest_first(parcels):
        if grams >= wanted.least_g:
            break
        if grams + parcel.grams > wanted.most_g or not may_go_in(parcel, wanted):
            continue
        if keeps_moisture([*chosen, parcel], wanted.moisture_least, wanted.moisture_most):
            chosen.append(parcel)
            grams += parcel.grams
    if not fits(chosen, wanted):
        return None
    codes = tuple(parcel.code for parcel in chosen)
    return Proposal((codes,), blend_recall_g(parcels, codes), None, "by age")


def first_in_runs(parcels: Sequence[Parcel], asked: Runs) -> Proposal:
    """Pallets as they came, a new run where one is full; it may not keep all that is asked."""
    runs: list[list[str]] = []
    grams = 0
    for parcel in oldest_first(parcels):
        if not runs or grams + parcel.grams > asked.most_g:
            runs.append([])
            grams = 0
        runs[-1].append(parcel.code)
        grams += parcel.grams
    lots = tuple(tuple(run) for run in runs)
    return Proposal(lots, runs_recall_g(parcels, lots), None, "by age")
