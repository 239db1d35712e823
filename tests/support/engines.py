"""Where a test's houses stand: with SQLite, or on a real PostgreSQL server.

`pytest --engine postgresql` runs the same tests there. Each house then has a schema of its own in
one database, made by the program's own statements sent at once, which takes a third of the time
of a database of its own. What a test made is closed and taken down when it ends; a schema that is
still as it was made is emptied instead, and is the next test's, with its connections.
"""

import atexit
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any, Protocol, TypeAlias

import psycopg
import pytest
import sqlalchemy
from sqlalchemy import event
from sqlalchemy.pool import Pool

from honeyledger.persistence import opening
from honeyledger.persistence.engine import Where, locate, make_engine
from honeyledger.persistence.guards import POSTGRESQL_GUARDS, SQLITE_GUARDS
from honeyledger.persistence.store import open_store
from honeyledger.persistence.tables import HEAD, METADATA
from honeyledger.services.store import Store
from tests.support import server

SQLITE, POSTGRESQL = ENGINES = ("sqlite", "postgresql")
LEDGER_ID = "ledger-1"

Client: TypeAlias = Callable[..., None]
"""Runs statements at a house's address, which it knows already."""


class Engine(Protocol):
    """Gives houses an address, and builds them there."""

    def address(self, path: Path | None) -> str:
        """Where a house may be made; the path is of a file, where that means something."""

    def build(self, address: str, ledger_id: str) -> Store:
        """A new, empty house at an address, open."""

    def house(self, ledger_id: str) -> "Place":
        """A new, empty house somewhere, open."""

    def copy(self, address: str, path: Path) -> str:
        """Where a copy of a closed house now stands."""

    def take_down(self, address: str) -> None:
        """Nothing is left of a closed house."""

    def take_back(self, place: "Place") -> None:
        """A house that `house` gave is nobody's any more."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a house stands, and the store that is open on it."""

    address: str
    store: Store


class Sqlite:
    """Houses in memory, and in files, which go with the folder of their test.

    The first of each kind is made by the program; the next is that one again, byte for byte.
    """

    def __init__(self) -> None:
        self._made: dict[tuple[bool, str], bytes] = {}
        self._make = opening._make

    def address(self, path: Path | None) -> str:
        return str(path or ":memory:")

    def build(self, address: str, ledger_id: str) -> Store:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(opening, "_make", self._make_again)
            return open_store(address, create=True, new_id=lambda: ledger_id)

    def _make_again(self, engine: sqlalchemy.Engine, where: Where, new_id: Any) -> None:
        kind = where.in_memory, new_id()
        made = self._made.get(kind)
        if made is None:
            self._make(engine, where, new_id)
        elif where.path is not None:
            where.path.write_bytes(made)
            return
        with engine.connect() as connection:
            raw: Any = connection.connection.driver_connection
            if made is None:
                self._made[kind] = raw.serialize()
            else:
                raw.deserialize(made)

    def house(self, ledger_id: str) -> Place:
        return Place(":memory:", self.build(":memory:", ledger_id))

    def copy(self, address: str, path: Path) -> str:
        shutil.copy(address, path)
        return str(path)

    def take_down(self, address: str) -> None:
        pass

    def take_back(self, place: Place) -> None:
        place.store.close()


