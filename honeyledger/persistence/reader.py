"""The cursor of one view, and the head: what every group of questions reads with."""

from collections.abc import Iterator
from contextlib import ExitStack, closing
from typing import Any

from sqlalchemy import select

from honeyledger.domain.refusals import Damage
from honeyledger.persistence.engine import Where
from honeyledger.persistence.opening import check_file
from honeyledger.persistence.remembered import Memory, Remembered
from honeyledger.persistence.rows import previous_text
from honeyledger.persistence.statements import Row, Statement, together
from honeyledger.persistence.tables import HEAD
from honeyledger.services.store import Head

_HEAD = Statement(select(HEAD.c.ledger_id, HEAD.c.entry, HEAD.c.lot, HEAD.c.digest))
_HEAD_LOCKED = Statement(
    select(HEAD.c.ledger_id, HEAD.c.entry, HEAD.c.lot, HEAD.c.digest).with_for_update()
)

_ROWS_AT_A_TIME = 5_000


class Reader:
    """Runs statements on one cursor, inside the transaction of a view or a unit of work."""

    def __init__(
        self, cursor: Any, engine: str, *, locks: bool = False, memory: Memory | None = None
    ) -> None:
        self._cursor = cursor
        self._engine = engine
        self._locks = locks
        self._head: Head | None = None
        self._memory = memory or Memory()
        self._recalled: Remembered | None = None
        self._streams = 0

    def _all(self, statement: Statement, *values: object) -> list[Row]:
        statement.run(self._cursor, self._engine, values)
        rows: list[Row] = self._cursor.fetchall()
        return rows

    def _one(self, statement: Statement, *values: object) -> Row | None:
        statement.run(self._cursor, self._engine, values)
        row: Row | None = self._cursor.fetchone()
        return row

    def _each(self, *asked: tuple[Statement, Row]) -> list[list[Row]]:
        """The answers to several questions, for which a server is gone to once."""
        if self._engine == "sqlite":
            return [self._all(statement, *values) for statement, values in asked]
        with ExitStack() as cursors:
            answers = []
            with together(self._cursor, self._engine):
                for statement, values in asked:
                    answers.append(
                        cursors.enter_context(closing(self._cursor.connection.cursor()))
                    )
                    statement.run(answers[-1], self._engine, values)
            return [answer.fetchall() for answer in answers]

    def stream(self, statement: Statement, *values: object) -> Iterator[Row]:
        """All rows of a statement, a few thousand at a time, on a cursor of its own."""
        if self._engine == "sqlite":
            cursor = self._cursor.connection.cursor()
        else:
            # A named cursor stays on the server, which else would send everything at once.
            self._streams += 1
            cursor = self._cursor.connection.cursor(name=f"stream_{self._streams}")
            cursor.itersize = _ROWS_AT_A_TIME
        statement.run(cursor, self._engine, values)
        with closing(cursor):
            yield from cursor

    def check_file(self, where: Where) -> None:
        """Refuse a file whose pages do not fit together; a server sees to its own."""
        if where.path is not None:
            check_file(self._cursor, where)

    def head(self) -> Head:
        """The end of the chain."""
        if self._head is None:
            # By `_each` the transaction begins on the same journey.
            (rows,) = self._each((_HEAD_LOCKED if self._locks else _HEAD, ()))
            if not rows:
                raise Damage("head: its row is missing")
            ledger_id, entry, lot, digest = rows[0]
            self._head = Head(ledger_id, entry, lot, previous_text(entry + 1, digest))
        return self._head

    def _remembered(self) -> Remembered:
        """What views before this one have read at the same end of the chain."""
        if self._recalled is None:
            self._recalled = self._memory.at(self.head().digest)
        return self._recalled

    @property
    def next_entry(self) -> int:
        """The id the next entry will have."""
        return self.head().entry + 1

    @property
    def next_lot(self) -> int:
        """The id the next lot will have."""
        return self.head().lot + 1
