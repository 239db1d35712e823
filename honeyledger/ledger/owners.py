"""Whose honey a run is: of one owner, or of several who agreed to pool it, and what each gets.

A run is of the owner it was opened for, else of the owner of the first supers loaded. What comes
out of one owner's run is theirs. Of a pooled run each owner gets a share by the weight of honey
taken out of their supers (boxes in less wet boxes out), or by the number of boxes where not all
of them were weighed empty: common practice, no source.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.in_run import entries_in, loaded_in
from honeyledger.ledger.mixing import name_of
from honeyledger.ledger.places import VESSEL, place
from honeyledger.ledger.run_balance import Loaded, RunBalance, balance_of
from honeyledger.ledger.sources import number_in
from honeyledger.ledger.state import Mark, State
from honeyledger.ledger.title import HOUSE, OWNER, owner_of, party_name

POOLED = "pooled"
WEIGHED, BOXES = "weighed", "boxes"

OTHERS_SUPERS = Sentence(
    "others-supers",
    "{code} is {owner}'s, and {run} is {whose}'s. Open another run for it, or say that this run "
    "is pooled by agreement (pool).",
)
HEEL_OF_OTHERS = Sentence(
    "heel-of-others",
    "{grams} stood in {vessels} as this run of {owner} began. If that is not theirs, wash for a "
    "clean break; else it goes into their honey, and as much is taken off their share.",
)


@dataclass(frozen=True, slots=True)
class OwnersPart:
    """One owner's part of a run, grams.

    `in_g` is what their supers were estimated to hold, `taken_g` what two weighings say was taken
    out of them, None where not all were weighed. `honey_g` and `cappings_g` are their shares.
    """

    owner: str
    supers: int
    in_g: int
    taken_g: int | None
    honey_g: int
    cappings_g: int


@dataclass(frozen=True, slots=True)
class Settlement:
    """What a run gave and how it is shared; the parts sum to it, to the gram.

    `basis` is "weighed" or "boxes".
    """

    run: str
    pooled: bool
    basis: str
    honey_g: int
    cappings_g: int
    parts: tuple[OwnersPart, ...]


def said_of(state: State, run: str) -> str:
    """Whose run it is as said when it was opened, or by the first load; "" where nobody did."""
    opened, loaded = state.mark(place("run", run), "opened"), state.mark(place("run", run), OWNER)
    if opened and isinstance(opened.value, Mapping) and opened.value.get(OWNER):
        return str(opened.value[OWNER])
    return str(loaded.value) if loaded else ""


def is_pooled(state: State, run: str) -> bool:
    """Whether the owners agreed to pool a run."""
    return state.mark(place("run", run), POOLED) is not None


def check_owners(b: Booking, lots: Sequence[Lot]) -> None:
    """Supers of another owner do not go into a run that is not pooled.

    Raises:
        Refusal: they would.
    """
    run = b.act.run
    owners = {lot.id: owner_of(b.state, lot) for lot in lots}
    said = said_of(b.state, run) if run else ""
    if not run or (not said and set(owners.values()) == {HOUSE}) or is_pooled(b.state, run):
        return
    whose = said or (HOUSE if _is_begun(b.state, run) else owners[lots[0].id])
    for lot in lots:
        if owners[lot.id] != whose:
            owner = party_name(b.state, owners[lot.id])
            shown = {"owner": owner, "whose": party_name(b.state, whose)}
            raise Refusal(OTHERS_SUPERS, field="pallet", code=lot.code, run=run, **shown)
    if not said:
        b.mark(place("run", run), OWNER, whose)
        note_heel_of_others(b, _heels(b.state, run), whose)


def _heels(state: State, run: str) -> dict[str, int]:
    """What a run's vessels held as it was opened, by key."""
    opened = state.mark(place("run", run), "opened")
    rows = opened.value.get("heels") if opened and isinstance(opened.value, Mapping) else None
    found = rows if isinstance(rows, list) else []
    return {str(row[0]): int(str(row[1])) for row in found if isinstance(row, list)}


def note_heel_of_others(b: Booking, heels: Mapping[str, int], owner: str) -> None:
    """What stands in the vessels, by key, as one owner's run begins may be somebody else's."""
    held = {key: grams for key, grams in heels.items() if grams}
    if owner not in ("", HOUSE) and held:
        vessels = [name_of(b.state, place(VESSEL, key)) for key in held]
        shown = {"grams": format_mass(sum(held.values())), "vessels": " and ".join(vessels)}
        b.note(HEEL_OF_OTHERS, owner=party_name(b.state, owner), **shown)


