"""Writes a booked season into a real ledger in bulk, and carries one from SQLite to PostgreSQL.

The house is made by the program, so that tables, head and guards are its own. The owner takes the
guards away, the rows go in many at once, and the guards stand again before anything is committed;
`audit` then has to pass on the result.
"""

import sqlite3
from collections.abc import Container, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Table, select

from honeyledger.ledger.canonical import Seal, text_of
from honeyledger.ledger.effects import (
    ARRIVED_AS_BEGAN,
    DRAWN_AS_BEGAN,
    TOUCHED_AS_BEGAN,
    TOUCHED_AS_ENDED,
)
from honeyledger.ledger.entry import Entry
from honeyledger.persistence import guards
from honeyledger.persistence.engine import for_writing, locate, make_engine
from honeyledger.persistence.rows import entry_row, lot_rows, origin_rows, posting_rows
from honeyledger.persistence.short import short
from honeyledger.persistence.short_rows import code_rows, mark_row, side_of
from honeyledger.persistence.store import open_store
from honeyledger.persistence.tables import (
    ARRIVED,
    CODE_GIVEN,
    DRAWN,
    ENTRY,
    HEAD,
    HOLDING,
    LAST_NUMBER,
    LOT,
    MARK,
    OPEN,
    ORIGIN,
    POSTING,
    PROJECTIONS,
    REVERSAL,
    STAY,
    TOUCHED,
    VOID_ORIGIN,
    WRITTEN_ONCE,
)
from tests.bench.memory_tables import Tables

Row = tuple[Any, ...]
AT_ONCE = 20_000


def make_house(path: Path, ledger_id: str) -> None:
    """A new, empty house, made by the program."""
    open_store(str(path), create=True, new_id=lambda: ledger_id).close()


class BulkFile:
    """A SQLite house that takes sealed entries many at once.

    Use it as a context manager: at a clean end the projections are written, the head is moved
    and the guards stand again, all in the one transaction everything was written in.
    """

    def __init__(self, path: Path) -> None:
        self._engine = make_engine(locate(str(path)))
        self._waiting: dict[Table, list[Row]] = {table: [] for table in WRITTEN_ONCE}

    def __enter__(self) -> "BulkFile":
        self._connection = for_writing(self._engine).connect()
        self._connection.begin()
        guards.drop(self._connection)
        return self

    def take(self, entry: Entry, seal: Seal) -> None:
        """One sealed entry with its rows."""
        rows = self._waiting
        rows[ENTRY].append(entry_row(entry, text_of(entry.facts), seal))
        rows[LOT] += lot_rows(entry)
        rows[POSTING] += posting_rows(entry)
        rows[ORIGIN] += origin_rows(entry)
        if len(rows[POSTING]) > AT_ONCE:
            self._write()

    def _write(self) -> None:
        for table, rows in self._waiting.items():
            _insert(self._connection, table, rows)
            rows.clear()

    def finish(self, tables: Tables, digest: str) -> None:
        """The projections and the head; then the guards, and the commit."""
        self._write()
        for table in PROJECTIONS:
            _insert(self._connection, table, sorted(projection_rows(table, tables)))
        end = {
            "entry": len(tables.entries),
            "lot": len(tables.lots),
            "digest": bytes.fromhex(digest),
        }
        self._connection.execute(HEAD.update().values(end))
        guards.install(self._connection)
        self._connection.commit()

    def __exit__(self, *_: object) -> None:
        self._connection.close()
        self._engine.dispose()


def _insert(connection: Connection, table: Table, rows: list[Row]) -> None:
    cursor = connection.connection.cursor()
    marks = ", ".join("?" for _ in table.columns)
    cursor.executemany(f"INSERT INTO {table.name} VALUES ({marks})", rows)


def projection_rows(table: Table, tables: Tables) -> Iterator[Row]:
    """A projection's rows, columns in the table's order."""
    yield from _ROWS[table](tables)


def _holding_rows(tables: Tables) -> Iterator[Row]:
    for lot, places in tables.holdings.items():
        for place, (grams, pieces) in places.items():
            if (side := side_of(place)) or grams or pieces:
                yield short(place), lot, side, grams, pieces


