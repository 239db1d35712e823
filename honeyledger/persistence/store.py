"""The store: opens a house where it is, and gives views and units of work over it."""

import importlib
import threading
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import closing, contextmanager, nullcontext
from typing import Any

from sqlalchemy import Connection, Engine

from honeyledger.domain.refusals import BrokenRule, Refusal
from honeyledger.ledger import canonical
from honeyledger.ledger.canonical import Seal
from honeyledger.ledger.entry import Entry, Lot
from honeyledger.persistence import faults, guards, opening
from honeyledger.persistence.engine import (
    BEGIN,
    BEGIN_WRITING,
    Where,
    for_reading,
    for_writing,
    locate,
)
from honeyledger.persistence.entry_queries import EntryQueries
from honeyledger.persistence.faults import faults_named
from honeyledger.persistence.location import warnings_of
from honeyledger.persistence.mark_queries import Kept, Known
from honeyledger.persistence.opening import Opened
from honeyledger.persistence.projections import Projector
from honeyledger.persistence.remembered import Memory
from honeyledger.persistence.rows import entry_row, lot_rows, origin_rows, posting_rows
from honeyledger.persistence.statements import Insert, together
from honeyledger.persistence.tables import ENTRY, LOT, ORIGIN, POSTING
from honeyledger.services.store import Answer, Finding, Head, Store, View

_ANSWERING = "honeyledger.persistence.answering"  # loaded for a long answer only
_CHECKING = "honeyledger.persistence.checking"  # loaded for an audit only
_NEW_ENTRY = Insert(ENTRY)
_NEW_LOTS = Insert(LOT)
_NEW_POSTINGS = Insert(POSTING)
_NEW_ORIGINS = Insert(ORIGIN)


class SqlView(EntryQueries):
    """The ledger as of one moment, for questions."""

    def __init__(
        self, cursor: Any, engine: str, *, locks: bool = False, memory: Memory | None = None
    ) -> None:
        super().__init__(cursor, engine, locks=locks, memory=memory)
        self._lots_read: dict[int, Lot] = {}
        self._lots_named = set()
        self._codes_read = {}
        self._entries_read = {}
        self._entries_named = set()
        self._marks_read = {}
        self._marks_on = {}
        self._known = Known()


class SqlUnit(SqlView):
    """A unit of work under the head lock; once an append fails, the whole unit does."""

    def __init__(self, cursor: Any, engine: str, kept: Kept | None = None) -> None:
        super().__init__(cursor, engine, locks=True)
        self._projector = Projector(cursor, engine, self.entry)
        self.spoiled = False
        self._kept = kept or Kept()
        # On PostgreSQL the head takes the lock; what was kept is asked for under it.
        self._known = self._kept.lend(self.head().digest)

    def is_committed(self) -> None:
        """What is known may be kept."""
        self._kept.take_back(self.head().digest, self._known)

    def append(self, entry: Entry) -> Seal:
        """Seal and write the next entry with all its rows and projections."""
        _check_next(entry, self.head())
        self.spoiled = True
        facts = canonical.text_of(entry.facts)
        lots, postings, origins = lot_rows(entry), posting_rows(entry), origin_rows(entry)
        seal = canonical.seal_parts(
            self.head().digest,
            canonical.header_text(entry),
            facts,
            lots,
            [row[1:] for row in postings],
            [row[1:] for row in origins],
        )
        row = entry_row(entry, facts, seal)
        faults.check_words(row)
        with together(self._cursor, self._engine):
            _NEW_LOTS.run(self._cursor, self._engine, lots)
            _NEW_POSTINGS.run(self._cursor, self._engine, postings)
            _NEW_ORIGINS.run(self._cursor, self._engine, origins)
            _NEW_ENTRY.run(self._cursor, self._engine, [row])
            self._projector.send(entry)
        self._projector.check()
        self._advance(entry, seal)
        self.spoiled = False
        return seal

    def _advance(self, entry: Entry, seal: Seal) -> None:
        """The guard on the entry's row has moved the head; this is what it moved it to."""
        last_lot = entry.lots[-1].id if entry.lots else self.head().lot
        self._head = Head(self.head().ledger_id, entry.id, last_lot, seal.digest)
        self._lots_read.update((lot.id, lot) for lot in entry.lots)
        self._has_voids = None
        self._recalled = None
        self._marks_read.clear()
        self._marks_on.clear()
        self._known.follow(entry)


def _check_next(entry: Entry, head: Head) -> None:
    """Only what follows the head exactly, each kind of row in order, can be sealed."""
    ids = [lot.id for lot in entry.lots]
    lines = [[one.line for one in rows] for rows in (entry.postings, entry.origins)]
    if entry.id != head.entry + 1:
        raise BrokenRule(f"entry {entry.id} does not follow entry {head.entry}")
    if ids != list(range(head.lot + 1, head.lot + 1 + len(ids))):
        raise BrokenRule(f"entry {entry.id}: its lots do not follow lot {head.lot}")
    if any(lot.made_by != entry.id for lot in entry.lots):
        raise BrokenRule(f"entry {entry.id}: a lot says that another entry made it")
    if any(rows != sorted(set(rows)) for rows in lines):
        raise BrokenRule(f"entry {entry.id}: its lines are not numbered in order")


