"""Blending: weighed parts go into a vessel in one entry, planned against weighed.

A blend is draws and fills: what it was made of becomes one tank fill when something is drawn from
the vessel, with each part as an origin. It is undone by reversing it; a wrong part is amended.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, format_moisture
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.composite import latest
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.in_run import of_run
from honeyledger.ledger.lookup import code_in, find_lot, find_vessel
from honeyledger.ledger.mixing import Taken, contents, name_of, put, within
from honeyledger.ledger.once import check_once
from honeyledger.ledger.others import note_others
from honeyledger.ledger.places import STORE
from honeyledger.ledger.pouring import HOW_MUCH, take
from honeyledger.ledger.sources import (
    NOT_IN_HOUSE,
    TO_FOLLOW,
    Weight,
    find_source,
    home_of,
    net_of,
    told_apart,
)
from honeyledger.ledger.state import State
from honeyledger.ledger.verbs.dispatch import NOT_SO_MUCH
from honeyledger.ledger.verbs.drums import SAME_VESSEL
from honeyledger.ledger.wetness import dry_first_over

PURPOSES = ("blend", "cream", "standardise")
BLENDED = "blend/"  # a mark on a vessel, for each blend made in it
PART_OF = "blended"  # a mark on a lot's code, with what was planned of it
SEEDED = "seed"  # a mark on a lot's code that seeded a creamed batch

NO_PARTS = Sentence("no-parts", "Name the parts of the blend: what goes in, and how much of each.")
UNKNOWN_PURPOSE = Sentence(
    "unknown-purpose", "{purpose} is no purpose of a blend: say blend, cream or standardise."
)
NOT_TO_BLEND = Sentence(
    "not-to-blend", "{code} is packaging, and nothing to eat. Name honey or an ingredient."
)
OFF_PLAN = Sentence(
    "off-plan", "Of {code} {weighed} went in, and {planned} was planned: look at the shares again."
)
TOO_WET = Sentence(
    "blend-too-wet",
    "By the readings of its parts the blend is at {moisture}: put it on hold until it is read "
    "again, wet honey ferments.",
)
OLD_SEED = Sentence(
    "old-seed",
    "{code} goes back over {batches} earlier batches: {home} of {season} is in each of them, and "
    "in this one. Begin with fresh seed to let it go.",
)
OFF_PERMILLE = 20  # common practice, no source


@dataclass(frozen=True, slots=True)
class Portion:
    """A part of a blend: a drum, a vessel or an ingredient, so much of it.

    Args:
        planned_g: what was planned; None where nothing was.
        whole: all of it, however much it weighs.
        seed: it seeds a creamed batch.
    """

    source: str
    weight: Weight = TO_FOLLOW
    planned_g: int | None = None
    whole: bool = False
    seed: bool = False


@dataclass(frozen=True, slots=True)
class Blend:
    """Parts go into a vessel, on top of what stands there."""

    kind: ClassVar[str] = "blend"
    into: str
    parts: tuple[Portion, ...]
    purpose: str = "blend"
    note: str = ""
    despite_hold: str = ""


class _Poured(NamedTuple):
    """A part as it went in: its lot, its grams, and what was said of it."""

    lot: Lot
    grams: int
    said: Portion


def book_blend(facts: Blend, b: Booking) -> None:
    """Draw each part, put it into the vessel, and keep what was planned beside it."""
    if facts.purpose not in PURPOSES:
        raise Refusal(UNKNOWN_PURPOSE, field="purpose", purpose=facts.purpose)
    if not facts.parts:
        raise Refusal(NO_PARTS, field="parts")
    vessel = find_vessel(b.state, facts.into, "into")
    of_run(b, vessel, asks=False)
    check_once(
        [_taken_from(part.source, b) for part in facts.parts],
        "parts",
        lambda one: name_of(b.state, one),
    )
    before = b.standing(vessel)
    poured = []
    for part in facts.parts:
        taken = _ingredient(part, vessel, b) or _honey(part, vessel, facts.despite_hold, b)
        put(b, vessel, taken)
        poured.append(_Poured(b.lot(taken[0].lot), taken[0].grams, part))
    rows = [
        {
            "lot": one.lot.id,
            "net_g": one.grams,
            "planned_g": one.said.planned_g,
            "seed": one.said.seed or None,
        }
        for one in poured
    ]
    sheet = {"purpose": facts.purpose, "parts": rows, "note": facts.note}
    b.mark(vessel, f"{BLENDED}{b.entry_id}", sheet)
    _mark_parts(facts.purpose, poured, b)
    _tell(poured, [(row.lot, row.grams) for row in before if row.grams], b)


def _taken_from(text: str, b: Booking) -> str:
    """What a part is taken from, however it was named: an ingredient's code, else its place."""
    code = code_in(b.state, text, "parts") if text.strip() else None
    if code is not None and code.letter == "A":
        return find_lot(b.state, text, "A", "parts").code
    return find_source(b, text, "parts")


