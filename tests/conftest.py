"""The ground of every test: no screen, no user's folders, repeating clock and ids, two engines.

The environment is set before anything imports Qt or the PostgreSQL package, which both look at it
when they are imported.
"""

import atexit
import gc
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from uuid import UUID

import hypothesis
import psycopg
import pytest

from tests.support import server
from tests.support.engines import ENGINES, POSTGRESQL, SITE, SQLITE

# A short path: the one of a socket below it may not be longer than 107 bytes.
_GROUND = Path(tempfile.mkdtemp(prefix="honey-"))
atexit.register(shutil.rmtree, _GROUND, ignore_errors=True)


def _own_folder(name: str) -> str:
    folder = _GROUND / name
    folder.mkdir(mode=0o700)
    return str(folder)


os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
for _variable in ("XDG_RUNTIME_DIR", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"):
    os.environ[_variable] = _own_folder(_variable.lower())
# The PostgreSQL package keeps its lock in a folder of this name, or else where all users meet.
_own_folder("xdg_runtime_dir/python_PostgresServer")

# The same commit gets the same answer on every machine, however slow it is.
hypothesis.settings.register_profile(
    "repeatable", deadline=None, derandomize=True, database=None, print_blob=True
)
hypothesis.settings.load_profile("repeatable")


def pytest_addoption(parser: pytest.Parser) -> None:
    """What the houses of the tests stand on."""
    parser.addoption("--engine", choices=ENGINES, default=SQLITE, help="what houses stand on")


# What every answer rests on is tried on a server through services, stories and imports, and the
# store itself in tests/persistence. Of these folders the plain run goes through the modules named:
# the main job, what looks into the store, how a command is told of its house.
PLAIN_ON_SERVER = {
    "ledger": (),
    "commandline": (
        *("test_tour", "test_tracing", "test_stock", "test_corrections", "test_recalls"),
        *("test_ledger", "test_upkeep", "test_export", "test_options"),
    ),
}


def _is_long_on_server(item: pytest.Item) -> bool:
    folder = item.path.relative_to(Path(__file__).parent).parts[0]
    is_named = item.path.stem in PLAIN_ON_SERVER.get(folder, (item.path.stem,))
    return not is_named or item.get_closest_marker("long_on_server") is not None


def pytest_configure(config: pytest.Config) -> None:
    """Choose it before any test is read."""
    SITE.choose(config.getoption("--engine"))


@pytest.hookimpl(tryfirst=True)  # before those of the long suites are chosen or left out
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """On a server what is about SQLite itself is left out, and says why; more is long there."""
    on_server = config.getoption("--engine") == POSTGRESQL
    for item in items:
        mark = item.get_closest_marker("sqlite")
        if mark is not None:
            item.add_marker(pytest.mark.skipif(on_server, reason=f"SQLite only: {mark.args[0]}"))
        if on_server and _is_long_on_server(item):
            item.add_marker(pytest.mark.full)


def pytest_collection_finish() -> None:
    """Ten thousand tests are no garbage: nobody looks through them for some while one runs."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def _houses_stand_as_long_as_their_test(request: pytest.FixtureRequest) -> Iterator[None]:
    # How the program writes to a disk is looked at there.
    SITE.waits_for_disk = "persistence" in request.path.parts
    with SITE.for_a_while():
        yield


class SetClock:
    """A clock in milliseconds UTC that moves only when it is told to."""

    def __init__(self, start: datetime) -> None:
        self._now_ms = round(start.timestamp() * 1000)

    def __call__(self) -> int:
        return self._now_ms

    def forward(self, **time: float) -> int:
        """Move on, by what `timedelta` takes (`minutes=20`); the new moment."""
        self._now_ms += timedelta(**time) // timedelta(milliseconds=1)
        return self._now_ms


@pytest.fixture
def clock() -> SetClock:
    """A clock standing at eight in the morning, UTC, of a day in the season."""
    return SetClock(datetime(2025, 7, 14, 8, 0, tzinfo=UTC))


@pytest.fixture
def new_id() -> Callable[[], str]:
    """A maker of command ids: valid random-style UUIDs (RFC 9562), the same in every run."""
    numbers = count(1)
    return lambda: str(UUID(int=next(numbers), version=4))


@pytest.fixture(scope="session")
def postgres_url() -> str:
    """The address of a real PostgreSQL server, one for each test process, gone with it."""
    return server.address()


@pytest.fixture(scope="session")
def _database_numbers() -> Iterator[int]:
    return count(1)


@pytest.fixture
def fresh_postgres_url(postgres_url: str, _database_numbers: Iterator[int]) -> Iterator[str]:
    """The address of an empty database of the test's own, dropped after it."""
    name = f"house_{next(_database_numbers)}"
    with psycopg.connect(postgres_url.replace("+psycopg", ""), autocommit=True) as admin:
        admin.execute(f"CREATE DATABASE {name}")
        yield postgres_url.replace("/postgres?", f"/{name}?")
        admin.execute(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def fresh_postgres_schema(postgres_url: str, _database_numbers: Iterator[int]) -> Iterator[str]:
    """The address of an empty schema of the test's own, dropped after it.

    A house may stand in one; it is there in a hundredth of the time of a database.
    """
    name = f"alone_{next(_database_numbers)}"
    server.run(f"CREATE SCHEMA {name}")
    yield f"{postgres_url}&options=-csearch_path%3D{name}"
    server.run(f"DROP SCHEMA {name} CASCADE")
