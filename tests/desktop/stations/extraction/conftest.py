"""What tests of the floor begin with."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.floor_rig import Floor
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def floor(qtbot: QtBot, tmp_path: Path) -> Iterator[Floor]:
    """A window on the floor of a house with two pallets at the door."""
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Floor(rig)
    rig.close()
