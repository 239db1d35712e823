"""The page without its widgets: a case taken in hand, the newest after it was opened."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.recalls.asks import OPEN
from honeyledger.desktop.stations.recalls.presenter import RecallsPresenter
from tests.desktop.recalls_rig import Sent
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    """A desk without a window."""
    rig = DeskRig(qtbot, tmp_path)
    yield rig
    rig.close()


def _opened(rig: DeskRig, presenter: RecallsPresenter, about: str, lot: str) -> str:
    presenter.asking.choose(OPEN)
    presenter.call_back(lot)
    typed = presenter.asking.now()
    assert lot in typed.codes("lots")
    presenter.asking.fill(typed.with_value("about", about))
    presenter.asking.record()
    rig.settle()
    assert presenter.page is not None
    assert presenter.page.case is not None
    return presenter.page.case.code


def test_the_case_just_opened_is_in_hand_and_another_can_be_taken(rig: DeskRig) -> None:
    sent = Sent(rig)
    rig.desk.operator = sent.badge
    presenter = RecallsPresenter(rig.desk)
    presenter.ask()
    rig.settle()
    assert presenter.page is not None
    assert presenter.page.case is None
    first = _opened(rig, presenter, "smoke", sent.sent)
    rig.now_ms += 60_000
    second = _opened(rig, presenter, "glass", sent.here)
    assert first != second
    presenter.take(first)
    rig.settle()
    assert presenter.page.case is not None
    assert presenter.page.case.code == first
