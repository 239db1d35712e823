"""Plans of a house: which drums make a blend, which pallets make a run, with a small recall.

Honey that is held, not weighed or not read stays out, and so does a customer's. Nothing is booked:
a plan is an offer.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.blend import mean_moisture
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.services.drums_page import DrumRow, DrumsPage
from honeyledger.services.hot_room_page import HotRoomPage
from honeyledger.services.planning import (
    Parcel,
    Planner,
    Progress,
    Proposal,
    Runs,
    Wanted,
    blend_recall_g,
    first_in_blend,
    first_in_runs,
    fits_runs,
    may_go_in,
    runs_recall_g,
)

MAY_BE_BLENDED = ("ready", "not read")
STAYS_OUT = ("hold", "dry first")
TOO_LONG = "waits too long"
NOT_OURS, NOT_AS_ASKED = "another owner's", "not as asked"

NO_DRUM_FITS = Sentence(
    "no-drum-fits",
    "No drum on hand may go into such a blend. Drums that are held, not weighed, not read or a "
    "customer's stay out: allow another moisture or colour, or see to those first.",
)
TOO_LITTLE = Sentence(
    "blend-too-little",
    "The drums that may go in hold {there}, less than the {least} asked for. Ask for less.",
)
SPAN_TURNED = Sentence(
    "plan-span-turned",
    "From {least} to {most} runs backwards. Give the smaller one first.",
)
NO_BLEND_FOUND = Sentence(
    "no-blend-found",
    "No choice of whole drums was found that is all that was asked. Allow a wider mass, or "
    "another moisture.",
)
NOTHING_WAITS = Sentence(
    "nothing-waits-to-plan",
    "No pallet waits that could go into a run: those held or too wet stay out.",
)
TOO_FEW_RUNS = Sentence(
    "too-few-runs",
    "The pallets that wait hold {waits}, more than {runs} runs of {most}. Plan more runs, or "
    "larger ones.",
)
NO_RUNS_FOUND = Sentence(
    "no-runs-found",
    "No cut into runs was found that is all that was asked. Plan one run more, or allow another "
    "moisture.",
)
ORDER_NOT_WHOLE = Sentence(
    "order-not-whole",
    "Your order must name each pallet that waits once. Look at: {codes}.",
)


@dataclass(frozen=True, slots=True)
class PlannedLot:
    """A lot that a plan would make: grams, hundredths of a percent, the sources it ties."""

    codes: tuple[str, ...]
    grams: int
    moisture: int | None
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A proposal beside what would be done without it.

    Args:
        lots: what it would make, in order.
        expected_g: the recall to expect with it: were one source bad, on the mean.
        by_age_g: of first in, first out; None where that does not come out.
        by_age_fits: whether first in, first out keeps all that is asked.
        own_g: of the order a person gave; None where none was given.
        best_g: no plan can come below it; None where nothing was proved.
        stopped: "proved", "time" or "asked".
        left_out: codes that were not looked at, with why.
    """

    lots: tuple[PlannedLot, ...]
    expected_g: int
    by_age_g: int | None
    by_age_fits: bool
    own_g: int | None
    best_g: int | None
    stopped: str
    left_out: Mapping[str, str]


def plan_blend(
    page: DrumsPage,
    wanted: Wanted,
    planner: Planner,
    limit_s: float,
    go_on: Progress,
    own: Sequence[str] = (),
) -> Plan:
    """Which drums on hand to blend.

    Args:
        own: the drums a person chose, to be compared with; not looked at where one of them may
            not be blended.

    Raises:
        Refusal: nothing may go in, too little may, or no choice comes out as asked.
    """
    _refuse_turned(wanted, page.unit)
    rows = [row for row in page.rows if row.state in MAY_BE_BLENDED and not row.owner]
    parcels = [
        Parcel(
            row.code,
            row.grams,
            frozenset(row.yards),
            row.moisture,
            row.colour,
            -row.age_days,
        )
        for row in rows
        if row.yards
    ]
    able = [parcel for parcel in parcels if may_go_in(parcel, wanted)]
    if not able:
        raise Refusal(NO_DRUM_FITS, field="moisture")
    there = sum(parcel.grams for parcel in able)
    if there < wanted.least_g:
        raise Refusal(
            TOO_LITTLE,
            field="least",
            there=format_mass(there, page.unit),
            least=format_mass(wanted.least_g, page.unit),
        )
    found = planner.blend(parcels, wanted, limit_s, go_on)
    if found is None:
        raise Refusal(NO_BLEND_FOUND, field="least")
    by_age = first_in_blend(parcels, wanted)
    looked_at = {parcel.code for parcel in able}
    out = {row.code: _why_out(row) for row in page.rows if row.code not in looked_at}
    by_age_g = None if by_age is None else by_age.expected_g
    known = {parcel.code for parcel in parcels}
    own_g = blend_recall_g(parcels, own) if own and known.issuperset(own) else None
    return _plan(parcels, found, by_age_g, by_age is not None, own_g, out)


