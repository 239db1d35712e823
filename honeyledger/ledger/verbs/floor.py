"""The extraction floor: runs, loads, wet supers, cappings, washing, and closing a run."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.in_run import (
    check_run_open,
    entries_in,
    note_left_out,
    note_outside,
    note_still_open,
    of_run,
    of_run_of_pull,
    stood_in,
)
from honeyledger.ledger.lookup import find_lot, find_vessel, read_code
from honeyledger.ledger.mixing import (
    Taken,
    fed_by,
    fed_from,
    feed,
    feeds,
    few,
    is_late,
    name_of,
    put,
    settle,
    unknown_honey,
)
from honeyledger.ledger.once import check_once
from honeyledger.ledger.owners import check_owners, note_heel_of_others, owned_by_run
from honeyledger.ledger.places import BARREL, DIFFERENCE, DISCARDED, key_of, place
from honeyledger.ledger.plausible import (
    LOADED_BEFORE,
    note_empties,
    note_heel,
    note_order,
    usual_gap_g,
)
from honeyledger.ledger.rinsing import catch_rinse
from honeyledger.ledger.run_balance import balance_of
from honeyledger.ledger.signing import check_signer
from honeyledger.ledger.sources import Weight, net_of
from honeyledger.ledger.title import OWNER, find_party
from honeyledger.ledger.uncapped import clings_to, uncapped
from honeyledger.ledger.unknown import ask_unknown
from honeyledger.ledger.verbs.dock import LOADED, as_taken, leave_empty, pallet_rows, take_supers
from honeyledger.ledger.yard_log import note_empties_go

NO_RUN = Sentence("no-run", "Say which run to close.")
WEIGH_FIRST = Sentence("weigh-first", "Weigh the cappings first: {grams} is nothing to book.")
NOTHING_UNCAPPED = Sentence(
    "nothing-uncapped",
    "Nothing has been loaded into {line} yet, so these cappings come from nowhere. Load the "
    "pallet first.",
)
WHAT_REMAINS = Sentence(
    "what-remains",
    "The books still see {grams} in {vessel}. Say what became of it: left as rinse, discarded, "
    "or never there.",
)
UNKNOWN_REMAINS = Sentence(
    "unknown-remains", "{remains} is no answer: say rinse, discarded or never."
)
LATE_WASH = Sentence(
    "late-wash",
    "There is a later entry on {vessel}: the wash is noted and cuts nothing. Narrow the lots by "
    "name if it was truly washed before.",
)
KEPT_BY_MARGIN = Sentence(
    "kept-by-margin",
    "{codes} came into {vessel} less than {minutes} minutes before this wash: kept in reach.",
)
NO_VESSELS = Sentence("no-vessels", "Name the vessels that were washed.")
WET_COUNT = Sentence(
    "wet-count", "Count the empty supers again: {count} is none, and there is at least one."
)
HEEL_BELOW_ZERO = Sentence(
    "heel-below-zero", "A heel of {grams} in {vessel} cannot be: dip again, or say 0 for empty."
)
UNKNOWN_WAY = Sentence("unknown-way", "{how} is no way to read a heel: say dip, mark or guess.")
HEEL_BY = ("dip", "mark", "guess")
REMAINS = {"rinse": DISCARDED, "discarded": DISCARDED, "never": DIFFERENCE}


@dataclass(frozen=True, slots=True)
class OpenRun:
    """A stretch of work begins on a line; its entries carry the run's code."""

    kind: ClassVar[str] = "open run"
    line: str
    tank: str = ""
    crew: str = ""
    owner: str = ""


@dataclass(frozen=True, slots=True)
class Load:
    """Supers of a pallet go into a line's first vessel: all, or a number of them.

    Args:
        apart: it is a load of its own, not what unknown honey drawn since stands for.
    """

    kind: ClassVar[str] = "load"
    pallet: str
    vessel: str
    count: int | None = None
    pull: str = ""
    despite_hold: str = ""
    apart: bool = False


@dataclass(frozen=True, slots=True)
class WetOut:
    """Empty wet supers counted and weighed: gross in less this is the true measure.

    Args:
        gross_g: the empties with pallet and lid; tare_g is pallet and lid.
        to: where they went (a yard, the wet stack).
        despite_flag: why they go to a yard although theirs is flagged for a disease.
    """

    kind: ClassVar[str] = "wet out"
    count: int
    gross_g: int | None = None
    tare_g: int = 0
    pull: str = ""
    to: str = ""
    despite_flag: str = ""


@dataclass(frozen=True, slots=True)
class Cappings:
    """A barrel of cappings, weighed."""

    kind: ClassVar[str] = "cappings"
    line: str
    net_g: int
    barrel: str = ""


@dataclass(frozen=True, slots=True)
class Wash:
    """Vessels emptied and washed. `remains` says what became of honey the books still see.

    Args:
        rinse_into: the vessel in which rinse honey is kept; `rinse_g` is what was caught of it.
    """

    kind: ClassVar[str] = "wash"
    vessels: tuple[str, ...]
    remains: str = ""
    rinse_into: str = ""
    rinse_g: int | None = None


