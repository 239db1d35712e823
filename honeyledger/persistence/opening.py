"""Opening a house: what must be true of the file or database before anything is asked of it."""

import os
import sqlite3
import uuid
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, inspect

from honeyledger.domain.refusals import Refusal, Sentence
from honeyledger.persistence import faults, guards
from honeyledger.persistence.engine import APPLICATION_ID, Where, for_writing, make_engine
from honeyledger.persistence.faults import faults_named, file_faults_named
from honeyledger.persistence.rows import previous_bytes
from honeyledger.persistence.tables import HEAD, METADATA

REVISIONS = ("0001", "0002", "0003", "0004")
"""Every revision of the schema there has been, as in `migrations`."""

REVISION = REVISIONS[-1]
"""The one this program reads and writes."""

CHECKED_AT_START = 4 * 1024 * 1024
"""Bytes up to which a file is checked whole at every start; larger ones are when audited."""

PAGE = 8192
"""Bytes of a page in a new file. An entry is some 600 long and is not split, so that of SQLite's
usual 4096 an eighth would be empty.
"""

_TABLES = {
    "sqlite": "SELECT name FROM sqlite_master WHERE type = 'table'",
    "postgresql": (
        "SELECT relname FROM pg_class"
        " WHERE relkind = 'r' AND relnamespace = current_schema()::regnamespace"
    ),
}
"""What tables there are: SQLAlchemy would ask for each by itself, in three times the time."""

_ROW_FAULTS = ("CHECK constraint failed in ", " value in ")


@dataclass(frozen=True, slots=True)
class Opened:
    """A house that is fit to work with, and what was found about it."""

    engine: Engine
    guards_missing: tuple[str, ...]
    journal_mode: str


def open_house(where: Where, *, create: bool, new_id: Callable[[], str] | None = None) -> Opened:
    """Open a house, or make it; `new_id` gives a new ledger its id.

    Raises:
        Refusal: it cannot be opened or made; the sentence says what to do.
    """
    if where.path is not None:
        look_at_file(where.path, create=create)
    engine = make_engine(where)
    try:
        with faults_named(where.name), file_faults_named(where.name):
            if create:
                _make(engine, where, new_id or (lambda: uuid.uuid4().hex))
            with engine.connect() as connection:
                _check(connection, where)
                return Opened(engine, guards.missing(connection), _journal_mode(connection))
    except BaseException:
        engine.dispose()
        raise


def _journal_mode(connection: Connection) -> str:
    """How SQLite keeps unfinished work: asked back, since a drive may not let it have its way.

    A backup is one file by itself, so that a house begun from one is set to share again.
    """
    if connection.dialect.name != "sqlite":
        return ""
    connection.rollback()  # SQLite does not change it inside a transaction
    raw = connection.connection.driver_connection
    assert isinstance(raw, sqlite3.Connection)
    mode = str(raw.execute("PRAGMA journal_mode").fetchone()[0])
    if mode in ("wal", "memory"):
        return mode
    try:
        return str(raw.execute("PRAGMA journal_mode = WAL").fetchone()[0])
    except sqlite3.OperationalError:
        return mode  # somebody else has it open so


def _refuse(sentence: Sentence, where: str, what: str = "") -> Refusal:
    return Refusal(sentence, field="house", where=where, what=what)


def look_at_file(path: Path, *, create: bool) -> None:
    """Refuse a path that cannot be a house, before SQLite is asked and makes it one."""
    name = str(path)
    folder = path.parent
    if path.is_dir():
        raise _refuse(faults.NOT_A_HOUSE, name)
    if not folder.is_dir():
        raise _refuse(
            faults.NO_FOLDER if create else faults.NO_HOUSE, str(folder if create else path)
        )
    if create and path.exists():
        raise _refuse(faults.HOUSE_EXISTS, name)
    if not create and not path.exists():
        raise _refuse(faults.NO_HOUSE, name)
    if not os.access(folder, os.W_OK) or (path.exists() and not os.access(path, os.W_OK)):
        raise _refuse(faults.NOT_WRITABLE, str(folder))


def _make(engine: Engine, where: Where, new_id: Callable[[], str]) -> None:
    """All tables, the head and the guards, in one transaction; nothing is left of a failed try."""
    if where.path is not None:
        with engine.connect() as connection:
            raw = connection.connection.driver_connection
            assert isinstance(raw, sqlite3.Connection)
            raw.execute(f"PRAGMA page_size = {PAGE}")
            raw.execute("PRAGMA journal_mode = WAL")
            raw.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    try:
        with for_writing(engine).begin() as connection:
            if inspect(connection).has_table("head"):
                raise _refuse(faults.HOUSE_EXISTS, where.name)
            build(connection, new_id())
    except BaseException:
        if where.path is not None:
            engine.dispose()
            for end in ("", "-wal", "-shm"):
                Path(f"{where.path}{end}").unlink(missing_ok=True)
        raise


def build(connection: Connection, ledger_id: str) -> None:
    """A new, empty ledger: its first digest before is the ledger's own id."""
    METADATA.create_all(connection, checkfirst=False)
    first = {
        "id": 1,
        "ledger_id": ledger_id,
        "entry": 0,
        "lot": 0,
        "digest": previous_bytes(1, ledger_id),
    }
    connection.execute(HEAD.insert().values(first))
    guards.install(connection)
    connection.exec_driver_sql(
        "CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL,"
        " CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
    )
    connection.exec_driver_sql(f"INSERT INTO alembic_version VALUES ('{REVISION}')")


def revision_of(connection: Connection, where: Where) -> str:
    """The revision of a house's schema, by a plain look: Alembic is slow to load."""
    known = {str(name) for (name,) in connection.exec_driver_sql(_TABLES[connection.dialect.name])}
    if not {"alembic_version", "head"} <= known:
        # An empty database waits for its house, as a path does where no file is yet.
        is_empty = not where.is_sqlite and not known
        raise _refuse(faults.NO_HOUSE if is_empty else faults.NOT_A_HOUSE, where.name)
    row = connection.exec_driver_sql("SELECT version_num FROM alembic_version").fetchone()
    if row is None:
        raise _refuse(faults.NOT_A_HOUSE, where.name)
    return str(row[0])


def _check(connection: Connection, where: Where) -> None:
    """Refuse what is not a house of this version, or not whole."""
    revision = revision_of(connection, where)
    if revision in REVISIONS[:-1]:
        raise _refuse(faults.OLDER_HOUSE, where.name)
    if revision != REVISION:
        raise _refuse(faults.NEWER_HOUSE, where.name)
    if where.path is not None and where.path.stat().st_size <= CHECKED_AT_START:
        with closing(connection.connection.cursor()) as cursor:
            check_file(cursor, where)


def check_file(cursor: Any, where: Where) -> None:
    """Refuse a file whose pages do not fit together.

    A row that breaks a constraint was changed by somebody: the audit names it, so it must open.
    """
    lines = [line for (line,) in cursor.execute("PRAGMA quick_check")]
    torn = [line for line in lines if not any(fault in line for fault in _ROW_FAULTS)]
    if torn and torn != ["ok"]:
        raise _refuse(faults.DAMAGED, where.name, what=torn[0].replace("\n", " "))
