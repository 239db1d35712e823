"""Drums, totes and vessels: filling, bunging, weighing again, skimming, and honey bought in."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.codes import JarCode, parse_code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.holds import ask_held
from honeyledger.ledger.lookup import find_lot, find_record, find_vessel
from honeyledger.ledger.mixing import Taken, draw, put, settle
from honeyledger.ledger.places import (
    DIFFERENCE,
    DISCARDED,
    DRUM,
    JARS,
    SUPPLIER,
    key_of,
    place,
)
from honeyledger.ledger.sources import (
    NOT_IN_HOUSE,
    NOTHING_THERE,
    TO_FOLLOW,
    Weight,
    find_drum,
    find_source,
    net_of,
    number_in,
)
from honeyledger.ledger.state import Holding
from honeyledger.ledger.verbs.dispatch import part_of
from honeyledger.ledger.verbs.floor import check_run_open

USUAL_G = 290_000  # a 55 US gallon drum, common practice, no source

NO_WEIGHT = Sentence(
    "no-weight", "Type the gross or net weight, or say that the weight is to follow."
)
DRUM_FULL = Sentence(
    "drum-full",
    "{container} is already full: it holds {code} with {grams}, and its limit is {limit}. Take "
    "another container.",
)
TOP_UP_ASKS = Sentence(
    "top-up-asks",
    "{container} holds {code} with {grams}. Filling it on makes a new lot and {code}'s label "
    "void: say that you top it up, or take another container.",
)
WASHED_ASKS = Sentence(
    "washed-asks",
    "{container} held {code} before. Say whether it was washed since; if not, {code} stays in "
    "reach.",
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
    "{grams} is unusual for this container (usual {usual}): check pounds against kilograms, and "
    "gross against tare.",
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


@dataclass(frozen=True, slots=True)
class Bung:
    """A part-filled drum is closed: what stands in it becomes its lot."""

    kind: ClassVar[str] = "bung"
    container: str


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


@dataclass(frozen=True, slots=True)
class Purchase:
    """A drum of bought-in honey: a source lot of its own, with the supplier's lot and country."""

    kind: ClassVar[str] = "purchase"
    supplier: str
    weight: Weight
    supplier_lot: str = ""
    country: str = ""
    container: str = ""
    owner: str = ""


def book_fill(facts: Fill, b: Booking) -> None:
    """Weighed grams leave the source's fill and stand in the drum or vessel."""
    check_run_open(b)
    if jar_lot := _jar_lot(facts.source, b):
        _scrape_back(facts, jar_lot, b)
        return
    source = find_source(b, facts.source)
    ask_held(b, [row.lot.id for row in b.standing(source)], facts.despite_hold, "source")
    if facts.into:
        _into_vessel(facts, source, b)
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


def _into_vessel(facts: Fill, source: str, b: Booking) -> None:
    vessel = find_vessel(b.state, facts.into, "into")
    if vessel == source:
        raise Refusal(SAME_VESSEL, field="into", vessel=facts.into)
    net = net_of(facts.weight, None)
    taken = take(b, source, net, facts.whole)
    for lot, grams in taken:
        b.move(lot, source, vessel, grams)
    put(b, vessel, taken)


def take(b: Booking, source: str, net_g: int | None, whole: bool) -> list[Taken]:
    """Draw grams from a vessel or drum; whole empties it, and what clings is difference."""
    held = b.grams_at(source)
    grams = net_g if net_g is not None else (held if whole else None)
    if grams is None:
        raise Refusal(NO_WEIGHT, field="net_g")
    if grams == 0:
        raise Refusal(NOTHING_THERE, field="source", place=key_of(source))
    taken = draw(b, source, grams)
    if whole and (clings := b.grams_at(source) - grams) > 0:
        b.differ(taken[0].lot, source, -clings)
    return taken


def _into_drum(facts: Fill, source: str, b: Booking) -> None:
    record: Mapping[str, Json] = {}
    code = b.new_code("D") if facts.bung else ""
    drum = place(DRUM, code)
    if facts.container:
        drum, record = find_record(b.state, DRUM, facts.container, "container")
    elif not facts.bung:
        raise Refusal(NO_CONTAINER, field="container")
    usual = number_in(record, "usual_g", USUAL_G)
    net = net_of(facts.weight, number_in(record, "tare_g", 0))
    pending = net is None and not facts.whole
    if pending and not facts.pending:
        raise Refusal(NO_WEIGHT, field="gross_g")
    old = _ready_to_fill(facts, drum, record, net or 0, b)
    taken = take(b, source, usual if pending else net, facts.whole)
    for part, part_g in taken:
        b.comes(drum, part)
        b.move(part, source, drum, part_g)
    b.touches(drum)
    grams = taken[0].grams
    if not usual // 2 <= grams + (old.made_g if old else 0) <= usual * 3 // 2:
        b.note(UNUSUAL_NET, grams=format_mass(grams), usual=format_mass(usual))
    if facts.bung:
        lot = close_drum(b, drum, code, facts.weight, pending=pending)
        if old is not None:
            b.note(LABEL_VOID, code=old.code, new=lot.code)
            b.mark(old.code, "label", "void")


