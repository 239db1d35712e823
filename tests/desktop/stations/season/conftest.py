"""A desk on a new house, and the season's page of one that has worked for two summers."""

from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.services.season_page import SeasonPage
from tests.desktop.rig import DeskRig
from tests.desktop.season_rig import fill_house, page_of


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> DeskRig:
    return DeskRig(qtbot, tmp_path)


@pytest.fixture
def page(rig: DeskRig) -> SeasonPage:
    fill_house(rig)
    return page_of(rig)
