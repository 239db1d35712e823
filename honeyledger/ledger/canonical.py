"""The one way an entry is written down for its digests.

Canonical form: UTF-8 NFC JSON, sorted keys, no spaces, integers and strings only. The digest
of an entry is SHA-256 over the digest before it, its header, and the four sub-digests; the
first digest before is the ledger's id.
"""

import json
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from json.encoder import encode_basestring as _write_text
from typing import Any

from honeyledger.domain.refusals import BrokenRule
from honeyledger.ledger.entry import Entry, Json, Lot, Origin, Posting

_NEW_LINE, _LONG = "\n", 32
"""Digests written out stand a line each; one has 32 bytes."""


@dataclass(frozen=True, slots=True)
class Seal:
    """An entry's place in the chain: hexadecimal SHA-256 digests."""

    previous: str
    facts: str
    lots: str
    postings: str
    origins: str
    digest: str


def normal(value: object) -> Json:
    """The value as the ledger keeps it: NFC text, integers, lists, maps; nothing else.

    Raises:
        BrokenRule: a float, a boolean, nothing, or any other type.
    """
    kind = type(value)
    if kind is int:
        return value  # type: ignore[return-value]
    if isinstance(value, str):
        return value if value.isascii() else unicodedata.normalize("NFC", value)
    # Most parts are numbers and plain words, and a call costs more than a look.
    if kind is list or kind is tuple:
        return [
            part if (its := type(part)) is int or (its is str and part.isascii()) else normal(part)
            for part in value  # type: ignore[attr-defined]
        ]
    if kind is dict or isinstance(value, Mapping):
        return {
            key if type(key) is str and key.isascii() else _key(key): part
            if (its := type(part)) is int or (its is str and part.isascii())
            else normal(part)
            for key, part in value.items()  # type: ignore[attr-defined]
        }
    if isinstance(value, Sequence) and not isinstance(value, bytes):
        return [normal(part) for part in value]
    if isinstance(value, int) and not isinstance(value, bool):
        return int(value)
    raise BrokenRule(f"the ledger keeps integers and text, not {type(value).__name__}")


def _key(key: object) -> str:
    if not isinstance(key, str):
        raise BrokenRule("the ledger's maps have text as keys")
    return key if key.isascii() else unicodedata.normalize("NFC", key)


_write = json.JSONEncoder(
    ensure_ascii=False, sort_keys=True, separators=(",", ":"), check_circular=False
).encode


def text_of(value: object) -> str:
    """Canonical JSON text of a value."""
    if type(value) is int:  # the value of most marks, and a writer costs more than a look
        return str(value)
    return _write(normal(value))


def digest_of(text: str) -> str:
    """SHA-256 of a text, hexadecimal."""
    return sha256(text.encode("utf-8")).hexdigest()


def digest_bytes(text: str) -> bytes:
    """SHA-256 of a text, as it is stored."""
    return sha256(text.encode("utf-8")).digest()


def whole_digest(previous: str, header: str, parts: Sequence[bytes]) -> bytes:
    """An entry's digest over the one before it, its header, and the four of its parts."""
    return digest_bytes(f"{previous}\n{header}\n{b''.join(parts).hex(_NEW_LINE, _LONG)}")


def header_text(entry: Entry) -> str:
    """The header's canonical text."""
    return header_of(header_values(entry))


def header_values(entry: Entry) -> tuple[int | str, ...]:
    """The header's thirteen values, in the order they are stored in."""
    act = entry.act
    return (
        entry.id,
        entry.kind,
        act.happened.at_ms,
        act.happened.offset_min,
        act.happened.zone,
        entry.recorded_ms,
        act.operator,
        act.station,
        act.command,
        entry.part,
        act.run,
        act.unsure_ms,
        entry.reverses,
    )


def header_of(values: Sequence[Any]) -> str:
    """The header's canonical text, from its thirteen values in the order they are stored in.

    Written by hand, keys in order, since an audit writes it for every entry there is.
    """
    text = _header(values)
    return text if text.isascii() else _header([normal(value) for value in values])


def _header(values: Sequence[Any]) -> str:
    """The header of values that are normal already."""
    number, kind, at, offset, zone, recorded, operator, station, command, *_ = values
    part, run, unsure, reverses = values[9:]
    return (
        f'{{"command":[{_write_text(command)},{part:d}],'
        f'"happened":[{at:d},{offset:d},{_write_text(zone)}],"id":{number:d},'
        f'"kind":{_write_text(kind)},"operator":{_write_text(operator)},"recorded":{recorded:d},'
        f'"reverses":{reverses:d},"run":{_write_text(run)},"station":{_write_text(station)},'
        f'"unsure":{unsure:d}}}'
    )


def _quoted(word: str) -> str:
    return _write_text(word if word.isascii() else unicodedata.normalize("NFC", word))


def lot_row(lot: Lot) -> list[Json]:
    """A lot as its digest sees it."""
    return [
        lot.id,
        lot.code,
        lot.kind,
        lot.made_by,
        lot.made_g,
        lot.season,
        text_of(lot.attributes),
    ]


def posting_row(posting: Posting) -> list[Json]:
    """A posting as its digest sees it."""
    return [posting.line, posting.lot, posting.place, posting.grams]


def origin_row(origin: Origin) -> list[Json]:
    """An origin as its digest sees it."""
    return [origin.line, origin.child, origin.parent, origin.grams, int(origin.late)]


def seal(entry: Entry, previous: str) -> Seal:
    """The entry's digests, given the digest before it."""
    return seal_parts(
        previous,
        header_text(entry),
        text_of(entry.facts),
        [lot_row(lot) for lot in entry.lots],
        [posting_row(posting) for posting in entry.postings],
        [origin_row(origin) for origin in entry.origins],
    )


def seal_parts(
    previous: str,
    header: str,
    facts: str,
    lots: Sequence[Sequence[Json]],
    postings: Sequence[Sequence[Json]],
    origins: Sequence[Sequence[Json]],
) -> Seal:
    """The digests of an entry read back as plain rows, for checking a stored chain."""
    parts = (digest_of(facts), *row_digests(lots, postings, origins))
    whole = whole_digest(previous, header, [bytes.fromhex(part) for part in parts])
    return Seal(previous, *parts, whole.hex())


def row_digests(
    lots: Sequence[Sequence[Any]],
    postings: Sequence[Sequence[Any]],
    origins: Sequence[Sequence[Any]],
) -> tuple[str, str, str]:
    """The digests of lots, postings and origins, each as its digest sees it.

    Written by hand like the header, and for the same reason.
    """
    of_lots = [
        f"[{number:d},{_quoted(code)},{_quoted(kind)},{made_by:d},{made_g:d},{season:d},"
        f"{_quoted(attributes)}]"
        for number, code, kind, made_by, made_g, season, attributes in lots
    ]
    of_postings = [
        f"[{line:d},{lot:d},{_quoted(where)},{grams:d}]" for line, lot, where, grams in postings
    ]
    of_origins = [
        f"[{line:d},{child:d},{parent:d},{grams:d},{late:d}]"
        for line, child, parent, grams, late in origins
    ]
    return _of_all(of_lots), _of_all(of_postings), _of_all(of_origins)


def _of_all(rows: Sequence[str]) -> str:
    return digest_of(f"[{','.join(rows)}]") if rows else _OF_NONE


_OF_NONE = digest_of("[]")
