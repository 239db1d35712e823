"""The dock: supers arrive from yards on pallets, pallets are split, joined and counted again."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import ClassVar

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.domain.units import format_mass, largest_remainder
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.entry import Json, Lot
from honeyledger.ledger.lookup import find_lot, find_pallet, find_record, read_iso_day
from honeyledger.ledger.mixing import Taken, put
from honeyledger.ledger.places import PALLET, YARD, key_of, place
from honeyledger.ledger.plausible import note_count, note_receipt
from honeyledger.ledger.sources import check_one, check_tare, home_of, number_of
from honeyledger.ledger.state import Standing
from honeyledger.ledger.title import whose
from honeyledger.ledger.wetness import note_wet
from honeyledger.ledger.yard_log import note_arrival, read_yards

NO_LINES = Sentence("no-lines", "Name the yard and the number of supers first.")
NO_SUPERS = Sentence("no-supers", "Count the supers of {yard}: a pull has at least one.")
PULLED_LATER = Sentence(
    "pulled-later",
    "{yard} cannot have been pulled on {pulled}, after it came in on {day}. Correct one of the "
    "two days.",
)
NO_USUAL_HONEY = Sentence(
    "no-usual-honey",
    "Nobody has said what a super of type {box} usually holds. Weigh the pallet, or put the "
    "usual honey into the box's record.",
)
GROSS_BELOW_TARE = Sentence(
    "gross-below-tare",
    "Gross {gross} is not above the tare of {tare} (pallet, lid and {count} empty supers). Weigh "
    "again, or check the box type.",
)
CONDITIONS = ("sealed", "mixed", "green")
UNKNOWN_CONDITION = Sentence(
    "unknown-condition", "{condition} is no condition: say sealed, mixed or green."
)
MOISTURE_RANGE = Sentence(
    "moisture-out-of-range",
    "{moisture} % is not a honey's moisture: refractometers read 13 to 25 %. Read it again.",
)
PALLET_EMPTY = Sentence(
    "pallet-empty", "Nothing stands on {pallet} any more{since}. Scan the tag of the next pallet."
)
NOT_SO_MANY = Sentence(
    "not-so-many", "{pallet} holds {there}, not {asked}. Count them, or correct the count."
)
ALREADY_TAKEN = Sentence(
    "tag-taken", "{pallet} is already the tag of a pallet here. Take the next tag."
)
NOT_ON_PALLET = Sentence(
    "not-on-pallet", "Nothing of {pull} is on {pallet}. Look at the tag again: it has {there}."
)
NO_COUNT = Sentence(
    "no-count",
    "Count at least one super on {pallet}. If the rest was loaded or thrown away, record that.",
)
COUNT_DIFFERS = Sentence(
    "count-differs",
    "{yard}: {count} supers came, the pull sheet says {sheet}. {off}: count again, or ask the "
    "crew.",
)
GREEN = Sentence("green", "Green honey: read its moisture, and dry it first.")
EMPTIED_BY = {
    "load": "loaded",
    "join": "joined to another",
    "split": "split",
    "discard": "thrown away",
    "amend": "booked as the source of unknown honey",
    "set aside": "set aside",
    "cut": "cut",
}
SAME_PALLET = Sentence("same-pallet", "{pallet} cannot be joined to itself. Scan the other tag.")
GUESSED = "pro rata"  # a mark on a pallet tag whose supers were taken without naming the yard
LOADED = "loaded/"  # a mark on a pallet tag, for each vessel it was loaded into
CUT = "cut/"  # a mark on a pallet tag, for each lot its supers were cut into
PALLET_TARE_G = 15_000  # common practice, no source


@dataclass(frozen=True, slots=True)
class Line:
    """Supers of one yard on a pallet: one line becomes one pull.

    Args:
        pulled: the local day of the pull, ISO ("2026-07-24").
        sheet: what the pull sheet says, to compare the count with.
    """

    yard: str
    count: int
    box: str = "medium"
    pulled: str = ""
    crew: str = ""
    sheet: int | None = None
    owner: str = ""


@dataclass(frozen=True, slots=True)
class Receive:
    """A pallet of supers comes in.

    Args:
        gross_g: pallet, lid, supers and honey on the scale; estimated by count where missing.
        tare_g: pallet and lid.
        moisture: hundredths of a percent.
        pallet: a tag printed before, else the next one is given.
    """

    kind: ClassVar[str] = "receive"
    lines: tuple[Line, ...]
    gross_g: int | None = None
    tare_g: int = PALLET_TARE_G
    condition: str = "sealed"
    moisture: int | None = None
    pallet: str = ""


@dataclass(frozen=True, slots=True)
class Split:
    """Some supers of a pallet go onto a new one, of one yard's pull or of all in proportion."""

    kind: ClassVar[str] = "split"
    pallet: str
    count: int
    pull: str = ""


