"""The hot room's presenter: the page and the order of the next run; without widgets."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.hot_room.presenter import HotRoomPresenter
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.hot_room_rig import Waiting
from tests.desktop.rig import DeskRig


class Desk:
    """A desk on a house where pallets wait, and the presenter."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.waiting = Waiting(rig)
        self.presenter = self.made()

    def made(self) -> HotRoomPresenter:
        """A presenter that has its page."""
        presenter = HotRoomPresenter(self.rig.desk)
        presenter.ask()
        self.rig.settle(presenter.asking.pause)
        return presenter

    def codes(self) -> list[str]:
        """What waits, in the order shown."""
        return [row.code for row in self.presenter.rows()]


@pytest.fixture
def desk(qtbot: QtBot, tmp_path: Path) -> Iterator[Desk]:
    rig = DeskRig(qtbot, tmp_path)
    yield Desk(rig)
    rig.close()


def test_the_next_run_is_ordered_and_its_order_is_kept(desk: Desk, qtbot: QtBot) -> None:
    waiting, presenter = desk.waiting, desk.presenter
    assert desk.codes() == [waiting.old, waiting.wet, waiting.new]
    presenter.join(waiting.new)
    with qtbot.waitSignal(presenter.reordered):
        presenter.join(waiting.old)
    assert desk.codes() == [waiting.new, waiting.old, waiting.wet]
    presenter.shift(waiting.old, -1)
    presenter.place(waiting.wet, 0)
    assert desk.codes() == [waiting.wet, waiting.old, waiting.new]
    presenter.place(waiting.old, 2)
    assert presenter.order.codes == (waiting.wet, waiting.new, waiting.old)
    presenter.toggle(waiting.wet)
    assert presenter.order.codes == (waiting.new, waiting.old)
    desk.rig.settle()
    assert desk.made().order.codes == (waiting.new, waiting.old), "and outlives the window"


def test_a_pallet_let_go_below_the_next_run_leaves_it(desk: Desk) -> None:
    waiting, presenter = desk.waiting, desk.presenter
    presenter.join(waiting.new)
    presenter.place(waiting.new, 2)
    assert presenter.order.codes == ()


def test_what_was_loaded_is_in_the_next_run_no_more(desk: Desk) -> None:
    waiting, presenter = desk.waiting, desk.presenter
    presenter.join(waiting.new)
    presenter.join(waiting.old)
    line = desk.rig.told(Register("vessel", {"name": "Line A", "sort": "line"})).given[0]
    desk.rig.told(Load(waiting.new, line))
    assert presenter.order.codes == (waiting.old,)
    assert presenter.row(waiting.new) is None