def _is_begun(state: State, run: str) -> bool:
    """Whether supers were loaded in a run; those of an owner leave a mark."""
    return bool(loaded_in(state, run))


def owned_by_run(b: Booking, lot: Lot, run: str) -> None:
    """A drum or barrel that comes out of one owner's run is theirs from the start."""
    owner = said_of(b.state, run) if run else ""
    if owner not in ("", HOUSE) and not is_pooled(b.state, run):
        b.mark(lot.code, OWNER, {OWNER: owner, "document": run, "by": b.act.operator})


def settlement_of(state: State, run: str) -> Settlement:
    """How a run's honey and cappings are shared among the owners of what was loaded."""
    balance = balance_of(state, run)
    wet = _weighed_wet(state, balance)
    by_owner: dict[str, list[Loaded]] = {}
    for row in balance.loaded:
        by_owner.setdefault(owner_of(state, state.lot(row.pull)), []).append(row)
    taken = {owner: _taken(state, rows, wet) for owner, rows in by_owner.items()}
    supers = {owner: sum(row.supers for row in rows) for owner, rows in by_owner.items()}
    weighed = [one for one in taken.values() if one is not None and one > 0]
    basis = WEIGHED if len(weighed) == len(taken) else BOXES
    weights = weighed if basis == WEIGHED else list(supers.values())
    honey, cappings = _honey(balance), sum(row.grams for row in balance.barrels)
    ready = bool(weights) and sum(weights) > 0
    shares = largest_remainder(honey, weights) if ready else []
    barrels = largest_remainder(cappings, weights) if ready else []
    return Settlement(
        run=run,
        pooled=is_pooled(state, run),
        basis=basis,
        honey_g=honey,
        cappings_g=cappings,
        parts=tuple(
            OwnersPart(
                owner,
                supers[owner],
                sum(row.grams for row in by_owner[owner]),
                taken[owner],
                honey_g,
                cappings_g,
            )
            for owner, honey_g, cappings_g in zip(by_owner, shares, barrels, strict=False)
        ),
    )


def _honey(balance: RunBalance) -> int:
    """What the run itself gave: out by scale and dip, less what was there and was poured in."""
    out = sum(row.grams for row in balance.drums) + balance.part_filled_g + balance.heel_out_g
    return max(0, out - balance.heel_in_g - balance.poured_in_g)


def _weighed_wet(state: State, balance: RunBalance) -> dict[int, tuple[int, int]]:
    """Pull to (supers, grams) of its empties that were weighed in this run."""
    found: dict[int, tuple[int, int]] = {}
    known = {entry.id for entry in entries_in(state, balance.run)}
    for pull in {row.pull for row in balance.loaded}:
        marks = state.marks(state.lot(pull).code)
        rows = [_wet_in(mark, known) for mark in marks]
        weighed = [row for row in rows if row]
        if weighed:
            found[pull] = (sum(n for n, _ in weighed), sum(g for _, g in weighed))
    return found


def _wet_in(mark: Mark, known: Collection[int]) -> tuple[int, int] | None:
    is_wet = mark.name.startswith("wet out/") and mark.entry in known
    if not is_wet or not isinstance(mark.value, Mapping):
        return None
    gross = number_in(mark.value, "gross_g", 0)
    net = gross - number_in(mark.value, "tare_g", 0)
    return (number_in(mark.value, "count", 0), net) if gross else None


def _taken(state: State, rows: Sequence[Loaded], wet: Mapping[int, tuple[int, int]]) -> int | None:
    """Honey taken out of an owner's supers by two weighings; None where one is missing."""
    taken = 0
    for pull in {row.pull for row in rows}:
        loaded = [row for row in rows if row.pull == pull]
        supers = sum(row.supers for row in loaded)
        count, wet_g = wet.get(pull, (0, 0))
        if count != supers or _counted(state, pull):
            return None
        taken += sum(row.grams for row in loaded) + supers * _empty_g(state, pull) - wet_g
    return taken


def _counted(state: State, pull: int) -> bool:
    """Whether a pull was only counted on the dock: then its weight is a guess."""
    return state.lot(pull).attributes.get("basis") == "counted"


def _empty_g(state: State, pull: int) -> int:
    box = state.mark(f"box/{state.lot(pull).attributes.get('box', '')}", "record")
    record = box.value if box and isinstance(box.value, Mapping) else {}
    return number_in(record, "tare_g", 0)
