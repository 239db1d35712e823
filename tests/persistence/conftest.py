"""A store on each engine, and a plain client of the same house that is not this program."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest

from honeyledger.persistence.store import SqlStore, open_store
from tests.support.engines import Client, as_plain_client

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
    return str(request.getfixturevalue("fresh_postgres_schema"))


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
    """A plain client of the house."""
    return partial(as_plain_client, url)
