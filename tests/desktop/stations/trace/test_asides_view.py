"""The pages that open from a trace: made once, one at a time, each with the code in hand."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.trace.recall_asks import HOLD
from tests.desktop.recall_rig import Shop
from tests.desktop.rig import SOON, Rig


@pytest.fixture
def shop(qtbot: QtBot, tmp_path: Path) -> Iterator[Shop]:
    rig = Rig(qtbot, tmp_path, first=SOON)
    yield Shop(rig).fill()
    rig.close()


def test_each_is_made_once_and_the_residue_is_of_what_was_called_back(shop: Shop) -> None:
    rig, asides = shop.rig, shop.trace.asides
    rig.keys("Ctrl+8")
    assert asides.shown() is None
    asides.show_recall(HOLD, shop.lot)
    rig.settle()
    assert asides.shown() is asides.recall()
    asides.show_residue(shop.yards[0])
    assert asides.shown() is asides.residue()
    assert asides.residue().fields["code"].text() == shop.lot
    asides.show_residue(shop.yards[0])
    assert asides.residue().fields["code"].text() == shop.yards[0]
    traced: list[str] = []
    shop.trace.asks.trace.connect(traced.append)
    asides.residue().asks.trace.emit(shop.jar)
    assert traced == [shop.jar]
    asides.left.emit()
    assert asides.shown() is None
