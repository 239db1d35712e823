"""A terminal for every test of the command line."""

import shutil
from pathlib import Path

import pytest

from tests.support.terminal import Terminal


@pytest.fixture
def bare(tmp_path: Path) -> Terminal:
    """A terminal where no house is yet."""
    return Terminal(tmp_path)


@pytest.fixture(scope="session")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Terminal:
    """The house most tests begin with, made once for all of them."""
    return Terminal(tmp_path_factory.mktemp("begun")).begin()


@pytest.fixture
def terminal(bare: Terminal, begun: Terminal) -> Terminal:
    """A terminal on a house of its own with what most days need."""
    shutil.copy(begun.file, bare.file)
    bare.now_ms = begun.now_ms
    return bare