@dataclass(frozen=True, slots=True)
class Join:
    """Everything on one pallet is put onto another."""

    kind: ClassVar[str] = "join"
    pallet: str
    onto: str


@dataclass(frozen=True, slots=True)
class Count:
    """The supers of a pull on a pallet, counted again; the estimate follows the count."""

    kind: ClassVar[str] = "count"
    pallet: str
    count: int
    pull: str = ""


def book_receive(facts: Receive, b: Booking) -> None:
    """One pull a line, from its yard onto the pallet, at estimated grams."""
    if not facts.lines:
        raise Refusal(NO_LINES, field="yard")
    if facts.condition not in CONDITIONS:
        raise Refusal(UNKNOWN_CONDITION, field="condition", condition=facts.condition)
    if facts.moisture is not None and not 1300 <= facts.moisture <= 2500:
        shown = f"{facts.moisture / 100:.{2 if facts.moisture % 10 else 1}f}"
        raise Refusal(MOISTURE_RANGE, field="moisture", moisture=shown)
    read_yards(b.state, [line.yard for line in facts.lines])
    lines = [_read_line(line, b) for line in facts.lines]
    check_tare(facts.tare_g)
    grams = _estimate(facts, lines, b)
    tag = place(PALLET, _tag(facts, b))
    for (line, yard, name, _), made_g in zip(lines, grams, strict=True):
        pull = b.make_lot("S", made_g, attributes=_pull_attributes(facts, line, yard, b))
        b.comes(tag, pull.id)
        b.move(pull.id, yard, tag, made_g)
        b.pieces(pull.id, tag, line.count)
        note_arrival(b, yard, pull.code, str(pull.attributes["pulled"]))
        if facts.moisture is not None:
            b.mark(pull.code, "moisture", facts.moisture)
        if line.sheet is not None and line.sheet != line.count:
            word = "missing" if line.sheet > line.count else "too many"
            off = f"{abs(line.sheet - line.count)} {word}"
            b.note(COUNT_DIFFERS, yard=name, count=line.count, sheet=line.sheet, off=off)
    b.mark(tag, "condition", facts.condition)
    b.touches(tag)
    if facts.moisture is not None:
        note_wet(b, facts.moisture)
    elif facts.condition == "green":
        b.note(GREEN)


def _read_line(line: Line, b: Booking) -> tuple[Line, str, str, dict[str, Json]]:
    yard, record = find_record(b.state, YARD, line.yard, "yard")
    name = str(record.get("name", ""))
    if line.count < 1:
        raise Refusal(NO_SUPERS, field="count", yard=name)
    pulled = read_iso_day(line.pulled, "pulled")
    if pulled > day_text(b):
        raise Refusal(PULLED_LATER, field="pulled", yard=name, pulled=pulled, day=day_text(b))
    box = dict(find_record(b.state, "box", line.box, "box")[1])
    owner = whose(b, line.owner, name, record)
    return line if owner == line.owner else replace(line, owner=owner), yard, name, box


def _number(record: dict[str, Json], name: str) -> int:
    value = record.get(name, 0)
    return value if isinstance(value, int) else 0


