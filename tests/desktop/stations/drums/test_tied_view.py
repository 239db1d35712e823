"""Drums scanned for a blend: what they would tie together is told before it is recorded."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.drums_rig import Station
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Station(rig)
    rig.close()


def test_what_scanned_drums_tie_stands_over_their_figures(station: Station) -> None:
    rig, view = station.rig, station.view
    station.choose("blend")
    rig.scan(station.cellar.first)
    rig.scan(station.cellar.third)
    rig.settle()
    tied = view.tied.now()
    assert tied is not None
    assert tied.grams == 550_000
    heading = view.figures.heading.text()
    assert heading.startswith("Back with ")
    assert heading.endswith(" by mixing.")
    station.choose("read")
    assert view.tied.now() is None