def _ready_to_fill(
    facts: Fill, drum: str, record: Mapping[str, Json], net_g: int, b: Booking
) -> Lot | None:
    """Check what the container holds or held; returns the bunged lot that is topped up."""
    rows = b.standing(drum)
    name = str(record.get("name", "") or record.get("number", "") or key_of(drum))
    held = sum(row.grams for row in rows)
    if held:
        limit = number_in(record, "limit_g", number_in(record, "usual_g", USUAL_G) * 11 // 10)
        full = next((row.lot for row in rows if row.lot.kind in "DP"), None)
        shown = full.code if full else "honey"
        if held + net_g > limit or held >= limit:
            raise Refusal(
                DRUM_FULL,
                field="container",
                container=name,
                code=shown,
                grams=format_mass(held),
                limit=format_mass(limit),
            )
        if full is not None and not facts.top_up:
            grams = format_mass(held)
            raise Refusal(TOP_UP_ASKS, field="top_up", container=name, code=shown, grams=grams)
        return full
    if rows:
        last = rows[-1].lot.code
        if facts.washed is None:
            raise Refusal(WASHED_ASKS, field="washed", container=name, code=last)
        if facts.washed:
            for row in rows:
                b.leaves(drum, row.lot.id, washed=True)
    return None


def close_drum(b: Booking, drum: str, code: str, weight: Weight, *, pending: bool) -> Lot:
    """What stands in a drum becomes its lot D, with everything at 0 g in its reach."""
    rows = b.standing(drum)
    total = sum(row.grams for row in rows)
    lot = b.make_lot(
        "D",
        total,
        [(row.lot.id, row.grams) for row in rows],
        code=code,
        attributes={
            "container": key_of(drum) if key_of(drum) != code else "",
            "gross_g": weight.gross_g,
            "tare_g": weight.tare_g,
            "run": b.act.run,
        },
    )
    for row in rows:
        b.post(row.lot.id, drum, -row.grams)
        b.leaves(drum, row.lot.id)
    b.post(lot.id, drum, total)
    b.comes(drum, lot.id)
    if pending:
        b.mark(lot.code, "pending", 1)
    return lot


def book_bung(facts: Bung, b: Booking) -> None:
    """Close a part-filled drum."""
    check_run_open(b)
    drum, _ = find_record(b.state, DRUM, facts.container, "container")
    rows = b.standing(drum)
    if not any(row.grams for row in rows):
        raise Refusal(NOTHING_THERE, field="container", place=facts.container)
    if len(rows) == 1 and rows[0].lot.kind == "D":
        raise Refusal(
            ALREADY_BUNGED, field="container", container=facts.container, code=rows[0].lot.code
        )
    close_drum(b, drum, b.new_code("D"), Weight(), pending=False)
    b.touches(drum)


def book_reweigh(facts: Reweigh, b: Booking) -> None:
    """The scale is right; the first weight of a drum that was to follow is its weight."""
    lot, drum = find_drum(b, facts.drum)
    tare = lot.attributes.get("tare_g")
    mark = b.state.mark(drum, "record")
    record = mark.value if mark and isinstance(mark.value, Mapping) else {}
    if not isinstance(tare, int):
        tare = number_in(record, "tare_g", 0)
    net = net_of(facts.weight, tare)
    if net is None:
        raise Refusal(NO_WEIGHT, field="gross_g")
    b.differ(lot.id, drum, net - b.grams_at(drum))
    b.touches(drum)
    pending = b.state.mark(lot.code, "pending")
    if pending and pending.value:
        b.mark(lot.code, "pending", 0)
        b.mark(lot.code, "weighed_g", net)


def book_skim(facts: Skim, b: Booking) -> None:
    """Foam is honey and air: what is taken off leaves the fill as discarded."""
    check_run_open(b)
    source = find_source(b, facts.source)
    held = b.grams_at(source)
    if facts.net_g <= 0 or held <= 0:
        raise Refusal(NOTHING_THERE, field="source", place=facts.source)
    fill = settle(b, source)
    seen = min(held, facts.net_g)
    b.move(fill, source, DISCARDED, seen)
    b.move(fill, DIFFERENCE, DISCARDED, facts.net_g - seen)
    b.touches(source)


def book_purchase(facts: Purchase, b: Booking) -> None:
    """Honey bought in is its own source, never a yard; it is known by the supplier's lot."""
    supplier, _ = find_record(b.state, SUPPLIER, facts.supplier)
    code = b.new_code("P")
    drum, record = place(DRUM, code), {}
    if facts.container:
        drum, found = find_record(b.state, DRUM, facts.container, "container")
        record = dict(found)
        if any(row.grams for row in b.standing(drum)):
            _ready_to_fill(Fill(source=""), drum, record, 0, b)
    net = net_of(facts.weight, number_in(record, "tare_g", 0))
    if net is None:
        raise Refusal(NO_WEIGHT, field="net_g")
    lot = b.make_lot(
        "P",
        net,
        code=code,
        attributes={
            "supplier": key_of(supplier),
            "supplier_lot": facts.supplier_lot,
            "country": facts.country,
            "owner": facts.owner,
            "container": facts.container,
        },
    )
    b.comes(drum, lot.id)
    b.move(lot.id, supplier, drum, net)
    b.touches(drum)