class Postgresql:
    """Houses in schemas of one database."""

    def __init__(self) -> None:
        self._names = (f"house_{number}" for number in count(1))
        self._empty: list[str] = []
        self._open: list[Place] = []
        self._made = ""

    def address(self, path: Path | None) -> str:
        name = next(self._names)
        server.run(f"CREATE SCHEMA {name}")
        return _in_schema(name)

    def build(self, address: str, ledger_id: str) -> Store:
        server.run(_into(address), *_program_says(ledger_id))
        return open_store(address)

    def house(self, ledger_id: str) -> Place:
        place = self._open.pop() if self._open else None
        address = place.address if place else self._tables()
        server.run(_into(address), _program_says(ledger_id)[1])
        return place or Place(address, self._kept_open(address))

    def copy(self, address: str, path: Path) -> str:
        copy = self._empty.pop() if self._empty else self._tables()
        rows = [
            f"INSERT INTO {table.name} SELECT * FROM {_schema_of(address)}.{table.name}"
            for table in METADATA.sorted_tables
        ]
        _unguarded(copy, *rows)
        return copy

    def take_down(self, address: str) -> None:
        if self._emptied(address):
            self._empty.append(address)
        else:
            server.run(f"DROP SCHEMA {_schema_of(address)} CASCADE")

    def take_back(self, place: Place) -> None:
        if self._emptied(place.address):
            self._open.append(place)
        else:
            place.store.close()
            server.run(f"DROP SCHEMA {_schema_of(place.address)} CASCADE")

    def _kept_open(self, address: str) -> Store:
        store = open_store(address)
        atexit.register(store.close)
        return store

    def _tables(self) -> str:
        """A schema that has everything but a head."""
        address = self.address(None)
        tables, _head, rest = _program_says(LEDGER_ID)
        server.run(_into(address), tables, rest)
        self._made = self._made or server.ask(_MAKE_UP, schema=_schema_of(address))
        return address

    def _emptied(self, address: str) -> bool:
        """Whether a schema is as the program makes it, and has no rows now."""
        if server.ask(_MAKE_UP, schema=_schema_of(address)) != self._made:
            return False
        version = f"SELECT version_num FROM {_schema_of(address)}.alembic_version"
        if server.ask(version) != opening.REVISION:
            return False
        server.run(
            _into(address),
            "SET LOCAL session_replication_role = replica",
            *_SLEEP,
            *(f"DELETE FROM {table.name}" for table in reversed(METADATA.sorted_tables)),
            *_WAKE,
        )
        return True


def _unguarded(address: str, *statements: str) -> None:
    """Have the owner run statements that no guard looks at; the guards stand again behind them."""
    guards = [(name.partition("_")[0], name) for name in POSTGRESQL_GUARDS]
    server.run(
        _into(address),
        "SET LOCAL session_replication_role = replica",
        *(f"ALTER TABLE {table} DISABLE TRIGGER {name}" for table, name in guards),
        *statements,
        *(f"ALTER TABLE {table} ENABLE ALWAYS TRIGGER {name}" for table, name in guards),
    )


# Guards that say nothing while a house is emptied. A trigger switched off and on would be a table
# altered: whoever is connected to it would have to plan anew all they are about to ask of it.
_DELETE_GUARDS = [name for name in POSTGRESQL_GUARDS if name.endswith("_delete_guard")]
_SLEEP = [
    f"CREATE OR REPLACE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql"
    " AS 'BEGIN RETURN NULL; END'"
    for name in _DELETE_GUARDS
]
_WAKE = [
    POSTGRESQL_GUARDS[name][0].replace("CREATE", "CREATE OR REPLACE", 1) for name in _DELETE_GUARDS
]

_MAKE_UP = """
SELECT string_agg(what, chr(10) ORDER BY what) FROM (
    SELECT concat_ws(' ', relname, relkind, attname, atttypid, attnotnull) AS what
        FROM pg_class JOIN pg_attribute ON attrelid = pg_class.oid
        WHERE relnamespace = %(schema)s::regnamespace
    UNION ALL SELECT concat_ws(' ', relname, tgname, tgenabled)
        FROM pg_trigger JOIN pg_class ON tgrelid = pg_class.oid
        WHERE relnamespace = %(schema)s::regnamespace AND NOT tgisinternal
    UNION ALL SELECT concat_ws(' ', conname, contype)
        FROM pg_constraint WHERE connamespace = %(schema)s::regnamespace
    UNION ALL SELECT concat_ws(' ', proname, md5(prosrc))
        FROM pg_proc WHERE pronamespace = %(schema)s::regnamespace
) AS everything
"""
"""Columns, indexes, guards, rules and the guards' own text, in one schema."""


def _in_schema(name: str) -> str:
    return f"{server.address()}&options=-csearch_path%3D{name}"


def _schema_of(address: str) -> str:
    return address.rpartition("%3D")[2]


def _into(address: str) -> str:
    return f"SET LOCAL search_path = {_schema_of(address)}"


@cache
def _program_says(ledger_id: str) -> tuple[str, str, str]:
    """What the program says to make a house: its tables, the head's row, and all after that."""
    said: list[str] = []

    def note(_connection: object, cursor: Any, sql: str, values: Any, *_: object) -> None:
        said.append(psycopg.ClientCursor(cursor.connection).mogrify(sql, values or None))

    engine = make_engine(locate(_in_schema("nobody")))
    with engine.connect() as connection:
        connection.exec_driver_sql("CREATE SCHEMA nobody")
        event.listen(connection, "before_cursor_execute", note)
        opening.build(connection, ledger_id)
        connection.rollback()
    engine.dispose()
    (head,) = (at for at, sql in enumerate(said) if sql.startswith(f"INSERT INTO {HEAD.name} "))
    return ";\n".join(said[:head]), said[head], ";\n".join(said[head + 1 :])