class _Turn:
    """One thread at a time, and that one not twice at once: it would wait for itself."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._thread = 0

    def __enter__(self) -> None:
        if self._thread == threading.get_ident():
            raise BrokenRule("a house in memory is read or written by one at a time")
        self._lock.acquire()
        self._thread = threading.get_ident()

    def __exit__(self, *_: object) -> None:
        self._thread = 0
        self._lock.release()


class SqlStore:
    """A house open for work. Its engine, not this object, keeps the connections."""

    def __init__(self, where: Where, opened: Opened) -> None:
        self._where = where
        self._engine = opened.engine
        self._reads = for_reading(opened.engine)
        self._writes = for_writing(opened.engine)
        self._guards_missing = opened.guards_missing
        self._journal_mode = opened.journal_mode
        self._kept = Kept()
        self._remembered = Memory()
        # Memory has one connection for all, so that views and units take turns.
        self._turn = _Turn() if where.in_memory else nullcontext()

    @contextmanager
    def reading(self) -> Iterator[SqlView]:
        """A steady view; closes by itself."""
        with self._begun(writes=False) as (commit, cursor):
            yield SqlView(cursor, self._engine.dialect.name, memory=self._remembered)
            # Nothing was written; but the driver forgets at a rollback how a server was asked.
            commit()

    def beside(self, question: Callable[[View], Answer], is_wanted: Callable[[], bool]) -> Answer:
        """Ask a long question, in a process of its own where that pays."""
        with self.reading() as view:
            entries = view.head().entry

        def here(asked: Callable[[View], Answer]) -> Answer:
            with self.reading() as view:
                return asked(view)

        ask: Callable[..., Answer] = importlib.import_module(_ANSWERING).answer_beside
        return ask(self._where, entries, question, is_wanted, here)

    @contextmanager
    def writing(self) -> Iterator[SqlUnit]:
        """A unit of work: committed at a clean end, rolled back otherwise."""
        if self._guards_missing:
            raise self._guards_refusal()
        with self._begun(writes=True) as (commit, cursor):
            unit = SqlUnit(cursor, self._engine.dialect.name, self._kept)
            yield unit
            if unit.spoiled:
                raise BrokenRule("an entry failed to be written, so the unit of work cannot end")
            commit()
            unit.is_committed()

    @contextmanager
    def _begun(self, *, writes: bool) -> Iterator[tuple[Callable[[], None], Any]]:
        """How to commit a transaction, and its cursor; rolled back unless committed.

        On SQLite past SQLAlchemy's connection, which takes each entry a fiftieth of its time.
        """
        if not self._where.is_sqlite:
            with self._talking(self._writes if writes else self._reads) as (connection, cursor):
                yield connection.commit, cursor
            return
        with (
            self._turn,
            faults_named(self._where.name),
            closing(self._engine.raw_connection()) as raw,
            closing(raw.cursor()) as cursor,
        ):
            cursor.execute(BEGIN_WRITING if writes else BEGIN)
            yield raw.commit, cursor

    @contextmanager
    def _talking(self, engine: Engine) -> Iterator[tuple[Connection, Any]]:
        """A connection in a transaction, rolled back unless committed; faults are named.

        Its cursor is closed with it, or SQLite would keep the file open behind our back.
        """
        with self._turn, faults_named(self._where.name), engine.connect() as connection:
            connection.begin()
            with closing(connection.connection.cursor()) as cursor:
                yield connection, cursor

    def audit(
        self,
        progress: Callable[[int, int], None] | None = None,
        kept: Collection[tuple[int, str]] = (),
    ) -> Sequence[Finding]:
        """Check every invariant by name; `progress(done, of)` counts entries.

        `kept` are heads kept elsewhere, on paper: an entry's id and the beginning of its digest.
        """
        with self._talking(self._reads) as (connection, cursor):
            view = SqlView(cursor, connection.dialect.name)
            check: Callable[..., Sequence[Finding]] = importlib.import_module(_CHECKING).check
            return check(view, guards.missing(connection), kept, progress, self._where)

    def warnings(self) -> Sequence[str]:
        """What the user should know about where the ledger stands (network or sync folder)."""
        told = [self._guards_refusal().text] if self._guards_missing else []
        if self._where.path is not None:
            told += warnings_of(self._where.path, self._journal_mode)
        return told

    def _guards_refusal(self) -> Refusal:
        what = ", ".join(self._guards_missing)
        return Refusal(faults.GUARDS_MISSING, field="house", where=self._where.name, what=what)

    def close(self) -> None:
        """Let go of files and connections."""
        self._engine.dispose()


def open_store(
    url_or_path: str, *, create: bool = False, new_id: Callable[[], str] | None = None
) -> Store:
    """Open a house, or make a new one.

    Args:
        url_or_path: a file's path, "postgresql://...", or ":memory:".
        create: make the house; there must be none yet.
        new_id: gives a new ledger its id, the first "digest before".

    Raises:
        Refusal: there is no house, or it cannot be opened; the sentence says what to do.
    """
    where = locate(url_or_path)
    return SqlStore(where, opening.open_house(where, create=create, new_id=new_id))