def _ingredient(part: Portion, vessel: str, b: Booking) -> list[Taken]:
    """Grams of an added ingredient; nothing where the part is none."""
    code = code_in(b.state, part.source, "parts") if part.source.strip() else None
    if code is None or code.letter != "A":
        return []
    lot = find_lot(b.state, part.source, "A", "parts")
    if not lot.made_g:
        raise Refusal(NOT_TO_BLEND, field="parts", code=lot.code)
    there = next((row.grams for row in b.standing(STORE) if row.lot.id == lot.id), 0)
    if there <= 0:
        raise Refusal(NOT_IN_HOUSE, field="parts", code=lot.code)
    net = net_of(part.weight, None)
    grams = net if net is not None else (there if part.whole else None)
    if grams is None:
        raise Refusal(HOW_MUCH, field="net_g")
    if grams > there:
        shown = told_apart(there, grams)
        raise Refusal(
            NOT_SO_MUCH, field="net_g", code=lot.code, there=shown["there"], asked=shown["asked"]
        )
    b.move(lot.id, STORE, vessel, grams)
    if part.whole and net is not None:
        b.differ(lot.id, STORE, grams - there)
    if part.whole or grams == there:
        b.leaves(STORE, lot.id)
    return [Taken(lot.id, grams)]


def _honey(part: Portion, vessel: str, why: str, b: Booking) -> list[Taken]:
    """Weighed honey out of a drum or vessel, with what is in it at 0 g."""
    source = find_source(b, part.source, "parts")
    if source == vessel:
        raise Refusal(SAME_VESSEL, field="parts", vessel=part.source)
    ask_held(b, contents(b, source), why, "parts")
    taken = take(b, source, net_of(part.weight, None), part.whole)
    for lot, grams in taken:
        b.move(lot, source, vessel, grams)
    note_others(b, [lot for lot, grams in taken if grams])
    return taken


def _mark_parts(purpose: str, poured: Sequence[_Poured], b: Booking) -> None:
    """What a lot's card tells of it, once a lot."""
    for lot in {one.lot.id: one.lot for one in poured}.values():
        mine = [one for one in poured if one.lot.id == lot.id]
        planned = [one.said.planned_g for one in mine if one.said.planned_g is not None]
        value = {"purpose": purpose, "planned_g": sum(planned) if planned else None}
        b.mark(lot.code, PART_OF, value)
        if any(one.said.seed for one in mine):
            _note_seed(lot, b)
            b.mark(lot.code, SEEDED, 1)


def _note_seed(lot: Lot, b: Booking) -> None:
    """Seed that was itself seeded keeps its first yard in every batch."""
    lots = [one for one in within(b, [lot.id]) if one.id < b.state.next_lot]
    seeds = b.state.marked_on(SEEDED, [one.code for one in lots])
    earlier = [one for one in lots if one.code in seeds and one.id != lot.id]
    sources = [one for one in lots if one.kind in "SP"]
    if earlier and sources:
        oldest = min(sources, key=lambda one: (one.season, one.id))
        home = name_of(b.state, home_of(b.state, oldest))
        batches = len(earlier) + 1
        b.note(OLD_SEED, code=lot.code, batches=batches, home=home, season=oldest.season)


def _tell(poured: Sequence[_Poured], heel: Sequence[tuple[Lot, int]], b: Booking) -> None:
    """What went in otherwise than planned, and what the readings say of the whole."""
    for lot, grams, said in poured:
        planned = said.planned_g
        if planned is not None and abs(grams - planned) * 1_000 > planned * OFF_PERMILLE:
            shown = {"weighed": format_mass(grams), "planned": format_mass(planned)}
            b.note(OFF_PLAN, code=lot.code, **shown)
    parts = [*heel, *((one.lot, one.grams) for one in poured if one.lot.kind != "A")]
    moisture = mean_moisture(b.state, parts)
    if moisture is not None and moisture > dry_first_over(b.state):
        b.note(TOO_WET, moisture=format_moisture(moisture, 2))


def mean_moisture(state: State, parts: Sequence[tuple[Lot, int]]) -> int | None:
    """Moisture of lots together, by mass, hundredths of a percent; None where one is not read."""
    water, grams = 0, 0
    for lot, part_g in parts:
        read = latest(state, lot.code, "moisture")
        if read is None:
            return None
        water += part_g * read
        grams += part_g
    return (2 * water + grams) // (2 * grams) if grams else None
