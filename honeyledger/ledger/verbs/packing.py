"""Packing jars into cases and cases onto shipping pallets, and unpacking them again."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from honeyledger.domain.codes import Code
from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.ledger.booking import Booking
from honeyledger.ledger.lookup import find_lot
from honeyledger.ledger.once import check_once
from honeyledger.ledger.packs import (
    CASE,
    NOTHING_PACKED,
    PACKED_IN,
    PALLET,
    Content,
    contents_of,
    empty_pack,
    fill_pack,
    find_pack,
    loose_of,
    outer_of,
    pack_in,
)
from honeyledger.ledger.signing import check_reason

MOST_AT_ONCE = 500

NOTHING_TO_PACK = Sentence(
    "nothing-to-pack", "Scan what goes in: a jar lot with a count, or cases."
)
HOW_MANY_JARS = Sentence("how-many-jars", "Say how many of {code} go into each case.")
HOW_MANY_CASES = Sentence(
    "how-many-cases", "{copies} cases cannot be packed at once: type 1 to 500."
)
NOT_SO_MANY_LOOSE = Sentence(
    "not-so-many-loose",
    "{asked} of {code} cannot be packed: {loose} stand loose here. Count them, or unpack a case.",
)
JARS_OR_CASES = Sentence(
    "jars-or-cases", "Jars go into a case and cases onto a pallet: pack the jars first."
)


@dataclass(frozen=True, slots=True)
class PackLine:
    """What goes in: so many of a jar lot, or a case by its code."""

    code: str
    pieces: int = 0


@dataclass(frozen=True, slots=True)
class Pack:
    """Jars go into cases, or cases onto a shipping pallet; each case gets a code of its own.

    Args:
        copies: how many cases with the same content.
    """

    kind: ClassVar[str] = "pack"
    lines: tuple[PackLine, ...]
    copies: int = 1


@dataclass(frozen=True, slots=True)
class Unpack:
    """A case or pallet is opened: what was in it stands by itself again."""

    kind: ClassVar[str] = "unpack"
    code: str
    reason: str


def book_pack(facts: Pack, b: Booking) -> None:
    """Facts of the codes only: no gram moves, and nothing is mixed."""
    if not facts.lines:
        raise Refusal(NOTHING_TO_PACK, field="lines")
    if not 1 <= facts.copies <= MOST_AT_ONCE:
        raise Refusal(HOW_MANY_CASES, field="copies", copies=facts.copies)
    packs = [code for line in facts.lines if (code := pack_in(b, line.code, "lines"))]
    if len(packs) == len(facts.lines):
        _onto_pallet(packs, b)
    elif packs:
        raise Refusal(JARS_OR_CASES, field="lines")
    else:
        _into_cases(facts, b)


def _into_cases(facts: Pack, b: Booking) -> None:
    rows: list[Content] = []
    for line in facts.lines:
        lot = find_lot(b.state, line.code, "JK", "lines")
        if line.pieces < 1:
            raise Refusal(HOW_MANY_JARS, field="pieces", code=lot.code)
        check_once([*(row.code for row in rows), lot.code], "lines")
        loose, asked = loose_of(b, lot.id, lot.code), line.pieces * facts.copies
        if asked > loose:
            raise Refusal(
                NOT_SO_MANY_LOOSE, field="pieces", code=lot.code, asked=asked, loose=max(0, loose)
            )
        rows.append(Content(lot.code, line.pieces))
    for _ in range(facts.copies):
        fill_pack(b, b.new_code(CASE), rows)


def _onto_pallet(packs: Sequence[Code], b: Booking) -> None:
    codes = [str(code) for code in packs]
    check_once(codes, "lines")
    for at, code in enumerate(codes):
        if not contents_of(b.state, code):
            raise Refusal(NOTHING_PACKED, field="lines", code=code)
        if outer := outer_of(b.state, code):
            raise Refusal(PACKED_IN, field="lines", code=code, outer=outer)
        if packs[at].letter == PALLET:
            raise Refusal(JARS_OR_CASES, field="lines")
    fill_pack(b, b.new_code(PALLET), [Content(code, 0) for code in codes])


def book_unpack(facts: Unpack, b: Booking) -> None:
    """What it held stands by itself again; its code is not used a second time."""
    check_reason(facts.reason)
    code = str(find_pack(b, facts.code))
    if not contents_of(b.state, code):
        raise Refusal(NOTHING_PACKED, field="code", code=code)
    if outer := outer_of(b.state, code):
        raise Refusal(PACKED_IN, field="code", code=code, outer=outer)
    empty_pack(b, code)
