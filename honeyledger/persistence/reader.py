"""The cursor of one view, and the head: what every group of questions reads with."""

from collections.abc import Iterator
from contextlib import closing
from typing import Any

from sqlalchemy import select

from honeyledger.domain.refusals import Damage
from honeyledger.persistence.rows import previous_text
from honeyledger.persistence.statements import Row, Statement
from honeyledger.persistence.tables import HEAD
from honeyledger.services.store import Head

_HEAD = Statement(select(HEAD.c.ledger_id, HEAD.c.entry, HEAD.c.lot, HEAD.c.digest))
_HEAD_LOCKED = Statement(
    select(HEAD.c.ledger_id, HEAD.c.entry, HEAD.c.lot, HEAD.c.digest).with_for_update()
)

_ROWS_AT_A_TIME = 5_000


class Reader:
    """Runs statements on one cursor, inside the transaction of a view or a unit of work."""

    def __init__(self, cursor: Any, engine: str, *, locks: bool = False) -> None:
        self._cursor = cursor
        self._engine = engine
        self._locks = locks
        self._head: Head | None = None
        self._streams = 0

    def _all(self, statement: Statement, *values: object) -> list[Row]:
        statement.run(self._cursor, self._engine, values)
        rows: list[Row] = self._cursor.fetchall()
        return rows

    def _one(self, statement: Statement, *values: object) -> Row | None:
        statement.run(self._cursor, self._engine, values)
        row: Row | None = self._cursor.fetchone()
        return row

    def stream(self, statement: Statement) -> Iterator[Row]:
        """All rows of a statement without values, a few thousand at a time, on its own cursor."""
        if self._engine == "sqlite":
            cursor = self._cursor.connection.cursor()
        else:
            # A named cursor stays on the server, which else would send everything at once.
            self._streams += 1
            cursor = self._cursor.connection.cursor(name=f"stream_{self._streams}")
            cursor.itersize = _ROWS_AT_A_TIME
        statement.run(cursor, self._engine, ())
        with closing(cursor):
            yield from cursor

    def head(self) -> Head:
        """The end of the chain."""
        if self._head is None:
            row = self._one(_HEAD_LOCKED if self._locks else _HEAD)
            if row is None:
                raise Damage("head: its row is missing")
            ledger_id, entry, lot, digest = row
            self._head = Head(ledger_id, entry, lot, previous_text(entry + 1, digest))
        return self._head

    @property
    def next_entry(self) -> int:
        """The id the next entry will have."""
        return self.head().entry + 1

    @property
    def next_lot(self) -> int:
        """The id the next lot will have."""
        return self.head().lot + 1
