"""Drums, totes and vessels: filling, bunging, weighing again, skimming."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from honeyledger.domain.codes import JarCode, parse_code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.containers import (
    closed_in,
    container_at,
    find_container,
    is_filled_again,
    make_ready,
    reach_others,
    stood_there,
)
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.in_run import check_run_open, is_closed, note_outside, of_run
from honeyledger.ledger.lookup import find_lot, find_vessel
from honeyledger.ledger.mixing import (
    Taken,
    contents,
    feed,
    keep_late,
    name_of,
    put,
    recall_late,
    settle,
)
from honeyledger.ledger.others import keep_owner, note_others
from honeyledger.ledger.owners import owned_by_run
from honeyledger.ledger.places import (
    DIFFERENCE,
    DISCARDED,
    DRUM,
    JARS,
    VESSEL,
    class_of,
    key_of,
    place,
)
from honeyledger.ledger.plausible import WEIGHED_BEFORE, note_foam, note_order, note_weight
from honeyledger.ledger.pouring import take
from honeyledger.ledger.seals import keep_seal
from honeyledger.ledger.sources import (
    NOT_IN_HOUSE,
    NOTHING_THERE,
    TO_FOLLOW,
    Weight,
    find_drum,
    find_source,
    net_of,
)
from honeyledger.ledger.state import Holding
from honeyledger.ledger.to_follow import Guess, guesses_of, keep_guesses, settle_guesses
from honeyledger.ledger.verbs.dispatch import part_of

PART_OF_RUN = "part of run/"  # a mark on an open drum, for each run that filled into it

NO_WEIGHT = Sentence(
    "no-weight", "Type the gross or net weight, or say that the weight is to follow."
)
WEIGH_IT = Sentence("weigh-it", "Type the gross or the net weight from the scale.")
ONE_OF_THEM = Sentence(
    "follows-or-not",
    "Either the weight is to follow, or it is typed, or all of it goes. Say one of them.",
)
LABEL_VOID = Sentence(
    "label-void", "The label of {code} is void: take it off. {new} is the lot now."
)
SAME_VESSEL = Sentence("same-vessel", "{vessel} cannot be filled from itself. Name another one.")
SCRAPED_INTO = Sentence(
    "scraped-into", "Say how many jars of {code} are scraped back, and into which vessel."
)
NO_CONTAINER = Sentence(
    "no-container", "A drum that waits for more needs a container's number. Scan the container."
)
ALREADY_BUNGED = Sentence(
    "already-bunged", "{container} is already closed as {code}. Scan the drum that waits."
)
UNUSUAL_NET = Sentence(
    "unusual-net",
    "{grams} in all is unusual for this container (usual {usual}): check pounds against "
    "kilograms, and gross against tare.",
)


@dataclass(frozen=True, slots=True)
class Fill:
    """Honey goes from a vessel, or a drum poured out, into a drum or another vessel.

    Args:
        source: a vessel, a drum by its code or its container's, or a jar lot scraped back.
        container: code or number of the drum or tote filled; a one-way drum has none.
        into: the vessel filled instead of a drum.
        jars: how many jars are scraped back.
        pending: the weight is to follow; the container's usual net stands in for it.
        whole: all that the books see in the source, however much it weighs.
        bung: the drum is closed; else it waits for more.
        seal: the number of the seal put on it as it was closed.
    """

    kind: ClassVar[str] = "fill"
    source: str
    weight: Weight = TO_FOLLOW
    container: str = ""
    into: str = ""
    jars: int | None = None
    pending: bool = False
    whole: bool = False
    bung: bool = True
    top_up: bool = False
    washed: bool | None = None
    despite_hold: str = ""
    seal: str = ""


@dataclass(frozen=True, slots=True)
class Bung:
    """A part-filled drum is closed, and sealed maybe: what stands in it becomes its lot."""

    kind: ClassVar[str] = "bung"
    container: str
    seal: str = ""


@dataclass(frozen=True, slots=True)
class Reweigh:
    """A drum on the scale again; the gap goes to weighing difference."""

    kind: ClassVar[str] = "reweigh"
    drum: str
    weight: Weight


@dataclass(frozen=True, slots=True)
class Skim:
    """Foam taken off a vessel or drum, weighed."""

    kind: ClassVar[str] = "skim"
    source: str
    net_g: int


def book_fill(facts: Fill, b: Booking) -> None:
    """Weighed grams leave the source's fill and stand in the drum or vessel."""
    if jar_lot := _jar_lot(facts.source, b):
        _scrape_back(facts, jar_lot, b)
        return
    if facts.pending and (facts.whole or facts.weight != TO_FOLLOW):
        raise Refusal(ONE_OF_THEM, field="pending")
    source = find_source(b, facts.source)
    into = find_vessel(b.state, facts.into, "into") if facts.into else ""
    of_run(b, source, into)
    ask_held(b, contents(b, source), facts.despite_hold, "source")
    if into:
        keep_seal(b, "", facts.seal)
        _into_vessel(facts, source, into, b)
    else:
        _into_drum(facts, source, b)


