"""The named list of what is always true, and the checks of it over stored rows.

A check never trusts a row: it says what is broken, naming the entry and the table. What needs a
database (guards in place, a replay compared with the projections) the store adds.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from honeyledger.ledger.canonical import digest_bytes, header_of, row_digests, whole_digest
from honeyledger.ledger.effects import rows_of
from honeyledger.ledger.entry import COUNTED_KINDS, SOURCE_KINDS, Entry
from honeyledger.ledger.places import EVAPORATED, is_inside

Row: TypeAlias = Sequence[Any]

BALANCED = "balanced"
NEVER_OVERDRAWN = "never-overdrawn"
WHOLE = "whole"
ORDERED = "ordered"
WRITTEN_ONCE = "written-once"
CHAINED = "chained"
REBUILT = "rebuilt"
HELD_MEANS_HELD = "held-means-held"
DRY_KEEPS_SOLIDS = "dry-keeps-solids"

INVARIANTS: Mapping[str, str] = {
    BALANCED: "An entry's postings sum to 0 g, and so do all places together.",
    NEVER_OVERDRAWN: "No lot is below 0 g at an inside place at the end of any entry.",
    WHOLE: "The grams of a made lot's origins sum to what it was made of.",
    ORDERED: "An origin with grams has a parent older than its child.",
    WRITTEN_ONCE: "The four tables refuse every change, from any client.",
    CHAINED: "Each entry's digest fits its rows and the entry before it.",
    REBUILT: "Every projection equals a fresh replay of the entries.",
    HELD_MEANS_HELD: "Nothing was dispatched that stood under a hold.",
    DRY_KEEPS_SOLIDS: "Drying takes water and keeps solids, within 1 g a lot.",
}
ALL = 10_000  # hundredths of a percent
_HEADER = 13


@dataclass(frozen=True, slots=True)
class Stored:
    """An entry as its rows stand in the store.

    `row` is the entry's own, its columns in order: thirteen of the header, facts, and as bytes the
    digest before, the four sub-digests, the digest. The others are as their digests see them.
    """

    row: Row
    lots: Sequence[Row]
    postings: Sequence[Row]
    origins: Sequence[Row]

    @property
    def id(self) -> int:
        """The entry's id."""
        return int(self.row[0])


class Chain:
    """Follows the chain over the entries' own rows, by id."""

    def __init__(self, ledger_id: str, kept: Iterable[tuple[int, str]] = ()) -> None:
        """Begin at the ledger's id; `kept` are heads kept elsewhere: entry, start of digest."""
        self._last = 0
        self._digest = ledger_id.encode()
        self._kept: dict[int, list[str]] = {}
        for entry, digest in kept:
            self._kept.setdefault(entry, []).append(digest.lower())

    def follow(self, row: Row) -> list[str]:
        """What is broken at this entry's own row."""
        number = int(row[0])
        broken = self._missing(number - 1) if number - 1 != self._last else []
        previous, digest = row[_HEADER + 1], row[_HEADER + 6]
        if not broken and previous != self._digest:
            broken.append(f"entry {number}, entry: it does not follow the entry before it")
        parts = row[_HEADER + 2 : _HEADER + 6]
        if digest_bytes(row[_HEADER]) != parts[0]:
            broken.append(f"entry {number}, entry: its facts are not what was sealed")
        if whole_digest(_told(number, previous), header_of(row[:_HEADER]), parts) != digest:
            broken.append(f"entry {number}, entry: its row is not what was sealed")
        if number in self._kept:
            broken += [
                f"entry {number}, entry: its digest is not the one kept elsewhere ({kept})"
                for kept in self._kept.pop(number)
                if not digest.hex().startswith(kept)
            ]
        self._last, self._digest = number, digest
        return broken

    def _missing(self, until: int) -> list[str]:
        """Ids from the last one seen up to `until`: there should be none."""
        first = self._last + 1
        if first > until:
            return []
        if first == until:
            return [f"entry {first}, entry: its row is missing"]
        return [f"entry {first} to entry {until}, entry: their rows are missing"]

    def end(self, head_entry: int, head_digest: str) -> list[str]:
        """What is broken at the end of the chain."""
        broken = self._missing(head_entry)
        if self._last > head_entry:
            broken.append(f"entry {self._last}, entry: it stands after the head, {head_entry}")
        elif not broken and _told(self._last + 1, self._digest) != head_digest:
            broken.append(f"entry {head_entry}, head: the head's digest is another")
        broken += [
            f"entry {entry}, entry: it is missing, though its digest was kept elsewhere ({kept})"
            for entry, digests in sorted(self._kept.items())
            for kept in digests
        ]
        return broken


