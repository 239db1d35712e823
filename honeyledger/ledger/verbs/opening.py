"""Drums nobody wrote down as they were filled: an opening stock, and drums that were found.

Their honey comes from where it is stated to be from, or from nobody knows where; each gets a lot
of its own and a code, so that it can be labelled, weighed, poured and sent like any other drum.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.moments import say_day
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.candidates import runs_near
from honeyledger.ledger.containers import Container, check_fits, container_at, find_container
from honeyledger.ledger.entry import Lot
from honeyledger.ledger.lookup import find_record, read_iso_day
from honeyledger.ledger.places import DRUM, UNKNOWN, YARD, key_of, place
from honeyledger.ledger.sources import Weight, net_of
from honeyledger.ledger.stated import Part, check_parts
from honeyledger.ledger.verbs.amending import FILLED_LATER
from honeyledger.ledger.verbs.bought_in import empty_container
from honeyledger.ledger.verbs.drums import WEIGH_IT, close_drum
from honeyledger.ledger.verbs.measuring import check_reading
from honeyledger.ledger.whereabouts import find_spot, stands_at

OLDEST_SEASONS = 10  # common practice, no source

NO_SUCH_SEASON = Sentence(
    "no-such-season",
    "The season {season} cannot be: type the year of the crop, {first} to {last}.",
)
ORIGIN_OPEN = Sentence(
    "origin-open",
    "Nobody has said where {code} is from: traces end there until {source} is amended to its "
    "yard.",
)
EQUAL_PARTS = Sentence(
    "equal-parts", "Nobody has said the shares of {code}'s yards: they count in equal parts."
)
KNOWN_DRUM = Sentence(
    "known-drum",
    "By the books {container} holds {code}: this is that drum. Scan it, and weigh it again where "
    "it weighs otherwise.",
)
FOUND = Sentence(
    "found-drum",
    "{code} stands for a drum of {net} that the books do not know, on hold.{candidates} Amend it "
    "to its run or its yard, and release it by name.",
)


@dataclass(frozen=True, slots=True)
class OpeningStock:
    """A drum that was full before the house began to keep this ledger.

    Args:
        season: the year of its crop.
        yards: where it is stated to be from, with shares where they are known; none where nobody
            can say.
        written: what stands on it, such as its number of last season.
        filled_on: the day it was filled, ISO, where that is known.
        moisture: hundredths of a percent; `colour` is tenths of a Pfund millimetre.
    """

    kind: ClassVar[str] = "opening stock"
    weight: Weight
    season: int
    yards: tuple[Part, ...] = ()
    container: str = ""
    written: str = ""
    filled_on: str = ""
    moisture: int | None = None
    colour: int | None = None


@dataclass(frozen=True, slots=True)
class FoundDrum:
    """A full drum without a label that the books know nothing of.

    Args:
        written: whatever stands on it.
        filled_on: the day it was filled, ISO, where it can be told.
        room, row: where it stands.
    """

    kind: ClassVar[str] = "found drum"
    weight: Weight
    container: str = ""
    written: str = ""
    filled_on: str = ""
    room: str = ""
    row: str = ""


def book_opening_stock(facts: OpeningStock, b: Booking) -> None:
    """One source lot a yard, or one from an unknown source, and the drum made of them."""
    first, last = b.day.year - OLDEST_SEASONS, b.day.year
    if not first <= facts.season <= last:
        raise Refusal(NO_SUCH_SEASON, field="season", season=facts.season, first=first, last=last)
    check_parts(facts.yards, "yards")
    yards = [find_record(b.state, YARD, part.name, "yards")[0] for part in facts.yards]
    filled_on = _day(facts.filled_on, b)
    b.season = facts.season
    code = b.new_code("D")
    drum = empty_container(b, facts.container, code)
    net = _net(facts.weight, drum)
    shares = [part.permille or 1 for part in facts.yards]
    grams = largest_remainder(net, shares) if yards else [net]
    for where, part_g in zip(yards or [UNKNOWN], grams, strict=True):
        source = _source(b, drum, where, part_g)
    lot = close_drum(b, drum.place, drum.place, code, facts.weight)
    b.touches(drum.place)
    _keep(b, lot, {"written": facts.written, "filled_on": filled_on})
    for name, value in (("moisture", facts.moisture), ("colour", facts.colour)):
        if value is not None:
            check_reading(name, value)
            b.mark(lot.code, name, value)
    if not yards:
        b.note(ORIGIN_OPEN, code=lot.code, source=source.code)
    elif len(yards) > 1 and facts.yards[0].permille is None:
        b.note(EQUAL_PARTS, code=lot.code)


def book_found_drum(facts: FoundDrum, b: Booking) -> None:
    """A lot of unknown source, on hold, with the runs it may be of; a drum made of it."""
    add_found(facts, find_spot(b.state, facts.room, facts.row), b)


def add_found(facts: FoundDrum, spot: dict[str, str], b: Booking) -> Lot:
    """The drum lot of a found drum; `spot` is where it stands, empty where nobody said."""
    filled_on = _day(facts.filled_on, b)
    code = b.new_code("D")
    drum = container_at(b, place(DRUM, code))
    if facts.container:
        drum = find_container(b, facts.container)
        if held := [row for row in b.standing(drum.place) if row.grams]:
            raise Refusal(
                KNOWN_DRUM, field="container", container=drum.name, code=held[-1].lot.code
            )
    net = _net(facts.weight, drum)
    check_fits(drum, net)
    runs = runs_near(b, net, filled_on)
    source = _source(b, drum, UNKNOWN, net, [one.run for one in runs])
    lot = close_drum(b, drum.place, drum.place, code, facts.weight)
    b.touches(drum.place)
    b.mark(
        f"hold/{b.entry_id}-{source.code}",
        "hold",
        {
            "target": source.code,
            "lots": [source.id],
            "reason": "found: source not known",
            "by": b.act.operator,
        },
    )
    _keep(b, lot, {"written": facts.written, "filled_on": filled_on})
    if spot:
        stands_at(b, lot.code, spot)
    likely = f" It may be of {', '.join(one.text for one in runs)}." if runs else ""
    b.note(FOUND, code=lot.code, net=format_mass(net), candidates=likely)
    return lot


def _day(text: str, b: Booking) -> str:
    day = read_iso_day(text, "filled_on")
    if day > b.day.isoformat():
        raise Refusal(FILLED_LATER, field="filled_on", day=say_day(day))
    return day


def _net(weight: Weight, drum: Container) -> int:
    net = net_of(weight, drum.tare_g)
    if net is None:
        raise Refusal(WEIGH_IT, field="net_g")
    return net


def _source(b: Booking, drum: Container, where: str, grams: int, runs: Sequence[str] = ()) -> Lot:
    """A source lot in the drum, from a yard or from nobody knows where.

    When its supers were pulled nobody said, so a hold on days of its season holds it.
    """
    known = where != UNKNOWN
    lot = b.make_lot(
        "S",
        grams,
        attributes={
            "yard": key_of(where) if known else "",
            "source": "" if known else UNKNOWN,
            "place": "" if known else drum.place,
            "candidates": runs,
            "basis": "stated",
        },
    )
    b.comes(drum.place, lot.id)
    b.move(lot.id, where, drum.place, grams)
    return lot


def _keep(b: Booking, lot: Lot, facts: dict[str, str]) -> None:
    for name, text in facts.items():
        if text.strip():
            b.mark(lot.code, name, text.strip())
