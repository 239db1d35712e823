"""The audit over a store: each invariant by name, over every row, in one steady view.

Every entry is followed along the chain, checked with all its rows, and tallied; then the tally is
held against the projections. Where they differ, or an entry could not be tallied, the entries are
replayed into an empty database in memory, by the projector that works live, and both sets of
projections are compared row by row, so that what is wrong is named.
"""

import sqlite3
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from itertools import groupby, islice
from operator import itemgetter
from typing import Any, TypeAlias

from sqlalchemy import Select, Table, select
from sqlalchemy.engine import URL
from sqlalchemy.schema import CreateIndex, CreateTable

from honeyledger.domain.refusals import BrokenRule, Damage
from honeyledger.ledger import audit
from honeyledger.ledger.audit import Chain, Running, Stored
from honeyledger.ledger.effects import Changes, changes
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.holds_then import HoldsThen, broken_holds, concerns
from honeyledger.persistence.entry_queries import EntryQueries
from honeyledger.persistence.projections import Projector
from honeyledger.persistence.rows import entry_of, value_of, written_out
from honeyledger.persistence.statements import Row, Statement
from honeyledger.persistence.tables import (
    ENTRY,
    LOT,
    ORIGIN,
    POSTING,
    PROJECTIONS,
    REVERSAL,
)
from honeyledger.persistence.tally import Tally
from honeyledger.services.store import Finding

Progress: TypeAlias = Callable[[int, int], None]

MOST_NAMED = 50
"""How many broken rows an invariant names before it only counts them."""

DRY = "dry"
_AT_ONCE = 500
_FACTS = 13
"""Where an entry's facts stand in its row."""

_ENTRY_ROWS = Statement(select(*ENTRY.c).order_by(ENTRY.c.id))
_LOT_ROWS = Statement(select(LOT.c.made_by, *LOT.c).order_by(LOT.c.made_by, LOT.c.id))
_POSTING_ROWS = Statement(select(*POSTING.c).order_by(POSTING.c.entry, POSTING.c.line))
_ORIGIN_ROWS = Statement(select(*ORIGIN.c).order_by(ORIGIN.c.entry, ORIGIN.c.line))

# What a row that was tampered with can bring about while it is read as an entry.
_UNREADABLE = (
    *(Damage, BrokenRule, sqlite3.Error),
    *(AssertionError, ValueError, TypeError, KeyError, AttributeError),
)


def _by_key(table: Table) -> Select[Any]:
    key = list(table.primary_key)
    rest = [column for column in table.columns if column not in key]
    return select(*key, *rest).order_by(*key)


_REVERSED = Statement(select(REVERSAL.c.entry))
_STORED = {table.name: Statement(select(*table.c)) for table in PROJECTIONS}
_PROJECTED = {table.name: (table, Statement(_by_key(table))) for table in PROJECTIONS}


class Broken:
    """What is broken, by invariant: the first ones by name, the others counted."""

    def __init__(self) -> None:
        self._named: dict[str, list[str]] = {name: [] for name in audit.INVARIANTS}
        self._more = dict.fromkeys(audit.INVARIANTS, 0)

    def add(self, name: str, lines: Iterable[str]) -> None:
        """Note broken rows of an invariant."""
        for line in lines:
            if len(self._named[name]) < MOST_NAMED:
                self._named[name].append(line)
            else:
                self._more[name] += 1

    def findings(self) -> list[Finding]:
        """One finding an invariant, in the list's order."""
        found = []
        for name, lines in self._named.items():
            more = [f"and {self._more[name]} more"] if self._more[name] else []
            found.append(Finding(name, not lines, (*lines, *more)))
        return found


class Rows:
    """The rows of one table, entry by entry; those of no entry are strays."""

    def __init__(self, table: str, rows: Iterable[Row]) -> None:
        self._table = table
        self._groups: Iterator[tuple[int, Iterator[Row]]] = groupby(rows, key=itemgetter(0))
        self._waiting: tuple[int, list[Row]] | None = None
        self._step()

    def _step(self) -> None:
        group = next(self._groups, None)
        self._waiting = (group[0], [row[1:] for row in group[1]]) if group else None

    def of(self, entry: int, broken: Broken) -> list[Row]:
        """The rows of an entry, without its id; strays before it are noted."""
        while self._waiting and self._waiting[0] < entry:
            self._stray(broken)
        if not self._waiting or self._waiting[0] != entry:
            return []
        rows = self._waiting[1]
        self._step()
        return rows

    def end(self, broken: Broken) -> None:
        """All that is left are strays."""
        while self._waiting:
            self._stray(broken)

    def _stray(self, broken: Broken) -> None:
        assert self._waiting
        line = f"entry {self._waiting[0]}, {self._table}: there are rows, but no such entry"
        broken.add(audit.CHAINED, [line])
        self._step()