def _jar_lot(text: str, b: Booking) -> Lot | None:
    """The jar lot a code names, where it names one."""
    try:
        code = parse_code(text, b.rules.prefix)
    except Refusal:
        return None
    is_jar = isinstance(code, JarCode) or code.letter == "J"
    return find_lot(b.state, text, "J", "source") if is_jar else None


def _scrape_back(facts: Fill, lot: Lot, b: Booking) -> None:
    """Jars go into a vessel again: the jar lot itself, with all its fills behind it.

    What the jars held by the books and what came out by the scale differ by what clings.
    """
    if not facts.into or facts.jars is None:
        raise Refusal(SCRAPED_INTO, field="jars" if facts.into else "into", code=lot.code)
    vessel = find_vessel(b.state, facts.into, "into")
    of_run(b, vessel)
    row = next((row for row in b.standing(JARS) if row.lot.id == lot.id and row.grams), None)
    if row is None:
        raise Refusal(NOT_IN_HOUSE, field="source", code=lot.code)
    ask_held(b, [lot.id], facts.despite_hold, "source")
    here = Holding(JARS, lot.id, row.grams, row.pieces)
    booked, jars = part_of(lot, here, facts.jars, None)
    net = net_of(facts.weight, None) or booked
    b.differ(lot.id, JARS, net - booked)
    b.move(lot.id, JARS, vessel, net)
    b.pieces(lot.id, JARS, -jars)
    if jars == row.pieces:
        b.leaves(JARS, lot.id)
    put(b, vessel, [Taken(lot.id, net)])


def _into_vessel(facts: Fill, source: str, vessel: str, b: Booking) -> None:
    if vessel == source:
        raise Refusal(SAME_VESSEL, field="into", vessel=facts.into)
    net = net_of(facts.weight, None)
    taken = take(b, source, net, facts.whole)
    for lot, grams in taken:
        b.move(lot, source, vessel, grams)
    put(b, vessel, taken)
    note_others(b, [lot for lot, grams in taken if grams])


def _into_drum(facts: Fill, source: str, b: Booking) -> None:
    code = b.new_code("D") if facts.bung else ""
    keep_seal(b, code, facts.seal)
    if facts.container:
        drum = find_container(b, facts.container)
    elif facts.bung:
        drum = container_at(b, place(DRUM, code))
    else:
        raise Refusal(NO_CONTAINER, field="container")
    if drum.place == source:
        raise Refusal(SAME_VESSEL, field="container", vessel=drum.name)
    net = net_of(facts.weight, drum.tare_g)
    pending = net is None and not facts.whole
    if pending and not facts.pending:
        raise Refusal(NO_WEIGHT, field="gross_g")
    home = drum.place
    if facts.bung and not facts.top_up and is_filled_again(b, drum.place):
        home = place(DRUM, code)
    held = b.grams_at(home)
    if pending:
        # A full drum's usual weight is what is in it already and what comes.
        net = (drum.usual_g if held < drum.usual_g else drum.limit_g) - held
    feed(b, source)
    arriving = net if net is not None else b.grams_at(source)
    old = None
    guesses = guesses_of(b.state, home) if held else []
    if home == drum.place:
        if closed := closed_in(b, home):
            guesses += guesses_of(b.state, closed.code)
        old = make_ready(
            b,
            drum,
            arriving,
            # What was only guessed does not keep out what was weighed.
            guessed_g=0 if pending else sum(grams for _, grams in guesses),
            top_up=facts.top_up,
            washed=facts.washed,
        )
    before = [row.lot.id for row in b.standing(home) if row.grams]
    ask_held(b, before, facts.despite_hold, "container")
    taken = take(b, source, net, facts.whole)
    for part, part_g in taken:
        b.comes(home, part)
        b.move(part, source, home, part_g)
    if pending:
        guesses.append((b.entry_id, taken[0].grams))
    if facts.container:
        taken += stood_there(b, drum.place, home, [part for part, _ in taken])
    b.touches(drum.place)
    total = held + taken[0].grams
    if total > drum.usual_g * 3 // 2 or (facts.bung and total < drum.usual_g // 2):
        b.note(UNUSUAL_NET, grams=format_mass(total), usual=format_mass(drum.usual_g))
    if not facts.bung:
        keep_run(b, drum.place, fresh=not held)
        reach_others(b, drum.place, [part for part, _ in taken])
        keep_late(b, drum.place, taken)
        keep_guesses(b, drum.place, guesses)
        return
    lot = close_drum(b, home, drum.place, code, facts.weight, guesses)
    reach_others(b, drum.place, [lot.id])
    if home != drum.place and not closed_in(b, drum.place):
        b.comes(drum.place, lot.id)
    if old is not None:
        b.note(LABEL_VOID, code=old.code, new=lot.code)
        b.mark(old.code, "label", "void")
        keep_guesses(b, old.code, ())


