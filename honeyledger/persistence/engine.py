"""Connections: one SQLite file (or memory), or a PostgreSQL database, opened the one safe way.

On SQLite every transaction begins with our own BEGIN: IMMEDIATE where it writes, plain where it
reads, since the driver's own way lets two writers lose each other's rows. On PostgreSQL a reader
sees one moment (REPEATABLE READ); a writer locks the head row (READ COMMITTED).
"""

import importlib.util
import sqlite3
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DisconnectionError
from sqlalchemy.pool import QueuePool, StaticPool

from honeyledger.domain.refusals import Refusal
from honeyledger.persistence import faults

MEMORY = ":memory:"
APPLICATION_ID = 0x486C6765  # "Hlge", written in the file's own header
BUSY_MS = 10_000
IDLE_S = 30
BEGIN, BEGIN_WRITING = "BEGIN", "BEGIN IMMEDIATE"
WRITES = "honeyledger_writes"  # execution option of a connection that will write
_STATEMENTS_KEPT = 512
_PLANNING = ("-c random_page_cost=1.1", "-c jit=off")
"""A house's tables stay in memory or on a fast disk, and no question is worth compiling."""


@dataclass(frozen=True, slots=True)
class Where:
    """Where a store is. `path` is None for PostgreSQL and for memory; `name` is for people."""

    url: URL
    path: Path | None
    name: str

    @property
    def is_sqlite(self) -> bool:
        """Whether SQLite keeps it, in a file or in memory."""
        return self.url.get_backend_name() == "sqlite"

    @property
    def in_memory(self) -> bool:
        """Whether it is gone when closed."""
        return self.is_sqlite and self.path is None


def locate(url_or_path: str) -> Where:
    """What a setting or an option means: a file's path, "postgresql://...", or ":memory:"."""
    if url_or_path.startswith(("postgresql:", "postgres:", "postgresql+psycopg:")):
        return _on_server(url_or_path)
    if url_or_path in (MEMORY, "sqlite://", "sqlite:///:memory:"):
        return Where(URL.create("sqlite"), None, "memory")
    if "://" in url_or_path and not url_or_path.startswith("sqlite:///"):
        raise Refusal(faults.NO_SUCH_STORE, field="house", where=url_or_path)
    if not url_or_path.strip():
        raise Refusal(faults.NO_SUCH_STORE, field="house", where="(nothing)")
    path = Path(url_or_path.removeprefix("sqlite:///")).expanduser().absolute()
    return Where(URL.create("sqlite", database=str(path)), path, str(path))


def _on_server(text: str) -> Where:
    scheme, _, rest = text.partition(":")
    try:
        url = make_url(f"postgresql+psycopg:{rest}")
    except (ArgumentError, ValueError) as error:
        raise Refusal(faults.NO_SUCH_STORE, field="house", where=f"{scheme}://...") from error
    if importlib.util.find_spec("psycopg") is None:
        raise Refusal(faults.NO_DRIVER, field="house")
    return Where(url, None, f"{url.database} on {url.host or 'this computer'}")


def make_engine(where: Where) -> Engine:
    """An engine that connects when first used."""
    if not where.is_sqlite:
        waiting = f"-c lock_timeout={BUSY_MS}"
        server = create_engine(
            where.url,
            isolation_level="READ COMMITTED",
            use_native_hstore=False,  # no column is one; looking for the type delays each start
            connect_args={
                "connect_timeout": 10,
                "application_name": "honeyledger",
                "options": " ".join([*_options_in(where.url), *_PLANNING, waiting]),
            },
        )
        event.listen(server, "checkout", _greet_after_a_pause)
        return server
    engine = create_engine(
        where.url,
        poolclass=StaticPool if where.in_memory else QueuePool,
        connect_args={
            "check_same_thread": False,
            "timeout": BUSY_MS / 1000,
            "cached_statements": _STATEMENTS_KEPT,
            "isolation_level": None,
        },
    )
    event.listen(engine, "connect", _prepare_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _options_in(url: URL) -> tuple[str, ...]:
    given = url.query.get("options", ())
    return (given,) if isinstance(given, str) else given


def _greet_after_a_pause(connection: Any, record: Any, _proxy: object) -> None:
    """A server may have been started anew over night: ask before using an idle connection.

    Asking every time would cost each entry a twentieth.
    """
    now = time.monotonic()
    if now - record.info.get("used", now) > IDLE_S:
        try:
            connection.execute("SELECT 1")
            connection.rollback()
        except connection.OperationalError as error:
            raise DisconnectionError from error
    record.info["used"] = now


def _prepare_sqlite(connection: sqlite3.Connection, _record: object) -> None:
    """Settings that SQLite forgets with every connection."""
    connection.isolation_level = None
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA recursive_triggers = ON")
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA cache_size = -65536")


def _begin_sqlite(connection: Connection) -> None:
    writes = connection.get_execution_options().get(WRITES)
    connection.exec_driver_sql(BEGIN_WRITING if writes else BEGIN)


def for_writing(engine: Engine) -> Engine:
    """The same engine, whose transactions take the write lock when they begin."""
    return engine.execution_options(**{WRITES: True})


def for_reading(engine: Engine) -> Engine:
    """The same engine, whose transactions see one moment and change nothing."""
    if engine.dialect.name == "sqlite":
        return engine
    return engine.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)