class Replay:
    """The entries once more, into projections of their own in memory."""

    def __init__(self, find: Callable[[int], Entry | None]) -> None:
        self._connection = sqlite3.connect(":memory:", isolation_level=None)
        dialect = URL.create("sqlite").get_dialect()()
        for table in PROJECTIONS:
            self._connection.execute(str(CreateTable(table).compile(dialect=dialect)))
            for index in table.indexes:
                if index.unique:
                    self._connection.execute(str(CreateIndex(index).compile(dialect=dialect)))
        self._connection.execute("BEGIN")
        self._projector = Projector(self._connection.cursor(), "sqlite", find)

    def apply(self, entry: Entry) -> None:
        """Carry the entry out."""
        self._projector.apply(entry)

    def rows(self, statement: Statement) -> Iterator[Row]:
        """All rows of a projection, by key."""
        cursor = self._connection.cursor()
        statement.run(cursor, "sqlite", ())
        return iter(cursor)

    def close(self) -> None:
        """Let go of the memory."""
        self._connection.close()


def check(
    view: EntryQueries,
    guards_missing: Sequence[str],
    kept: Collection[tuple[int, str]] = (),
    progress: Progress | None = None,
) -> list[Finding]:
    """Every invariant over a view.

    Args:
        guards_missing: names of guards found gone or changed.
        kept: heads kept elsewhere, as entry and the beginning of its digest.
        progress: told how many entries are done, and of how many.
    """
    broken = Broken()
    broken.add(
        audit.WRITTEN_ONCE, (f"guard {name} is not as installed" for name in guards_missing)
    )
    held, in_doubt = _check_entries(view, broken, kept, progress)
    if in_doubt:
        _replay(view, broken, progress)
    broken.add(audit.BALANCED, _total(view))
    broken.add(audit.HELD_MEANS_HELD, _held(view, held))
    return broken.findings()


def follow_chain(
    view: EntryQueries, broken: Broken, kept: Collection[tuple[int, str]] = ()
) -> None:
    """The digests of all entries' own rows, from the ledger's id to the head."""
    head = view.head()
    chain = Chain(head.ledger_id, kept)
    for row in view.stream(_ENTRY_ROWS):
        lines = chain.follow(written_out(row))
        if lines:
            broken.add(audit.CHAINED, lines)
    broken.add(audit.CHAINED, chain.end(head.entry, head.digest))


def _check_entries(
    view: EntryQueries,
    broken: Broken,
    kept: Collection[tuple[int, str]],
    progress: Progress | None,
) -> tuple[HoldsThen, bool]:
    """Every entry with all its rows: what was held when, and whether projections are in doubt."""
    sweep = Sweep(view, broken, kept)
    entries = _all_stored(view, broken, progress)
    while some := list(islice(entries, _AT_ONCE)):
        sweep.take(some)
    return sweep.held, sweep.ends_in_doubt()


class Sweep:
    """Checks entries some hundreds at a time: one check over many is quicker than all over one."""

    def __init__(
        self, view: EntryQueries, broken: Broken, kept: Collection[tuple[int, str]]
    ) -> None:
        self._view = view
        self._broken = broken
        self._chain = Chain(view.head().ledger_id, kept)
        self._running = Running()
        self._tally = Tally(view.entry, {row[0] for row in view.stream(_REVERSED)})
        self._in_doubt = False
        self.held = HoldsThen()

    def take(self, some: Sequence[Stored]) -> None:
        """The next entries."""
        for stored in some:
            if lines := self._chain.follow(stored.row):
                self._broken.add(audit.CHAINED, lines)
        unsound = set()
        for name, found in audit.ROW_CHECKS.items():
            for stored in some:
                for line in found(stored):
                    self._broken.add(name, [line])
                    unsound.add(stored.id)
        for stored in some:
            if lines := self._running.follow(stored):
                self._broken.add(audit.NEVER_OVERDRAWN, lines)
        for stored in some:
            try:
                self._follow(stored, is_sound=stored.id not in unsound)
            except _UNREADABLE:
                self._in_doubt = True

    def _follow(self, stored: Stored, *, is_sound: bool) -> None:
        effects = value_of(stored.row[_FACTS]).get("effects", {})
        if stored.row[1] == DRY or not is_sound or concerns(stored, effects):
            self._broken.add(audit.DRY_KEEPS_SOLIDS, _followed(_entry(stored), self.held))
        if not self._in_doubt:
            lines = [row[0] for row in stored.origins]
            self._tally.follow(_changes(stored, effects), stored.id, lines)

    def ends_in_doubt(self) -> bool:
        """Whether the projections are not surely what the entries make of them."""
        head = self._view.head()
        self._broken.add(audit.CHAINED, self._chain.end(head.entry, head.digest))
        if self._in_doubt:
            return True
        return self._tally.differs(lambda table: self._view.stream(_STORED[table.name]))


