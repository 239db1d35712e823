"""What `book` may read: the ledger as it stands before an entry, as a protocol.

The store implements it inside the writing transaction. Rows of reversed entries and of their
reversals never show here, except where a method says so.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, Protocol, TypeAlias

from honeyledger.ledger.entry import Entry, Json, Lot


@dataclass(frozen=True, slots=True)
class Standing:
    """A lot standing in a place now, with its grams (0 is possible) and pieces there."""

    lot: Lot
    grams: int
    pieces: int
    since_ms: int


@dataclass(frozen=True, slots=True)
class Stay:
    """A lot that stood in a place for a while; `until_ms` is -1 while it still does."""

    place: str
    lot: int
    since_ms: int
    until_ms: int
    by_wash: bool


HoldingRow: TypeAlias = tuple[str, int, int, int]
"""A `Holding` as a plain tuple."""


class Holding(NamedTuple):
    """What a lot has at a place: grams and pieces. Rows that came to nothing are kept."""

    place: str
    lot: int
    grams: int
    pieces: int


EdgeRow: TypeAlias = tuple[int, int, int, int, int, int]
"""An `Edge` as a plain tuple."""


class Edge(NamedTuple):
    """An origin row that counts, with the entry that wrote it; `late` is 0 or 1.

    A plain tuple by name: a trace makes thousands of them.
    """

    child: int
    parent: int
    grams: int
    late: int
    entry: int
    line: int


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened to a lot at a place: an arrival, a draw, a touch (lot 0)."""

    place: str
    lot: int
    at_ms: int
    entry: int


@dataclass(frozen=True, slots=True)
class Mark:
    """The latest fact of one name about a subject."""

    subject: str
    name: str
    value: Json
    at_ms: int
    entry: int


class State(Protocol):
    """The ledger now. Times are milliseconds UTC, masses grams, ids the ledger's own."""

    @property
    def next_entry(self) -> int:
        """The id the next entry will have."""

    @property
    def next_lot(self) -> int:
        """The id the next lot will have."""

    def last_number(self, letter: str, season: int) -> int:
        """The highest number given to a code of this letter and season (two digits), or 0."""

    def lot(self, lot_id: int) -> Lot:
        """A lot by its id. Raises Damage where there is none."""

    def lots(self, lot_ids: Collection[int]) -> Mapping[int, Lot]:
        """Many lots by id."""

    def lot_by_code(self, code: str) -> Lot | None:
        """A lot by its code in normal form, reversed ones included."""

    def is_given(self, code: str) -> bool:
        """Whether a code in normal form was ever given, to a lot or to anything else."""

    def standing(self, place: str) -> Sequence[Standing]:
        """What stands in a place now, 0 g included, by lot id."""

    def stays(self, place: str, since_ms: int) -> Sequence[Stay]:
        """Stays in a place that had not ended by `since_ms`, and all begun since, by lot id."""

    def holdings(self, lot_id: int) -> Sequence[Holding]:
        """Where a lot is, by place; outside, rows that came to nothing are included."""

    def sources_of(self, lot_ids: Collection[int]) -> Sequence[Holding]:
        """Holdings at the outside places lots came from, those come to nothing included.

        By lot, then place; grams are below 0 where the place gave them.
        """

    def arrivals(self, place: str, since_ms: int) -> Sequence[Event]:
        """What was loaded or poured into a place at or after a time, by time then lot."""

    def draws(self, place: str, since_ms: int) -> Sequence[Event]:
        """What was taken from a place at or after a time, by time then lot."""

    def last_touch(self, place: str) -> Event | None:
        """The latest happening on a place, by when it happened."""

    def origins(self, lot_id: int) -> Sequence[Edge]:
        """Origin rows of a lot that count, by parent."""

    def ancestry(self, lot_ids: Collection[int]) -> Sequence[Edge]:
        """All origin rows that count in the reach back from these lots, newest child first."""

    def descent(self, lot_ids: Collection[int]) -> Sequence[Edge]:
        """All origin rows that count in the reach forward, oldest parent first."""

    def mark(self, subject: str, name: str) -> Mark | None:
        """The latest mark of this name on a subject that counts."""

    def marks(self, subject: str) -> Sequence[Mark]:
        """The latest mark of each name on a subject, by name."""

    def marked(self, name: str, under: str = "") -> Sequence[Mark]:
        """The latest mark of this name on every subject that begins with `under`, by subject."""

    def marked_on(self, name: str, subjects: Collection[str]) -> Mapping[str, Mark]:
        """The latest mark of this name on each of these subjects that has one, by subject."""

    def marked_without(self, name: str, without: str, under: str) -> Sequence[Mark]:
        """As `marked`, of the subjects with no mark of the other name: what was begun, not ended.

        Those that are not ended are few, however many years of others there are.
        """

    def entry(self, entry_id: int) -> Entry | None:
        """An entry with all its rows, reversed or not."""

    def entries_of_run(self, run: str) -> Sequence[Entry]:
        """The entries that carry a run's code and count, by id."""

    def reversed_by(self, entry_id: int) -> int:
        """The entry that reverses this one, or 0."""

    def built_on(self, entry_id: int) -> Sequence[int]:
        """Later entries that count and build on this one, by id (see `verbs.corrections`)."""

    def held_at(self, place_class: str) -> Sequence[Holding]:
        """All holdings with grams or pieces at places of a class, by place, then lot."""

    def source_lots(self, place: str) -> Sequence[Lot]:
        """Source lots that ever came from this outside place, by id."""

    def entry_of_command(self, command: str) -> Sequence[Entry]:
        """The entries a command has already written, by part."""
