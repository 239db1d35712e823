"""A terminal for every test of the command line."""

from pathlib import Path

import pytest

from tests.support.engines import SITE
from tests.support.terminal import HOUSE, Terminal


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