def _all_stored(view: EntryQueries, broken: Broken, progress: Progress | None) -> Iterator[Stored]:
    """Entries by id with their rows; those of no entry are noted."""
    lots = Rows("lot", view.stream(_LOT_ROWS))
    postings = Rows("posting", view.stream(_POSTING_ROWS))
    origins = Rows("origin", view.stream(_ORIGIN_ROWS))
    count = view.head().entry
    for done, row in enumerate(view.stream(_ENTRY_ROWS), 1):
        number = row[0]
        yield Stored(
            written_out(row),
            lots.of(number, broken),
            postings.of(number, broken),
            origins.of(number, broken),
        )
        if progress and (done % 500 == 0 or done == count):
            progress(done, max(done, count))
    for part in (lots, postings, origins):
        part.end(broken)


def _changes(stored: Stored, effects: Mapping[str, Json]) -> Changes:
    """What an entry changes, without making one of its rows."""
    row = stored.row
    postings = ((lot, place, grams) for _, lot, place, grams in stored.postings)
    return changes(stored.id, row[12], (row[2], row[11]), postings, effects)


def _entry(stored: Stored) -> Entry:
    return entry_of(
        stored.row,
        stored.lots,
        ((stored.id, *row) for row in stored.postings),
        ((stored.id, *row) for row in stored.origins),
    )


def _followed(entry: Entry, held: HoldsThen) -> list[str]:
    """What is wrong with the solids of an entry; its holds are followed."""
    lines = list(audit.check_dry(entry)) if entry.kind == DRY else []
    held.follow(entry)
    return lines


def _replay(view: EntryQueries, broken: Broken, progress: Progress | None) -> None:
    """The entries once more, as far as they can be; then every row of the projections."""
    replay, held = Replay(view.entry), HoldsThen()
    try:
        for stored in _all_stored(view, Broken(), progress):
            try:
                entry = _entry(stored)
                _followed(entry, held)
                replay.apply(entry)
            except _UNREADABLE as error:
                line = f"entry {stored.id}: it cannot be replayed ({error})"
                broken.add(audit.REBUILT, [line])
                return
        broken.add(audit.REBUILT, _compared(view, replay))
    finally:
        replay.close()


def _compared(view: EntryQueries, replay: Replay) -> Iterator[str]:
    """Rows of the projections that are not what the replay made."""
    for table, statement in _PROJECTED.values():
        yield from _differences(table, view.stream(statement), replay.rows(statement))


def _differences(table: Table, stored: Iterator[Row], made: Iterator[Row]) -> Iterator[str]:
    width = len(table.primary_key)
    names = [column.name for column in table.primary_key]
    have, want = next(stored, None), next(made, None)
    while have is not None or want is not None:
        if want is None or (have is not None and have[:width] < want[:width]):
            assert have is not None
            yield f"{_named(table, names, have)}: it should not be there"
            have = next(stored, None)
        elif have is None or want[:width] < have[:width]:
            yield f"{_named(table, names, want)}: it is missing"
            want = next(made, None)
        else:
            if tuple(have) != tuple(want):
                stands, should = have[width:], want[width:]
                yield f"{_named(table, names, have)}: it says {stands}, a replay says {should}"
            have, want = next(stored, None), next(made, None)


def _named(table: Table, names: Sequence[str], row: Row) -> str:
    key = ", ".join(f"{name} {value}" for name, value in zip(names, row, strict=False))
    return f"{table.name}, {key}"


def _total(view: EntryQueries) -> Iterator[str]:
    total_g = view.total_g()
    if total_g:
        yield f"holding: all places together are {total_g:+} g, not 0 g"


def _held(view: EntryQueries, held: HoldsThen) -> list[str]:
    try:
        return broken_holds(view, held.dispatched.values())
    except _UNREADABLE as error:
        return [f"holds cannot be read ({error})"]