def close_drum(
    b: Booking,
    home: str,
    drum: str,
    code: str,
    weight: Weight,
    guesses: Sequence[Guess] = (),
) -> Lot:
    """What stands in a drum becomes its lot D, with everything at 0 g in its reach.

    Args:
        home: the container, or a place of its own where the container holds another by now.
        guesses: those of its fills whose weight is to follow.
    """
    rows = b.standing(home)
    total = sum(row.grams for row in rows)
    recall_late(b, home)
    run = recall_run(b, home)
    lot = b.make_lot(
        "D",
        total,
        [(row.lot.id, row.grams) for row in rows],
        code=code,
        attributes={
            "container": key_of(drum) if key_of(drum) != code else "",
            "gross_g": weight.gross_g,
            "tare_g": weight.tare_g,
            "run": run,
        },
    )
    owned_by_run(b, lot, run)
    keep_owner(b, lot, [row.lot.id for row in rows if row.grams])
    for row in rows:
        b.post(row.lot.id, home, -row.grams)
        b.leaves(home, row.lot.id)
    b.post(lot.id, home, total)
    b.comes(home, lot.id)
    keep_guesses(b, home, ())
    keep_guesses(b, lot.code, guesses)
    return lot


def keep_run(b: Booking, drum: str, *, fresh: bool) -> None:
    """Write down whose run a part of an open drum is of; a drum that was empty forgets others."""
    for mark in b.state.marks(drum) if fresh else ():
        if mark.name.startswith(PART_OF_RUN) and mark.value:
            b.mark(drum, mark.name, 0)
    b.mark(drum, f"{PART_OF_RUN}{b.act.run}", 1)


def recall_run(b: Booking, drum: str) -> str:
    """The run a drum's lot is of: as said, else that of all its parts; "" where they differ."""
    marks = [mark for mark in b.state.marks(drum) if mark.name.startswith(PART_OF_RUN)]
    runs = [mark.name.removeprefix(PART_OF_RUN) for mark in marks if mark.value]
    for run in runs:
        b.mark(drum, f"{PART_OF_RUN}{run}", 0)
    return b.act.run or (runs[0] if len(runs) == 1 else "")


def book_bung(facts: Bung, b: Booking) -> None:
    """Close a part-filled drum; where no run is named it is of the run of its parts.

    The entry carries the run's code only while the run is open: what is signed has no more work.
    """
    check_run_open(b)
    drum = find_container(b, facts.container)
    rows = b.standing(drum.place)
    if not any(row.grams for row in rows):
        raise Refusal(NOTHING_THERE, field="container", place=drum.name)
    closed = closed_in(b, drum.place) if len(rows) == 1 else None
    if closed:
        raise Refusal(ALREADY_BUNGED, field="container", container=drum.name, code=closed.code)
    guesses = guesses_of(b.state, drum.place)
    lot = close_drum(b, drum.place, drum.place, b.new_code("D"), TO_FOLLOW, guesses)
    keep_seal(b, lot.code, facts.seal)
    if (run := str(lot.attributes.get("run", ""))) and not is_closed(b.state, run):
        b.act = replace(b.act, run=run)
    reach_others(b, drum.place, [lot.id])
    b.touches(drum.place)


def book_reweigh(facts: Reweigh, b: Booking) -> None:
    """The scale is right; the first weight of a drum that was to follow is its weight."""
    lot, drum = find_drum(b, facts.drum)
    tare = lot.attributes.get("tare_g")
    net = net_of(facts.weight, tare if isinstance(tare, int) else container_at(b, drum).tare_g)
    if net is None:
        raise Refusal(WEIGH_IT, field="gross_g")
    off_g = net - b.grams_at(drum)
    # A drum that waits for more has its guesses on the container.
    first = settle_guesses(b, lot.code if lot.kind in "DP" else drum, off_g)
    note_weight(b, lot, b.grams_at(drum), net, first=first)
    if b.at_ms < b.recorded_ms:
        note_order(b, lot, WEIGHED_BEFORE)
    b.differ(lot.id, drum, off_g)
    b.touches(drum)
    b.mark(lot.code, "weighed_g", net)


def book_skim(facts: Skim, b: Booking) -> None:
    """Foam is honey and air: what is taken off leaves the fill as discarded."""
    source = find_source(b, facts.source)
    of_run(b, source)
    if class_of(source) == VESSEL:
        note_outside(b, source)
    net_of(Weight(net_g=facts.net_g), None)
    feed(b, source)
    held = b.grams_at(source)
    if held <= 0:
        raise Refusal(NOTHING_THERE, field="source", place=name_of(b.state, source))
    note_foam(b, source, held, facts.net_g)
    fill = settle(b, source)
    seen = min(held, facts.net_g)
    b.move(fill, source, DISCARDED, seen)
    b.move(fill, DIFFERENCE, DISCARDED, facts.net_g - seen)
    b.touches(source)