def _estimate(
    facts: Receive, lines: list[tuple[Line, str, str, dict[str, Json]]], b: Booking
) -> list[int]:
    """Grams of honey a line: gross less tares shared by usual honey, else the usual honey."""
    each = [_number(box, "honey_g") for _, _, _, box in lines]
    if facts.gross_g is None:
        for line, honey_g in zip(facts.lines, each, strict=True):
            if not honey_g:
                raise Refusal(NO_USUAL_HONEY, field="gross_g", box=line.box)
        return [line.count * honey_g for line, honey_g in zip(facts.lines, each, strict=True)]
    count = sum(line.count for line in facts.lines)
    tare = facts.tare_g + sum(line.count * _number(box, "tare_g") for line, _, _, box in lines)
    usual = each if all(each) else [1] * len(each)
    weights = [line.count * honey_g for line, honey_g in zip(facts.lines, usual, strict=True)]
    grams = largest_remainder(max(0, facts.gross_g - tare), weights)
    if not all(grams):
        raise Refusal(
            GROSS_BELOW_TARE,
            field="gross_g",
            gross=format_mass(facts.gross_g),
            tare=format_mass(tare),
            count=count,
        )
    note_receipt(b, facts.gross_g, tare, count, sum(weights) if all(each) else 0)
    return grams


def _tag(facts: Receive, b: Booking) -> str:
    if not facts.pallet:
        return b.new_code("G")
    tag = find_pallet(b.state, facts.pallet)
    if b.standing(tag):
        raise Refusal(ALREADY_TAKEN, field="pallet", pallet=key_of(tag))
    return key_of(tag)


def _pull_attributes(facts: Receive, line: Line, yard: str, b: Booking) -> dict[str, Json]:
    return {
        "yard": key_of(yard),
        "pulled": read_iso_day(line.pulled, "pulled") or day_text(b),
        "crew": line.crew,
        "box": line.box,
        "count": line.count,
        "owner": line.owner,
        "basis": "counted" if facts.gross_g is None else "weighed",
    }


def day_text(b: Booking) -> str:
    """The house's local day of the entry, ISO."""
    return b.day.isoformat()


def pallet_rows(b: Booking, text: str, field: str = "pallet") -> tuple[str, list[Standing]]:
    """A pallet's place and the pulls on it; an empty one is refused with when it was emptied."""
    tag = find_pallet(b.state, text, field)
    rows = b.standing(tag)
    if not rows:
        since = _emptied(b, tag)
        raise Refusal(PALLET_EMPTY, field=field, pallet=key_of(tag), since=since)
    return tag, rows


def _emptied(b: Booking, tag: str) -> str:
    touch = b.state.last_touch(tag)
    entry = b.state.entry(touch.entry) if touch else None
    if entry is None or entry.kind == "receive":
        return ""
    past = EMPTIED_BY.get(entry.kind, "")
    return f": it was {past} with entry {entry.id}" if past else ""


def _row_of(b: Booking, tag: str, rows: list[Standing], pull: str) -> Standing:
    """A pull's row on its pallet."""
    lot = find_lot(b.state, pull, "S", "pull")
    for row in rows:
        if row.lot.id == lot.id:
            return row
    there = ", ".join(row.lot.code for row in rows)
    raise Refusal(NOT_ON_PALLET, field="pull", pull=lot.code, pallet=key_of(tag), there=there)


