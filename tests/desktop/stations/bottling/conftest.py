"""Two drums and a product, on a real house without a window."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.bottling_rig import Drums
from tests.desktop.rig import DeskRig


@pytest.fixture
def drums(qtbot: QtBot, tmp_path: Path) -> Iterator[Drums]:
    rig = DeskRig(qtbot, tmp_path)
    yield Drums(rig)
    rig.close()