@dataclass(slots=True)
class _Standing:
    """What was built or opened in one test, or for all of them."""

    addresses: list[str] = field(default_factory=list)
    stores: list[Store] = field(default_factory=list)
    places: list[Place] = field(default_factory=list)


class Site:
    """The engine the tests run on, and the houses that stand on it now."""

    def __init__(self) -> None:
        self.engine = SQLITE
        self.waits_for_disk = True
        self._engine: Engine = Sqlite()
        self._aside = Sqlite()
        self._standing: list[_Standing] = [_Standing()]

    def choose(self, name: str) -> None:
        """What all tests of this process run on, one of `ENGINES`."""
        self.engine = name
        self._engine = Postgresql() if name == POSTGRESQL else Sqlite()

    def some(self, seasons: int) -> int:
        """How many random seasons the plain run goes through: an eighth on a server.

        There it is the engine that is tried; what people do has been gone through with SQLite.
        The long suites go through the rest, and through seeds of their own on both.
        """
        return seasons if self.engine == SQLITE else -(-seasons // 8)

    def address(self, path: Path | None = None, *, lasting: bool = False) -> str:
        """Where a house may be made: in memory, in this file, or on the server.

        Args:
            lasting: it stays as long as the process, not only as long as the test.
        """
        address = self._engine.address(path)
        self._standing[0 if lasting else -1].addresses.append(address)
        return address

    def build(self, address: str, ledger_id: str = LEDGER_ID) -> Store:
        """A new, empty house at an address, open."""
        return self._watch(self._engine.build(address, ledger_id))

    def house(self, ledger_id: str = LEDGER_ID) -> Store:
        """A new, empty house, open: in memory, or on the server."""
        place = self._engine.house(ledger_id)
        self._standing[-1].places.append(place)
        return place.store

    def in_memory(self) -> Store:
        """A new, empty house in memory, whatever else houses stand on; to be closed."""
        return self._aside.build(":memory:", LEDGER_ID)

    def open(self, address: str) -> Store:
        """A house that is there."""
        return self._watch(open_store(address))

    def copy(self, address: str, path: Path) -> str:
        """Where a copy of a closed house now stands: in this file, or on the server."""
        copy = self._engine.copy(address, path)
        self._standing[-1].addresses.append(copy)
        return copy

    def _watch(self, store: Store) -> Store:
        self._standing[-1].stores.append(store)
        return store

    @contextmanager
    def for_a_while(self) -> Iterator[None]:
        """What is built or opened inside is closed and taken down at the end."""
        self._standing.append(_Standing())
        try:
            yield
        finally:
            standing = self._standing.pop()
            for store in standing.stores:
                store.close()
            for address in standing.addresses:
                self._engine.take_down(address)
            for place in standing.places:
                self._engine.take_back(place)


SITE = Site()


@event.listens_for(Pool, "checkout")
def _hurry(connection: object, _record: object, _proxy: object) -> None:
    """No test pulls the plug, so none has to wait for the disk, as on a server."""
    if isinstance(connection, sqlite3.Connection) and not SITE.waits_for_disk:
        connection.execute("PRAGMA synchronous = OFF")


def drop_guards(address: str, *names: str) -> None:
    """Take guards away as a plain client does: those named, or all."""
    on_server = not locate(address).is_sqlite
    drops = [
        f"DROP TRIGGER {name}" + (f" ON {name.partition('_')[0]}" if on_server else "")
        for name in names or (POSTGRESQL_GUARDS if on_server else SQLITE_GUARDS)
    ]
    as_plain_client(address, *drops)


def as_plain_client(address: str, *statements: str) -> None:
    """Run statements as a plain client does: nothing of this program's is in between."""
    path = locate(address).path
    client: Any
    if path is not None:
        client = sqlite3.connect(path, isolation_level=None)
    else:
        client = psycopg.connect(address.replace("+psycopg", ""), autocommit=True)
    with closing(client):
        for statement in statements:
            client.execute(statement)