def plan_runs(
    page: HotRoomPage,
    asked: Runs,
    planner: Planner,
    limit_s: float,
    go_on: Progress,
    own: Sequence[Sequence[str]] = (),
) -> Plan:
    """Which waiting pallets to run together, and in which order.

    Args:
        own: a person's own order, to be compared; empty for none.

    Raises:
        Refusal: nothing waits, too few runs are planned, or none comes out as asked.
    """
    out = {row.code: row.state for row in page.rows if row.state in STAYS_OUT}
    parcels = waiting_parcels(page)
    if not parcels:
        raise Refusal(NOTHING_WAITS, field="runs")
    _refuse_order(parcels, own)
    waits = sum(parcel.grams for parcel in parcels)
    if waits > asked.runs * asked.most_g:
        raise Refusal(
            TOO_FEW_RUNS,
            field="runs",
            waits=format_mass(waits, page.unit),
            runs=asked.runs,
            most=format_mass(asked.most_g, page.unit),
        )
    found = planner.runs(parcels, asked, limit_s, go_on)
    if found is None:
        raise Refusal(NO_RUNS_FOUND, field="runs")
    by_age = first_in_runs(parcels, asked)
    fits = fits_runs(parcels, by_age.lots, asked)
    own_g = runs_recall_g(parcels, own) if own else None
    return _plan(parcels, found, by_age.expected_g, fits, own_g, out)


def waiting_parcels(page: HotRoomPage) -> list[Parcel]:
    """The pallets that may go into a run; those held or too wet stay out."""
    return [
        Parcel(row.code, row.grams, row.sources, row.moisture, None, -row.hours)
        for row in page.rows
        if row.state not in STAYS_OUT and row.sources and row.grams > 0
    ]


def runs_as_by_age(page: HotRoomPage, most_g: int, moisture_most: int | None = None) -> Runs:
    """What a plan has to keep to be held against first in, first out.

    It takes no more runs, and a pallet that waits too long goes in no later than it would if all
    of those went first.
    """
    parcels = waiting_parcels(page)
    late = {row.code for row in page.rows if row.state == TOO_LONG}
    some = [parcel for parcel in parcels if parcel.code in late]
    at_latest = tuple(
        (code, at)
        for at, run in enumerate(first_in_runs(some, Runs(most_g, 1)).lots)
        for code in run
    )
    by_age = first_in_runs(parcels, Runs(most_g, 1))
    return Runs(most_g, max(1, len(by_age.lots)), moisture_most, at_latest)


def with_the_rest(
    page: HotRoomPage, order: Sequence[str], most_g: int
) -> tuple[tuple[str, ...], ...]:
    """A person's own runs: the next one as it is ordered, then what is left by age.

    Nothing where nobody has ordered anything that may go in.
    """
    parcels = waiting_parcels(page)
    there = {parcel.code for parcel in parcels}
    first = tuple(code for code in order if code in there)
    if not first:
        return ()
    rest = [parcel for parcel in parcels if parcel.code not in first]
    return (first, *first_in_runs(rest, Runs(most_g, 1)).lots)


def _plan(
    parcels: Sequence[Parcel],
    found: Proposal,
    by_age_g: int | None,
    by_age_fits: bool,
    own_g: int | None,
    left_out: Mapping[str, str],
) -> Plan:
    by_code = {parcel.code: parcel for parcel in parcels}
    return Plan(
        tuple(_lot([by_code[code] for code in lot]) for lot in found.lots),
        found.expected_g,
        by_age_g,
        by_age_fits,
        own_g,
        found.bound_g,
        found.stopped,
        left_out,
    )


def _lot(parcels: Sequence[Parcel]) -> PlannedLot:
    return PlannedLot(
        tuple(parcel.code for parcel in parcels),
        sum(parcel.grams for parcel in parcels),
        mean_moisture([(parcel.grams, parcel.moisture) for parcel in parcels]),
        _all(parcel.sources for parcel in parcels),
    )


def _all(sources: Iterable[Collection[str]]) -> tuple[str, ...]:
    return tuple(sorted({one for some in sources for one in some}))


def _why_out(row: DrumRow) -> str:
    if row.owner and row.state in MAY_BE_BLENDED:
        return NOT_OURS
    return NOT_AS_ASKED if row.state == "ready" else row.state


def _refuse_turned(wanted: Wanted, unit: MassUnit) -> None:
    if wanted.least_g > wanted.most_g:
        raise Refusal(
            SPAN_TURNED,
            field="least",
            least=format_mass(wanted.least_g, unit),
            most=format_mass(wanted.most_g, unit),
        )


def _refuse_order(parcels: Sequence[Parcel], own: Sequence[Sequence[str]]) -> None:
    if not own:
        return
    waiting = {parcel.code for parcel in parcels}
    said = [code for run in own for code in run]
    wrong = waiting.symmetric_difference(said) | {code for code in said if said.count(code) > 1}
    if wrong:
        raise Refusal(ORDER_NOT_WHOLE, field="order", codes=", ".join(sorted(wrong)))
