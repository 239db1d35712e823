"""Between an entry and its stored rows, both ways."""

import json
import re
from collections.abc import Iterable, Sequence
from typing import Any

from honeyledger.domain.moments import Moment
from honeyledger.domain.refusals import BrokenRule, Damage
from honeyledger.ledger.canonical import Seal, header_values, text_of
from honeyledger.ledger.entry import Act, Entry, Json, Lot, Origin, Posting
from honeyledger.persistence.statements import Row

_CODE = re.compile(r"(?:[A-Z]{2,3}-)?([A-Z])([0-9]{2})-([0-9]{4,8})-[0-9A-Z]")
_decode = json.JSONDecoder().raw_decode


def entry_row(entry: Entry, facts: str, seal: Seal) -> Row:
    """The entry's own row, columns in the table's order."""
    return (
        *header_values(entry),
        facts,
        previous_bytes(entry.id, seal.previous),
        *map(bytes.fromhex, (seal.facts, seal.lots, seal.postings, seal.origins, seal.digest)),
    )


def previous_bytes(entry: int, previous: str) -> bytes:
    """The digest before an entry as stored: before the first one stands the ledger's id."""
    return previous.encode() if entry == 1 else bytes.fromhex(previous)


def previous_text(entry: int, stored: bytes) -> str:
    """The digest before an entry as it is written out; any bytes can be told."""
    return stored.decode("utf-8", "replace") if entry == 1 else stored.hex()


def lot_rows(entry: Entry) -> list[Row]:
    """The lots an entry makes, as stored."""
    return [
        (
            lot.id,
            lot.code,
            lot.kind,
            lot.made_by,
            lot.made_g,
            lot.season,
            text_of(lot.attributes),
        )
        for lot in entry.lots
    ]


def posting_rows(entry: Entry) -> list[Row]:
    """The postings of an entry, as stored."""
    return [(entry.id, one.line, one.lot, one.place, one.grams) for one in entry.postings]


def origin_rows(entry: Entry) -> list[Row]:
    """The origins an entry gives, as stored."""
    return [
        (entry.id, one.line, one.child, one.parent, one.grams, int(one.late))
        for one in entry.origins
    ]


def code_parts(code: str) -> tuple[str, int, int]:
    """Letter, season and number of a code as printed; of anything else "", 0 and 0."""
    read = _CODE.fullmatch(code)
    if read is None:
        return "", 0, 0
    return read[1], int(read[2]), int(read[3])


def value_of(text: str) -> Any:
    """A stored canonical text as the value it stands for."""
    value, end = _decode(text)
    if end != len(text):
        raise ValueError("a stored text goes on after its value")
    return value


def lot_of(row: Sequence[Any]) -> Lot:
    """A lot from its row."""
    lot_id, code, kind, made_by, made_g, season, attributes = row
    return Lot(lot_id, code, kind, made_by, made_g, season, value_of(attributes))


def header_of(row: Sequence[Any]) -> tuple[Act, dict[str, Json]]:
    """Who, when and what was said, from an entry's row."""
    act = Act(
        happened=Moment(row[2], row[3], row[4]),
        operator=row[6],
        station=row[7],
        command=row[8],
        run=row[10],
        unsure_ms=row[11],
    )
    return act, value_of(row[13])


def entry_of(
    row: Sequence[Any],
    lots: Iterable[Sequence[Any]] = (),
    postings: Iterable[Sequence[Any]] = (),
    origins: Iterable[Sequence[Any]] = (),
) -> Entry:
    """An entry from its rows, each kind in order.

    Raises:
        Damage: the rows are not those of an entry that was ever sealed.
    """
    try:
        act, facts = header_of(row)
        return Entry(
            id=row[0],
            kind=row[1],
            act=act,
            recorded_ms=row[5],
            part=row[9],
            facts=facts,
            lots=tuple(lot_of(one) for one in lots),
            postings=tuple(Posting(*one[1:5]) for one in postings),
            origins=tuple(Origin(one[1], one[2], one[3], one[4], bool(one[5])) for one in origins),
            reverses=row[12],
        )
    except (BrokenRule, ValueError) as error:
        raise Damage(f"entry {row[0]}: {error}") from error
