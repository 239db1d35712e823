"""The audit over a store: each invariant by name, over every row, in one steady view.

It has two halves. The rows of the four tables are checked against what was sealed (`sealed`), in
a process of its own where that is quicker; here what entries say is tallied and held against the
projections. Where they differ, or a row is not what was sealed, the entries are replayed into an
empty database in memory, by the projector that works live, and both sets of projections are
compared row by row, so that what is wrong is named.
"""

import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from typing import Any, TypeAlias

from sqlalchemy import Select, Table, select
from sqlalchemy.engine import URL
from sqlalchemy.schema import CreateTable

from honeyledger.domain.refusals import BrokenRule, Damage
from honeyledger.ledger import audit
from honeyledger.ledger.audit import Stored
from honeyledger.ledger.effects import changes
from honeyledger.ledger.entry import Entry, Json
from honeyledger.ledger.holds_then import Gist, HoldsThen, broken_holds
from honeyledger.persistence.beside import Other, begun, pays_off
from honeyledger.persistence.broken import Broken
from honeyledger.persistence.engine import Where
from honeyledger.persistence.entry_queries import EntryQueries
from honeyledger.persistence.projections import Projector
from honeyledger.persistence.rows import entry_of, lot_of, value_of
from honeyledger.persistence.sealed import Kept, Rows, Told, all_stored, beyond, check_rows
from honeyledger.persistence.short import written, written_name
from honeyledger.persistence.short_values import written_value
from honeyledger.persistence.statements import Row, Statement, the
from honeyledger.persistence.tables import (
    ENTRY,
    LOT,
    MARK,
    ORIGIN,
    POSTING,
    PROJECTIONS,
    REVERSAL,
)
from honeyledger.persistence.tally import Tally
from honeyledger.services.store import Finding, Head

Progress: TypeAlias = Callable[[int, int], None]

DRY = "dry"
_AT_ONCE = 500
_NOTHING: Mapping[str, Json] = {}

_SAID = Statement(
    select(
        *(ENTRY.c.id, ENTRY.c.kind, ENTRY.c.happened_ms, ENTRY.c.unsure_ms),
        *(ENTRY.c.reverses, ENTRY.c.facts),
    )
    .where(ENTRY.c.id <= the("to"))
    .order_by(ENTRY.c.id),
    "to",
)
_MADE = Statement(
    select(LOT.c.made_by, *LOT.c)
    .where(LOT.c.made_by <= the("to"))
    .order_by(LOT.c.made_by, LOT.c.id),
    "to",
)
_POSTED = Statement(
    select(POSTING.c.entry, POSTING.c.lot, POSTING.c.place, POSTING.c.grams)
    .where(POSTING.c.entry <= the("to"))
    .order_by(POSTING.c.entry, POSTING.c.line),
    "to",
)
_LINES = Statement(select(ORIGIN.c.line).where(ORIGIN.c.entry == the("entry")), "entry")

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
_IN_WORDS: Mapping[str, Callable[[str], str]] = {
    "place": written,
    "subject": written,
    "name": written_name,
    "code": written,
}
"""How columns of a key are read that are stored in short forms."""
_STORED = {table.name: Statement(select(*table.c)) for table in PROJECTIONS}
_PROJECTED = {table.name: (table, Statement(_by_key(table))) for table in PROJECTIONS}


class Replay:
    """The entries once more, into projections of their own in memory."""

    def __init__(self, find: Callable[[int], Entry | None]) -> None:
        self._connection = sqlite3.connect(":memory:", isolation_level=None)
        dialect = URL.create("sqlite").get_dialect()()
        for table in PROJECTIONS:
            self._connection.execute(str(CreateTable(table).compile(dialect=dialect)))
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
    kept: Kept = (),
    progress: Progress | None = None,
    where: Where | None = None,
) -> list[Finding]:
    """Every invariant over a view.

    Args:
        guards_missing: names of guards found gone or changed.
        kept: heads kept elsewhere, as entry and the beginning of its digest.
        progress: told how many entries are done, and of how many.
        where: the house, where a process of its own may check the rows of the four tables.
    """
    broken, head = Broken(), view.head()
    broken.add(
        audit.WRITTEN_ONCE, (f"guard {name} is not as installed" for name in guards_missing)
    )
    shown = Shown(head.entry, progress)
    with _begun(where, head, kept) as other:
        meaning = Meaning(view, broken)
        meaning.follow(head, lambda done: shown.told(done, other.done() if other else 0))
        is_in_doubt = meaning.ends_in_doubt()
        found = other.found(lambda done: shown.told(head.entry, done)) if other else None
    if found is None:
        if where is not None:
            view.check_file(where)
        found = check_rows(view, head, kept, lambda done: shown.told(head.entry, done))
    shown.told(head.entry, head.entry)
    rows, is_sound = found
    broken.add_all(rows)
    broken.add(audit.CHAINED, beyond(view, head))
    if is_in_doubt or not is_sound:
        _replay(view, broken, shown)
    broken.add(audit.BALANCED, _total(view))
    broken.add(audit.HELD_MEANS_HELD, _held(view, meaning.held))
    return broken.findings()


