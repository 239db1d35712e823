"""What the four tables say by themselves: the chain, every row's digest, and the sums.

Half of an audit, which needs none of the projections and none of what entries say, so that it can
be done by a process of its own (`apart`). Both halves look at the entries up to one head, since
two connections to a file may not see the same end of it.
"""

from collections.abc import Callable, Collection, Iterable, Iterator
from itertools import groupby, islice
from operator import itemgetter
from typing import TypeAlias

from sqlalchemy import select

from honeyledger.ledger import audit
from honeyledger.ledger.audit import Chain, Running, Stored
from honeyledger.persistence.broken import Broken
from honeyledger.persistence.reader import Reader
from honeyledger.persistence.statements import Row, Statement, the
from honeyledger.persistence.tables import ENTRY, LOT, ORIGIN, POSTING
from honeyledger.services.store import Head

Kept: TypeAlias = Collection[tuple[int, str]]
"""Heads kept elsewhere, as entry and the beginning of its digest."""

Told: TypeAlias = Callable[[int], None]
"""Is told how many entries are done."""

_AT_ONCE = 500
_FIRST = itemgetter(0)

ENTRY_ROWS = Statement(select(*ENTRY.c).where(ENTRY.c.id <= the("to")).order_by(ENTRY.c.id), "to")
_LOT_ROWS = Statement(
    select(LOT.c.made_by, *LOT.c)
    .where(LOT.c.made_by <= the("to"))
    .order_by(LOT.c.made_by, LOT.c.id),
    "to",
)
_POSTING_ROWS = Statement(
    select(*POSTING.c)
    .where(POSTING.c.entry <= the("to"))
    .order_by(POSTING.c.entry, POSTING.c.line),
    "to",
)
_ORIGIN_ROWS = Statement(
    select(*ORIGIN.c).where(ORIGIN.c.entry <= the("to")).order_by(ORIGIN.c.entry, ORIGIN.c.line),
    "to",
)
_BEYOND = {
    table.name: Statement(
        select(number).distinct().where(number > the("head")).order_by(number), "head"
    )
    for table, number in (
        (ENTRY, ENTRY.c.id),
        (LOT, LOT.c.made_by),
        (POSTING, POSTING.c.entry),
        (ORIGIN, ORIGIN.c.entry),
    )
}


class Rows:
    """The rows of one table, entry by entry; those of no entry are strays."""

    def __init__(self, table: str, rows: Iterable[Row]) -> None:
        self._table = table
        self._groups: Iterator[tuple[int, Iterator[Row]]] = groupby(rows, key=_FIRST)
        self._waiting: int | None = None
        self._rows: list[Row] = []
        self._step()

    def _step(self) -> None:
        """The next entry that has rows; None where there is none."""
        self._waiting, rows = next(self._groups, (None, ()))
        self._rows = [row[1:] for row in rows]

    def of(self, entry: int, broken: Broken) -> list[Row]:
        """The rows of an entry, without its id; strays before it are noted."""
        while self._waiting is not None and self._waiting < entry:
            self._stray(broken)
        if self._waiting != entry:
            return []
        rows = self._rows
        self._step()
        return rows

    def end(self, broken: Broken) -> None:
        """All that is left are strays."""
        while self._waiting is not None:
            self._stray(broken)

    def _stray(self, broken: Broken) -> None:
        line = f"entry {self._waiting}, {self._table}: there are rows, but no such entry"
        broken.add(audit.CHAINED, [line])
        self._step()


def all_stored(view: Reader, to: int, broken: Broken) -> Iterator[Stored]:
    """Entries by id up to one, with their rows; those of no entry are noted."""
    lots = Rows("lot", view.stream(_LOT_ROWS, to))
    postings = Rows("posting", view.stream(_POSTING_ROWS, to))
    origins = Rows("origin", view.stream(_ORIGIN_ROWS, to))
    for row in view.stream(ENTRY_ROWS, to):
        number = row[0]
        yield Stored(
            row,
            lots.of(number, broken),
            postings.of(number, broken),
            origins.of(number, broken),
        )
    for part in (lots, postings, origins):
        part.end(broken)


def check_rows(view: Reader, head: Head, kept: Kept, told: Told) -> tuple[Broken, bool]:
    """Every row of the four tables up to a head, and whether some are not as they were sealed.

    Entries are taken some hundreds at a time: one check over many is quicker than all over one.
    """
    broken, is_sound, done = Broken(), True, 0
    chain, running = Chain(head.ledger_id, kept), Running()
    entries = all_stored(view, head.entry, broken)
    while some := list(islice(entries, _AT_ONCE)):
        for stored in some:
            if lines := chain.follow(stored.row):
                broken.add(audit.CHAINED, lines)
        for name, found in audit.ROW_CHECKS.items():
            for stored in some:
                for line in found(stored):
                    broken.add(name, [line])
                    is_sound = False
        for stored in some:
            if lines := running.follow(stored):
                broken.add(audit.NEVER_OVERDRAWN, lines)
        done += len(some)
        told(done)
    broken.add(audit.CHAINED, chain.end(head.entry, head.digest))
    return broken, is_sound


def beyond(view: Reader, head: Head) -> Iterator[str]:
    """Rows of entries after the head: nobody sealed them."""
    for table, statement in _BEYOND.items():
        for (number,) in view.stream(statement, head.entry):
            yield f"entry {number}, {table}: it stands after the head, {head.entry}"


def follow_chain(view: Reader, broken: Broken, kept: Kept = ()) -> None:
    """The digests of all entries' own rows, from the ledger's id to the head."""
    head = view.head()
    chain = Chain(head.ledger_id, kept)
    for row in view.stream(ENTRY_ROWS, head.entry):
        if lines := chain.follow(row):
            broken.add(audit.CHAINED, lines)
    broken.add(audit.CHAINED, chain.end(head.entry, head.digest))
