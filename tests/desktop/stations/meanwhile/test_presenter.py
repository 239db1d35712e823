"""A page's rows, as the ledger has them."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.meanwhile.incoming import season_page
from honeyledger.desktop.stations.meanwhile.presenter import MeanwhilePresenter
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def test_rows_are_asked_for_in_a_lane_and_shown(rig: DeskRig) -> None:
    presenter = MeanwhilePresenter(rig.desk, season_page())
    shown: list[Sequence[Any]] = []
    presenter.shown.connect(shown.append)
    presenter.ask()
    rig.settle()
    rig.house.record(Register("yard", {"name": "Mill Lane"}))
    rig.house.record(Receive((Line("Mill Lane", 4),)))
    presenter.ask()
    rig.settle()
    assert [len(rows) for rows in shown] == [0, 1]
    assert presenter.rows[0].supers == 4
