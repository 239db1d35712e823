"""A terminal for every test of the command line."""

from pathlib import Path

import pytest

from tests.support.engines import SITE
from tests.support.terminal import HOUSE, Terminal

# What every answer rests on is tried on a server through the services. Here the plain run goes
# through the main job, what looks into the store itself, and how a command is told of its house;
# the long suites through the terminal as a whole.
ON_A_SERVER_TOO = {
    f"test_{name}.py"
    for name in (
        *("tour", "tracing", "stock", "corrections", "recalls"),
        *("ledger", "upkeep", "export", "options"),
    )
}


@pytest.hookimpl(tryfirst=True)  # of two that want to be first, that of the inner folder is
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the others before it is looked at how long they are."""
    here = Path(__file__).parent
    for item in items:
        if item.path.parent == here and item.path.name not in ON_A_SERVER_TOO:
            item.add_marker(pytest.mark.long_on_server)


@pytest.fixture
def bare(tmp_path: Path) -> Terminal:
    """A terminal where no house is yet."""
    return Terminal(tmp_path)


@pytest.fixture(scope="session")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    """The house most tests begin with, made once for all of them."""
    return Terminal(tmp_path_factory.mktemp("begun")).begin()


@pytest.fixture
def terminal(tmp_path: Path, begun: Terminal) -> Terminal:
    """A terminal on a house of its own with what most days need."""
    terminal = Terminal(tmp_path, where=SITE.copy(begun.where, tmp_path / HOUSE))
    terminal.now_ms = begun.now_ms
    return terminal