def _told(number: int, previous: bytes) -> str:
    """The digest before an entry, written out; before the first one stands the ledger's id."""
    return previous.hex() if number > 1 else previous.decode("utf-8", "replace")


def check_sealed(stored: Stored) -> Iterator[str]:
    """Lots, postings and origins against the sub-digests in the entry's row."""
    sealed = tuple(map(bytes.hex, stored.row[_HEADER + 3 : _HEADER + 6]))
    found = row_digests(stored.lots, stored.postings, stored.origins)
    if found != sealed:
        for table, digest, there in zip(("lot", "posting", "origin"), sealed, found, strict=True):
            if there != digest:
                yield f"entry {stored.id}, {table}: its rows are not what was sealed"


def check_balanced(stored: Stored) -> Iterator[str]:
    """An entry's postings sum to 0 g."""
    over_g = sum(row[3] for row in stored.postings)
    if over_g:
        yield f"entry {stored.id}, posting: out of balance by {over_g} g"


def check_whole(stored: Stored) -> Iterator[str]:
    """A made lot's origins, all of the entry that made it, sum to what it was made of."""
    sums = {row[0]: 0 for row in stored.lots}
    for _, child, _, grams, _ in stored.origins:
        if child in sums:
            sums[child] += grams
        elif grams:
            yield f"entry {stored.id}, origin: {grams} g are added to lot {child}, made before"
    for number, code, kind, _, made_g, *_ in stored.lots:
        wanted_g = 0 if kind in SOURCE_KINDS else made_g
        if made_g < (kind not in COUNTED_KINDS) or sums[number] != wanted_g:
            yield f"entry {stored.id}, lot: {code} is made of {sums[number]} g, not {wanted_g} g"


def check_ordered(stored: Stored) -> Iterator[str]:
    """An origin with grams has a parent older than its child, and none is its own."""
    for line, child, parent, grams, _ in stored.origins:
        if grams < 0 or child == parent or (grams and parent >= child):
            yield f"entry {stored.id}, origin: line {line} is out of order"


class Running:
    """What every lot holds at inside places, entry after entry; rows that are 0 g are let go."""

    def __init__(self) -> None:
        self._grams: dict[tuple[int, str], int] = {}
        self._is_inside: dict[str, bool] = {}

    def follow(self, stored: Stored) -> list[str]:
        """What is below 0 g at the end of this entry."""
        touched = set()
        for _, lot, place, grams in stored.postings:
            inside = self._is_inside.get(place)
            if inside is None:
                inside = self._is_inside[place] = is_inside(place)
            if inside:
                key = (lot, place)
                touched.add(key)
                self._grams[key] = self._grams.get(key, 0) + grams
        broken = []
        for lot, place in sorted(touched):
            left_g = self._grams[lot, place]
            if not left_g:
                del self._grams[lot, place]
            elif left_g < 0:
                broken.append(f"entry {stored.id}, posting: lot {lot} has {left_g} g at {place}")
        return broken


def check_dry(entry: Entry) -> Iterator[str]:
    """Solids before and after drying are the same, within 1 g a lot.

    A dry entry marks each lot as dried: grams before, moisture before and after (0.01 %). Where
    the water was weighed the moisture after follows from it, rounded to its last place.
    """
    gone: dict[int, int] = {}
    for one in entry.postings:
        if one.place == EVAPORATED:
            gone[one.lot] = gone.get(one.lot, 0) + one.grams
    dried: list[Any] = [row[2] for row in rows_of(entry, "marks") if row[1] == "dried"]
    for row in dried:
        solids = row["grams"] * (ALL - row["before"])
        left_g = row["grams"] - gone.pop(row["lot"], 0)
        left = left_g * (ALL - row["after"])
        rounded = left_g // 2 if row["by_scale"] else 0
        if abs(solids - left) > ALL + rounded:
            off = f"{(left - solids) / ALL:+.1f} g of solids"
            yield f"entry {entry.id}: lot {row['lot']} has {off}"
    for lot in gone:
        yield f"entry {entry.id}: lot {lot} dries without its moistures"


ROW_CHECKS = {
    CHAINED: check_sealed,
    BALANCED: check_balanced,
    WHOLE: check_whole,
    ORDERED: check_ordered,
}