def _begun(where: Where | None, head: Head, kept: Kept) -> AbstractContextManager[Other | None]:
    """The other half in a process of its own, where that is quicker."""
    if where is not None and pays_off(where, head.entry):
        return begun(where, head, kept)
    return nullcontext()


class Shown:
    """Progress of two halves as one: as many entries as both have done, every now and then."""

    def __init__(self, of: int, progress: Progress | None) -> None:
        self._of = of
        self._progress = progress
        self._last = 0

    def told(self, *done: int) -> None:
        """How far each half has come."""
        both = sum(done) // 2
        if self._progress and (both - self._last >= _AT_ONCE or both == self._of > self._last):
            self._progress(both, self._of)
            self._last = both

    def again(self) -> Told:
        """The same for a third way through the entries."""
        third = Shown(self._of, self._progress)
        return lambda done: third.told(done, done)


class Meaning:
    """What entries say against the projections, the holds and the solids.

    Entries are read by what matters of them: a whole one is made only where one dries or undoes.
    """

    def __init__(self, view: EntryQueries, broken: Broken) -> None:
        self._view = view
        self._broken = broken
        self._tally = Tally(view.entry, {row[0] for row in view.stream(_REVERSED)})
        self._in_doubt = False
        self.held = HoldsThen()

    def follow(self, head: Head, told: Told) -> None:
        """All entries up to the head."""
        strays = Broken()  # which the rows' own check names
        stream = self._view.stream
        made = Rows("lot", stream(_MADE, head.entry))
        postings = Rows("posting", stream(_POSTED, head.entry))
        for done, row in enumerate(stream(_SAID, head.entry), 1):
            number = row[0]
            try:
                self._take(row, made.of(number, strays), postings.of(number, strays))
            except _UNREADABLE:
                self._in_doubt = True
            if done % _AT_ONCE == 0:
                told(done)

    def _take(self, row: Row, made: list[Row], postings: list[Row]) -> None:
        number, kind, at_ms, unsure_ms, reverses, facts = row
        effects = value_of(facts).get("effects", _NOTHING)
        if kind == DRY:
            entry = self._view.entry(number)
            assert entry
            self._broken.add(audit.DRY_KEEPS_SOLIDS, audit.check_dry(entry))
        pulls = [lot_of(lot) for lot in made if lot[2] == "S"] if made else ()
        self.held.follow(Gist(number, kind, reverses, effects, pulls, postings))
        if not self._in_doubt:
            told = changes(number, reverses, (at_ms, unsure_ms), postings, effects)
            lines = [line for (line,) in self._view.stream(_LINES, number)] if reverses else ()
            self._tally.follow(told, number, lines, [lot[1] for lot in made])

    def ends_in_doubt(self) -> bool:
        """Whether the projections are not surely what the entries make of them."""
        return self._in_doubt or self._tally.differs(
            lambda table: self._view.stream(_STORED[table.name])
        )


def _entry(stored: Stored) -> Entry:
    return entry_of(
        stored.row,
        stored.lots,
        ((stored.id, *row) for row in stored.postings),
        ((stored.id, *row) for row in stored.origins),
    )


def _replay(view: EntryQueries, broken: Broken, shown: Shown) -> None:
    """The entries once more, as far as they can be; then every row of the projections."""
    replay, told = Replay(view.entry), shown.again()
    try:
        for done, stored in enumerate(all_stored(view, view.head().entry, Broken()), 1):
            try:
                replay.apply(_entry(stored))
            except _UNREADABLE as error:
                line = f"entry {stored.id}: it cannot be replayed ({error})"
                broken.add(audit.REBUILT, [line])
                return
            told(done)
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
                stands, should = _beside_key(table, have), _beside_key(table, want)
                yield f"{_named(table, names, have)}: it says {stands}, a replay says {should}"
            have, want = next(stored, None), next(made, None)


def _named(table: Table, names: Sequence[str], row: Row) -> str:
    key = ", ".join(
        f"{name} {_IN_WORDS.get(name, str)(value)}"
        for name, value in zip(names, row, strict=False)
    )
    return f"{table.name}, {key}"


def _beside_key(table: Table, row: Row) -> Row:
    """What a row says beside its key, for a person to read."""
    told = row[len(table.primary_key) :]
    if table is MARK:
        at_ms, value = told
        return at_ms, written_value(value, at_ms)
    return told


def _total(view: EntryQueries) -> Iterator[str]:
    total_g = view.total_g()
    if total_g:
        yield f"holding: all places together are {total_g:+} g, not 0 g"


def _held(view: EntryQueries, held: HoldsThen) -> list[str]:
    try:
        return broken_holds(view, held.dispatched.values())
    except _UNREADABLE as error:
        return [f"holds cannot be read ({error})"]