@dataclass(frozen=True, slots=True)
class Heel:
    """What is left in a vessel: by dip, by a sight-glass mark, or a guess."""

    vessel: str
    grams: int
    how: str = "dip"


@dataclass(frozen=True, slots=True)
class CloseRun:
    """The run is settled and signed by its operator; cappings may be weighed later."""

    kind: ClassVar[str] = "close run"
    run: str = ""
    heels: tuple[Heel, ...] = ()
    cappings_pending: bool = False


def book_open_run(facts: OpenRun, b: Booking) -> None:
    """Give the run its code and note what its vessels hold already."""
    line = find_vessel(b.state, facts.line, "line")
    vessels = [line, *fed_from(b.state, line)]
    if facts.tank:
        vessels.append(find_vessel(b.state, facts.tank, "tank"))
    vessels = list(dict.fromkeys(vessels))
    note_still_open(b, vessels)
    run = b.new_code("R")
    b.act = replace(b.act, run=run)
    heels = {key_of(vessel): held for vessel, held in stood_in(b, vessels).items()}
    owner = find_party(b.state, facts.owner, OWNER) if facts.owner else ""
    note_heel_of_others(b, heels, owner)
    value = {
        "line": key_of(line),
        "heels": [list(row) for row in heels.items()],
        "crew": facts.crew,
        OWNER: owner,
    }
    b.mark(place("run", run), "opened", value)


def book_load(facts: Load, b: Booking) -> None:
    """The supers' honey stands in the vessel now; nothing is mixed until a draw."""
    tag, rows = pallet_rows(b, facts.pallet)
    vessel = find_vessel(b.state, facts.vessel)
    of_run(b, vessel)
    if not facts.apart:
        ask_unknown(b, tag, vessel)
    taken = take_supers(b, tag, rows, facts.count, facts.pull)
    check_owners(b, [lot for lot, _, _ in taken])
    ask_held(b, [lot.id for lot, _, _ in taken], facts.despite_hold, "pallet")
    for lot, grams, pieces in taken:
        note_order(b, lot, LOADED_BEFORE)
        b.move(lot.id, tag, vessel, grams)
        b.pieces(lot.id, tag, -pieces)
    also = [] if facts.pull else just_taken(b, tag, [lot.id for lot, _, _ in taken])
    put(b, vessel, [*as_taken(taken), *also])
    unsure_ms = b.act.unsure_ms
    b.mark(tag, f"{LOADED}{vessel}", [b.at_ms - unsure_ms, b.at_ms + unsure_ms])
    leave_empty(b, tag)


def just_taken(b: Booking, tag: str, taken: Sequence[int]) -> list[Taken]:
    """Pulls that left this pallet within the margin, or since: two scans may change places."""
    since_ms = b.at_ms - b.margin_ms
    left = {stay.lot for stay in b.state.stays(tag, since_ms) if stay.until_ms > since_ms}
    return [Taken(lot, 0) for lot in sorted(left - set(taken))]


def book_wet_out(facts: WetOut, b: Booking) -> None:
    """A fact of the run and of the pull: no grams move, the balance reads it."""
    if facts.count < 1:
        raise Refusal(WET_COUNT, field="count", count=facts.count)
    pull = find_lot(b.state, facts.pull, "S", "pull") if facts.pull else None
    of_run_of_pull(b, pull.id if pull else None)
    note_outside(b)
    if net := net_of(Weight(gross_g=facts.gross_g, tare_g=facts.tare_g), None):
        note_empties(b, net, facts.count)
    note_empties_go(b, {pull.id} if pull else None, facts.to, facts.count, facts.despite_flag)
    if b.act.run:
        b.mark(place("run", b.act.run), f"wet out/{b.entry_id}", facts)
    if pull:
        b.mark(pull.code, f"wet out/{b.entry_id}", facts)


def book_cappings(facts: Cappings, b: Booking) -> None:
    """The barrel's origins are the pulls uncapped since the last one, pro rata.

    Its grams leave the line's fill as far as the books see them there; the rest is weighing
    difference, never an unknown lot, since cappings are weighed whenever a barrel is full. What
    clings in the line clings to the cappings, too, and is in the barrel's reach.
    """
    if facts.net_g <= 0:
        raise Refusal(WEIGH_FIRST, field="net_g", grams=format_mass(facts.net_g))
    line = find_vessel(b.state, facts.line, "line")
    of_run(b, line)
    last, loaded = uncapped(b, line)
    if not loaded:
        raise Refusal(NOTHING_UNCAPPED, field="line", line=name_of(b.state, line))
    clings = clings_to(b, line, last, loaded)
    weights = list(loaded.values())
    parts = largest_remainder(facts.net_g, weights if any(weights) else [1] * len(weights))
    rows = [*zip(loaded, parts, strict=True), *((lot, 0) for lot in clings)]
    wax = b.make_lot("W", facts.net_g, rows, attributes={"line": key_of(line)})
    owned_by_run(b, wax, b.act.run)
    seen = min(facts.net_g, b.grams_at(line))
    if seen > 0:
        b.post(settle(b, line), line, -seen)
    barrel = place(BARREL, wax.code)
    b.comes(barrel, wax.id)
    b.post(wax.id, barrel, facts.net_g)
    b.post(wax.id, DIFFERENCE, seen - facts.net_g)
    b.draws(line, wax.id)
    b.touches(line)
    b.mark(line, "barrel", wax.id)