def _stay_rows(tables: Tables) -> Iterator[Row]:
    for (place, lot, entry), row in tables.stays.items():
        early_ms = 0 if row.latest_ms == OPEN else row.latest_ms - row.until_ms
        end = (early_ms, row.latest_ms, row.ended_by, row.told)
        yield short(place), lot, entry, row.since_ms, *end


def _arrived_rows(tables: Tables) -> Iterator[Row]:
    return _in_short(_untold(tables.arrived, _told(tables, ARRIVED_AS_BEGAN)))


def _drawn_rows(tables: Tables) -> Iterator[Row]:
    return _in_short(_untold(tables.drawn, _told(tables, DRAWN_AS_BEGAN)))


def _in_short(rows: Iterable[Row]) -> Iterator[Row]:
    return ((short(place), *row) for place, *row in rows)


def _touched_rows(tables: Tables) -> Iterator[Row]:
    told = {(place, at, by) for place, at, _, by in _told(tables, TOUCHED_AS_BEGAN)}
    for (place, _, _), row in tables.stays.items():
        if row.told & TOUCHED_AS_ENDED:
            told.add((place, row.until_ms, row.ended_by))
    return ((short(place), by, at) for place, at, by in _untold(tables.touched, told))


def _told(tables: Tables, bit: int) -> set[Row]:
    """What stays tell as they began."""
    return {
        (place, row.since_ms, lot, entry)
        for (place, lot, entry), row in tables.stays.items()
        if row.told & bit
    }


def _untold(places: Mapping[str, Iterable[Row]], told: Container[Row]) -> Iterator[Row]:
    """Rows by place that no stay tells."""
    every = ((place, *row) for place, rows in places.items() for row in rows)
    return (row for row in every if row not in told)


def _mark_rows(tables: Tables) -> Iterator[Row]:
    for subject, names in tables.marks.items():
        for name, marks in names.items():
            for mark in marks:
                yield mark_row((subject, name, mark.entry, mark.at_ms, mark.value))


def _void_rows(tables: Tables) -> Iterator[Row]:
    for (entry, line), by_entries in tables.voids.items():
        for by_entry in by_entries:
            yield entry, line, by_entry


_ROWS = {
    HOLDING: _holding_rows,
    STAY: _stay_rows,
    ARRIVED: _arrived_rows,
    DRAWN: _drawn_rows,
    TOUCHED: _touched_rows,
    MARK: _mark_rows,
    VOID_ORIGIN: _void_rows,
    REVERSAL: lambda tables: tables.reversals.items(),
    CODE_GIVEN: lambda tables: code_rows(tables.codes.items(), ()),
    LAST_NUMBER: lambda tables: ((*key, last) for key, last in tables.last_numbers.items()),
}


def carry_over(path: Path, url: str, ledger_id: str) -> None:
    """Copy a SQLite house into an empty PostgreSQL database, table by table, with COPY.

    The server's own clean-up would count the new rows within a minute; here it is asked to at
    once, so that its planner knows the tables as it does in a house at work.
    """
    open_store(url, create=True, new_id=lambda: ledger_id).close()
    engine = make_engine(locate(url))
    with engine.begin() as connection, sqlite3.connect(path) as source:
        guards.drop(connection)
        for table in (*WRITTEN_ONCE, *PROJECTIONS):
            names = ", ".join(column.name for column in table.columns)
            rows = source.execute(f"SELECT {names} FROM {table.name}")
            _copy(connection, table.name, names, rows)
        head = source.execute("SELECT entry, lot, digest FROM head").fetchone()
        end = dict(zip(("entry", "lot", "digest"), head, strict=True))
        connection.execute(HEAD.update().values(end))
        connection.exec_driver_sql("SET CONSTRAINTS ALL IMMEDIATE")
        guards.install(connection)
    with engine.connect() as connection:
        connection.execution_options(isolation_level="AUTOCOMMIT")
        connection.exec_driver_sql("VACUUM ANALYZE")
    engine.dispose()


def _copy(connection: Connection, table: str, names: str, rows: Iterable[Row]) -> None:
    cursor: Any = connection.connection.cursor()
    with cursor.copy(f"COPY {table} ({names}) FROM STDIN") as copy:
        for row in rows:
            copy.write_row(row)


def rows_of(connection: Connection, table: Table) -> list[Row]:
    """All rows of a table in the order of its key, for comparing two ledgers."""
    found = connection.execute(select(table).order_by(*table.primary_key))
    return [tuple(row) for row in found]
