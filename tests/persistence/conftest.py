"""A store on each engine, and a plain client of the same house that is not this program."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest

from honeyledger.persistence.engine import locate
from honeyledger.persistence.store import SqlStore
from honeyledger.services.store import Store
from tests.support.engines import LEDGER_ID, Client, Postgresql, Sqlite, as_plain_client

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


_MAKERS = {True: Sqlite(), False: Postgresql()}


def _made(url: str) -> Store:
    """A new, empty house, as the program makes it; see `tests/support/engines.py`."""
    return _MAKERS[locate(url).is_sqlite].build(url, LEDGER_ID)


@pytest.fixture(params=ENGINES)
def store(request: pytest.FixtureRequest) -> Iterator[SqlStore]:
    """A new house on each engine."""
    opened = _made(_url(request.param, request))
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
    opened = _made(url)
    assert isinstance(opened, SqlStore)
    yield opened
    opened.close()


@pytest.fixture
def client(url: str) -> Client:
    """A plain client of the house."""
    return partial(as_plain_client, url)