def book_wash(facts: Wash, b: Booking) -> None:
    """Cut the chain at each vessel washed, unless something later is written about it."""
    if not facts.vessels:
        raise Refusal(NO_VESSELS, field="vessels")
    if facts.remains and facts.remains not in REMAINS:
        raise Refusal(UNKNOWN_REMAINS, field="remains", remains=facts.remains)
    vessels = list(dict.fromkeys(find_vessel(b.state, one, "vessels") for one in facts.vessels))
    on_time = [vessel for vessel in vessels if not _note_late_wash(b, vessel)]
    for vessel in on_time:
        for tank in feeds(b.state, vessel):
            if tank not in vessels:
                feed(b, tank)
    catch_rinse(b, on_time, facts.rinse_into, facts.rinse_g)
    for vessel in on_time:
        _wash(b, vessel, facts.remains)


def _note_late_wash(b: Booking, vessel: str) -> bool:
    late = is_late(b, [vessel])
    b.mark(vessel, "washed", {"cuts": int(not late)})
    if late:
        b.note(LATE_WASH, vessel=name_of(b.state, vessel))
    return late


def _wash(b: Booking, vessel: str, remains: str) -> None:
    rows = b.standing(vessel)
    if seen := sum(row.grams for row in rows):
        if not remains:
            raise Refusal(
                WHAT_REMAINS,
                field="remains",
                grams=format_mass(seen),
                vessel=name_of(b.state, vessel),
            )
        for row in rows:
            b.move(row.lot.id, vessel, REMAINS[remains], row.grams)
    b.washes(vessel)
    _keep_within_margin(b, vessel)
    b.touches(vessel)


def _keep_within_margin(b: Booking, vessel: str) -> None:
    """What was scanned in shortly before a wash may have gone in after it: it stays in reach.

    So does what stood in a line washed shortly before: it may have run over after this wash.
    """
    if not b.margin_ms:
        return
    lines = fed_by(b.state, vessel)
    since_ms = b.at_ms - b.margin_ms + 1
    arrivals = (event for p in (vessel, *lines) for event in b.state.arrivals(p, since_ms))
    stays = (stay for line in lines for stay in b.state.stays(line, since_ms) if stay.by_wash)
    lots = {event.lot for event in arrivals} | {stay.lot for stay in stays}
    for lot in sorted(lots):
        b.comes(vessel, lot)
    if lots:
        b.note(
            KEPT_BY_MARGIN,
            codes=few([b.lot(lot).code for lot in sorted(lots)]),
            vessel=name_of(b.state, vessel),
            minutes=b.margin_ms // 60_000,
        )


def book_close_run(facts: CloseRun, b: Booking) -> None:
    """Settle the heels against weighing difference and freeze the balance as signed."""
    if facts.run:
        b.act = replace(b.act, run=str(read_code(b.state, facts.run, "run")))
    if not b.act.run:
        raise Refusal(NO_RUN, field="run")
    check_run_open(b)
    check_signer(b)
    vessels = [find_vessel(b.state, heel.vessel, "heel") for heel in facts.heels]
    check_once(vessels, "heel", lambda one: name_of(b.state, one))
    balance = balance_of(b.state, b.act.run)
    spread_g = usual_gap_g(balance.in_g, cappings=bool(balance.barrels))
    for vessel, heel in zip(vessels, facts.heels, strict=True):
        if heel.how not in HEEL_BY:
            raise Refusal(UNKNOWN_WAY, field="how", how=heel.how)
        _settle_heel(b, vessel, heel.grams, spread_g)
    note_left_out(b, entries_in(b.state, b.act.run))
    signed = replace(
        balance,
        heel_out_g=sum(heel.grams for heel in facts.heels),
        heel_known=bool(facts.heels),
        cappings_pending=facts.cappings_pending,
    )
    b.mark(place("run", b.act.run), "closed", {"balance": signed.figures(), "by": b.act.operator})


def _settle_heel(b: Booking, vessel: str, grams: int, spread_g: int) -> None:
    """The dip is right: what the books see there becomes what was read."""
    if grams < 0:
        shown = format_mass(grams)
        vessel_name = name_of(b.state, vessel)
        raise Refusal(HEEL_BELOW_ZERO, field="heel", grams=shown, vessel=vessel_name)
    feed(b, vessel)
    rows = b.standing(vessel)
    held = sum(row.grams for row in rows)
    if grams == held:
        return
    note_heel(b, vessel, held, grams, spread_g)
    if not rows:
        unknown_honey(b, vessel, grams, 0)
    elif held == 0:
        # The books saw it run empty: what is left is of the last fill, whatever else clings.
        b.differ(rows[-1].lot.id, vessel, grams)
    else:
        b.differ(settle(b, vessel), vessel, grams - held)
    b.touches(vessel)
