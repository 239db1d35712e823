"""What tests of the set-up's page begin with."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.rig import Rig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    """A window on a house that nobody has set up."""
    made = Rig(qtbot, tmp_path, begun=False)
    yield made
    made.close()