def take_supers(
    b: Booking, tag: str, rows: list[Standing], count: int | None, pull: str = ""
) -> list[tuple[Lot, int, int]]:
    """Take supers off a pallet: (pull, grams, pieces) of each.

    Unless a pull is named, a part is taken pro rata over all pulls on the tag; the last part
    takes the rest, so that nothing is left by rounding.
    """
    if pull:
        rows = [_row_of(b, tag, rows, pull)]
    there = sum(row.pieces for row in rows)
    if count is None or (count == there and there):
        return [(row.lot, row.grams, row.pieces) for row in rows]
    check_one(count, key_of(tag), "count")
    if count > there:
        shown = number_of(there, "supers")
        raise Refusal(NOT_SO_MANY, field="count", pallet=key_of(tag), there=shown, asked=count)
    if len(rows) > 1:
        b.mark(tag, GUESSED, 1)
    pieces = largest_remainder(count, [row.pieces for row in rows])
    total = sum(row.grams for row in rows)
    grams = largest_remainder(total * count // there, [row.grams for row in rows])
    parts = zip(rows, grams, pieces, strict=True)
    return [(row.lot, min(g, row.grams), min(n, row.pieces)) for row, g, n in parts]


def shift_supers(b: Booking, start: str, end: str, taken: list[tuple[Lot, int, int]]) -> None:
    """Move supers with their honey from one pallet to another place."""
    for lot, grams, pieces in taken:
        b.comes(end, lot.id)
        b.move(lot.id, start, end, grams)
        b.pieces(lot.id, start, -pieces)
        b.pieces(lot.id, end, pieces)
    if _is_guessed(b, start):
        b.mark(end, GUESSED, 1)
    leave_empty(b, start)


def leave_empty(b: Booking, tag: str) -> None:
    """Pulls with nothing left on a pallet no longer stand there.

    Once a part was taken pro rata, nobody knows whose supers are left: then a pull stands there,
    at 0 g, until the pallet is empty.
    """
    rows = b.standing(tag)
    b.touches(tag)
    if _is_guessed(b, tag) and any(row.grams or row.pieces for row in rows):
        return
    for row in rows:
        if not row.grams and not row.pieces:
            b.leaves(tag, row.lot.id)


def _is_guessed(b: Booking, tag: str) -> bool:
    return b.state.mark(tag, GUESSED) is not None or bool(b.marked_now(tag, GUESSED))


def book_split(facts: Split, b: Booking) -> None:
    """Part of a pallet goes onto a new tag."""
    tag, rows = pallet_rows(b, facts.pallet)
    taken = take_supers(b, tag, rows, facts.count, facts.pull)
    end = place(PALLET, b.new_code("G"))
    shift_supers(b, tag, end, taken)
    b.touches(end)


def book_join(facts: Join, b: Booking) -> None:
    """All of one pallet goes onto another.

    Noted after the other was loaded, its pulls may have gone in with it: there at 0 g.
    """
    tag, rows = pallet_rows(b, facts.pallet)
    end = find_pallet(b.state, facts.onto, "onto")
    if end == tag:
        raise Refusal(SAME_PALLET, field="onto", pallet=key_of(tag))
    taken = take_supers(b, tag, rows, None)
    shift_supers(b, tag, end, taken)
    b.touches(end)
    for mark in b.state.marks(end):
        if mark.name.startswith((LOADED, CUT)) and isinstance(mark.value, Sequence):
            first_ms, last_ms = (int(str(one)) for one in mark.value)
            if last_ms >= b.at_ms - b.margin_ms:
                _went_with_it(b, mark.name, [lot.id for lot, _, _ in taken], first_ms)


def _went_with_it(b: Booking, name: str, lots: Sequence[int], first_ms: int) -> None:
    """Lots that may have been on a pallet when it was loaded, or cut: there at 0 g."""
    if name.startswith(LOADED):
        put(b, name.removeprefix(LOADED), [Taken(lot, 0) for lot in lots], first_ms)
        return
    for lot in lots:
        b.late_origin(int(name.removeprefix(CUT)), lot)


def book_count(facts: Count, b: Booking) -> None:
    """Correct the count of supers; honey follows in proportion, from or back to the yard."""
    tag, rows = pallet_rows(b, facts.pallet)
    if facts.pull:
        rows = [_row_of(b, tag, rows, facts.pull)]
    if facts.count < 1:
        raise Refusal(NO_COUNT, field="count", pallet=key_of(tag))
    there = [row.pieces for row in rows]
    note_count(b, tag, sum(there), facts.count)
    pieces = largest_remainder(facts.count, there if any(there) else [1] * len(rows))
    for row, count in zip(rows, pieces, strict=True):
        grams = row.grams * count // row.pieces if row.pieces else row.grams
        b.move(row.lot.id, home_of(b.state, row.lot), tag, grams - row.grams)
        b.pieces(row.lot.id, tag, count - row.pieces)
    b.touches(tag)


def as_taken(taken: list[tuple[Lot, int, int]]) -> list[Taken]:
    """Supers taken off a pallet, as honey that goes into a vessel."""
    return [Taken(lot.id, grams) for lot, grams, _ in taken]
