"""The one port: what the program asks of a store, whatever engine is behind it.

Reading happens in a view (one steady picture of the ledger), writing in a unit of work that
rolls back unless it ends well. One writer at a time; many readers beside it.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import NamedTuple, Protocol, TypeAlias, TypeVar

from honeyledger.ledger.canonical import Seal
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.ledger.state import EdgeRow, Holding, HoldingRow, Mark, State

Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class Head:
    """The end of the chain: the last entry, its digest, and the ledger's own id."""

    ledger_id: str
    entry: int
    lot: int
    digest: str


@dataclass(frozen=True, slots=True)
class OnHand:
    """A lot with its grams and pieces at one inside place."""

    lot: Lot
    place: str
    grams: int
    pieces: int


HeadRow: TypeAlias = tuple[int, str, str, int, str]
"""A `LotHead` as a plain tuple."""


class LotHead(NamedTuple):
    """The little of a lot that a trace needs; `vessel` is a tank fill's, "" of all others."""

    id: int
    code: str
    kind: str
    made_g: int
    vessel: str


class EntryHead(NamedTuple):
    """The little of an entry that explains a late origin: what it was, said and typed when.

    `digest` is what seals it, to be compared with one kept elsewhere.
    """

    id: int
    kind: str
    happened_ms: int
    recorded_ms: int
    digest: str


class Moved(NamedTuple):
    """What one entry brought to a place of some lots together; below 0 g it took from there."""

    entry: int
    happened_ms: int
    place: str
    grams: int


class Seen(NamedTuple):
    """A station by its name, and when it last recorded anything, milliseconds UTC."""

    station: str
    recorded_ms: int


@dataclass(frozen=True, slots=True)
class Finding:
    """One invariant, whether it holds, and what breaks it ("entry 12, posting: ...")."""

    name: str
    holds: bool
    broken: tuple[str, ...] = ()


class View(State, Protocol):
    """The ledger as of one moment, for questions."""

    def head(self) -> Head:
        """The end of the chain."""

    def on_hand(self, classes: Collection[str] = ()) -> Sequence[OnHand]:
        """Everything with grams or pieces at inside places (of these classes), by place, lot."""

    def lot_heads(self, lot_ids: Collection[int]) -> Mapping[int, LotHead]:
        """Heads of many lots, by id."""

    def reach_back(self, lot_ids: Collection[int]) -> tuple[Sequence[EdgeRow], Collection[int]]:
        """As `ancestry`, in plain rows since there are thousands, and all lots they reach."""

    def sourced_heads(
        self, lot_ids: Collection[int]
    ) -> tuple[Mapping[int, HeadRow], Sequence[HoldingRow]]:
        """Heads by id, in its order, and as `sources_of` the places that honey of them is from.

        In plain rows, since there are thousands.
        """

    def read_marks(self, subjects: Collection[str]) -> None:
        """Read the marks of many subjects at once, for whoever asks for each of them next."""

    def marked_between(
        self, name: str, under: str, since_ms: int, before_ms: int
    ) -> Sequence[Mark]:
        """As `marked`, of the latest marks those that were made in this time."""

    def names_of(self, subjects: Collection[str]) -> Mapping[str, str]:
        """Names in the records of many registers ("yard/..."); those without one are left out."""

    def holdings_of(self, lot_ids: Collection[int], *, emptied: bool = False) -> Sequence[Holding]:
        """Holdings of many lots, outside places too, by lot then place.

        Rows that came to nothing are left out unless `emptied`; only outside places keep them.
        """

    def entries(
        self, kinds: Collection[str] = (), since_ms: int = 0, last: int = 0
    ) -> Sequence[Entry]:
        """Entries of these kinds (all, if none named) that happened since then, by id.

        `last` above 0 keeps only the newest so many. Reversed ones are included.
        """

    def entries_before(
        self, before: int, last: int, kinds: Collection[str] = (), station: str = ""
    ) -> Sequence[Entry]:
        """The newest so many entries below this number, of these kinds and this station, by id.

        All kinds where none is named, all stations for "". Reversed ones are included.
        """

    def stations_after(self, entry_id: int) -> Sequence[Seen]:
        """Which stations recorded entries above this number, the latest first."""

    def entry_heads(self, entry_ids: Collection[int]) -> Sequence[EntryHead]:
        """Heads of many entries, by id."""

    def typed(self, entry_ids: Collection[int]) -> Mapping[int, tuple[str, int]]:
        """The kind of many entries, and how long after it happened each was recorded, ms."""

    def moved(self, kind: str, lot_ids: Collection[int]) -> Sequence[Moved]:
        """What entries of a kind brought to each place of these lots, by entry then place.

        Reversed ones are left out.
        """

    def codes_given(self, entry_ids: Collection[int]) -> Mapping[int, Sequence[str]]:
        """The codes of what is no lot (a note, a case) that entries gave, by entry."""

    def history(self, lot_id: int) -> Sequence[Entry]:
        """Every entry that posts on a lot, makes it, gives it an origin, or marks its code."""


class Unit(View, Protocol):
    """A unit of work under the head lock."""

    def append(self, entry: Entry) -> Seal:
        """Seal and write the next entry with all its rows and projections.

        Raises:
            BrokenRule: the entry is not the next one, or an invariant would not hold.
        """


class Store(Protocol):
    """A ledger somewhere: one SQLite file, or a PostgreSQL database."""

    def reading(self) -> AbstractContextManager[View]:
        """A steady view; closes by itself."""

    def beside(self, question: Callable[[View], Answer], is_wanted: Callable[[], bool]) -> Answer:
        """Ask a long question of a steady view, in a process of its own where that pays.

        Args:
            question: a function of a module, or a `partial` of one with plain data; its answer
                is small.
            is_wanted: asked now and then; once it is not, the process is ended.
        """

    def writing(self) -> AbstractContextManager[Unit]:
        """A unit of work: committed at a clean end, rolled back otherwise."""

    def audit(
        self,
        progress: Callable[[int, int], None] | None = None,
        kept: Collection[tuple[int, str]] = (),
    ) -> Sequence[Finding]:
        """Check every invariant by name; `progress(done, of)` counts entries.

        `kept` are heads kept elsewhere, on paper: an entry's id and the beginning of its digest.
        """

    def warnings(self) -> Sequence[str]:
        """What the user should know about where the ledger stands (network or sync folder)."""

    def close(self) -> None:
        """Let go of files and connections."""
