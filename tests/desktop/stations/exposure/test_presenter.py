"""The page without its widgets: asked when it is seen, and what goes with one code."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.exposure.presenter import ExposurePresenter
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.exposure import Called
from tests.desktop.recalls_rig import Sent
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    """A desk without a window."""
    rig = DeskRig(qtbot, tmp_path)
    yield rig
    rig.close()


def test_it_is_asked_for_anew_only_while_somebody_looks(rig: DeskRig) -> None:
    sent = Sent(rig)
    presenter = ExposurePresenter(rig.desk)
    heard: list[Called] = []
    presenter.called.connect(heard.append)
    presenter.open()
    presenter.name(f" {sent.here} ")
    rig.settle()
    first = presenter.page
    assert first is not None
    assert [row.name for row in first.whole.sources] == ["Creek"]
    assert [(one.code, one.grams) for one in heard] == [(sent.here, 60_000)]

    presenter.is_seen = lambda: False
    rig.told(Register("yard", {"name": "Hill"}))
    rig.settle()
    assert presenter.page is first
    presenter.open()
    rig.settle()
    assert presenter.page is not first
    assert len(heard) == 2


def test_a_code_that_is_none_is_refused(rig: DeskRig) -> None:
    Sent(rig)
    presenter = ExposurePresenter(rig.desk)
    refused: list[object] = []
    presenter.refused.connect(refused.append)
    presenter.name("nothing of this name")
    rig.settle()
    assert len(refused) == 1
