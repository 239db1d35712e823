"""A store on each engine, and a plain client of the same house that is not this program."""

import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, TypeAlias

import psycopg
import pytest

from honeyledger.persistence.engine import locate
from honeyledger.persistence.store import SqlStore, open_store

Client: TypeAlias = Callable[..., None]

ENGINES = [
    pytest.param("memory"),
    pytest.param("file"),
    pytest.param("postgresql", marks=pytest.mark.postgres),
]
SHARED_ENGINES = ENGINES[1:]


def _url(engine: str, request: pytest.FixtureRequest) -> str:
    if engine == "memory":
        return ":memory:"
    if engine == "file":
        folder: Path = request.getfixturevalue("tmp_path")
        return str(folder / "north.house")
    return str(request.getfixturevalue("fresh_postgres_url"))


@pytest.fixture(params=ENGINES)
def store(request: pytest.FixtureRequest) -> Iterator[SqlStore]:
    """A new house on each engine."""
    opened = open_store(_url(request.param, request), create=True, new_id=lambda: "ledger-1")
    assert isinstance(opened, SqlStore)
    yield opened
    opened.close()


@pytest.fixture(params=SHARED_ENGINES)
def url(request: pytest.FixtureRequest) -> str:
    """Where a house may be made that other programs can open too."""
    return _url(request.param, request)


@pytest.fixture
def shared(url: str) -> Iterator[SqlStore]:
    """A new house that other programs can open too."""
    opened = open_store(url, create=True, new_id=lambda: "ledger-1")
    assert isinstance(opened, SqlStore)
    yield opened
    opened.close()


@pytest.fixture
def client(url: str) -> Client:
    """Runs statements as a plain client does: another connection, nothing of this program's."""

    def run(*statements: str) -> None:
        where = locate(url)
        if where.path is not None:
            _run(sqlite3.connect(where.path, isolation_level=None), statements)
        else:
            plain = url.replace("+psycopg", "")
            _run(psycopg.connect(plain, autocommit=True), statements)

    return run


def _run(connection: Any, statements: tuple[str, ...]) -> None:
    try:
        for statement in statements:
            connection.execute(statement)
    finally:
        connection.close()
