"""The drum room's presenter: the page, what is meant, what was scanned; without widgets."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.drums.presenter import DrumsPresenter
from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.drums_rig import Cellar
from tests.desktop.rig import DeskRig


class Desk:
    """A desk on a house with drums, and the presenter."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.cellar = Cellar(rig)
        self.presenter = DrumsPresenter(rig.desk)
        self.presenter.ask()
        rig.settle(self.presenter.asking.pause)


@pytest.fixture
def desk(qtbot: QtBot, tmp_path: Path) -> Iterator[Desk]:
    rig = DeskRig(qtbot, tmp_path)
    yield Desk(rig)
    rig.close()


def test_it_asks_again_whenever_something_was_recorded(desk: Desk) -> None:
    row = desk.presenter.row(desk.cellar.third)
    assert row is not None
    assert row.held == ()
    desk.rig.told(PutOnHold(desk.cellar.third, "wet"))
    row = desk.presenter.row(desk.cellar.third)
    assert row is not None
    assert row.held == (f"{desk.cellar.third}: wet",)


def test_a_container_is_the_drum_in_it_and_unknown_codes_stand_as_they_are(desk: Desk) -> None:
    assert desk.presenter.scan(desk.cellar.container) == desk.cellar.first
    assert desk.presenter.scan("D26-0999-X") == "D26-0999-X"
    lines = desk.presenter.asking.now().lines
    assert [line.code for line in lines] == [desk.cellar.first, "D26-0999-X"]


def test_finding_narrows_and_what_is_not_read_is_listed(desk: Desk, qtbot: QtBot) -> None:
    presenter = desk.presenter
    assert presenter.not_read() == [desk.cellar.second, desk.cellar.third]
    with qtbot.waitSignal(presenter.narrowed):
        presenter.find(desk.cellar.third)
    assert [row.code for row in presenter.rows()] == [desk.cellar.third]
    assert presenter.not_read() == [desk.cellar.third]
    with qtbot.assertNotEmitted(presenter.narrowed):
        presenter.find(desk.cellar.third)
