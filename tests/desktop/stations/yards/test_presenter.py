"""The yards' presenter: a yard that is named shows its record; without widgets."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked import FormTyped
from honeyledger.desktop.stations.yards.presenter import YardsPresenter
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig
from tests.desktop.yards_rig import Land


class Desk:
    """A desk on a house with yards, and the presenter."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.land = Land(rig)
        self.presenter = YardsPresenter(rig.desk)
        self.presenter.ask()
        rig.settle(self.presenter.asking.pause)


@pytest.fixture
def desk(qtbot: QtBot, tmp_path: Path) -> Iterator[Desk]:
    rig = DeskRig(qtbot, tmp_path)
    yield Desk(rig)
    rig.close()


def test_a_yard_that_is_named_shows_its_record_and_another_name_a_new_one(desk: Desk) -> None:
    asking = desk.presenter.asking
    asking.type(FormTyped({"yard": "mill lane"}), "yard")
    assert asking.now().text("colonies") == "30"
    assert asking.now().text("yard") == desk.land.mill
    asking.type(asking.now().with_value("colonies", "28"), "colonies")
    assert asking.now().text("colonies") == "28", "what is typed since then stays"
    asking.type(asking.now().with_value("yard", "Mill Lane North"), "yard")
    assert asking.now() == FormTyped({"yard": "Mill Lane North"})
    asking.choose("treat")
    asking.type(FormTyped({"yard": desk.land.mill}), "yard")
    assert asking.now().values == {"yard": desk.land.mill}, "only a record is shown"


def test_it_asks_again_whenever_something_was_recorded(desk: Desk) -> None:
    assert desk.presenter.row("Hill Top") is None
    desk.rig.told(Register("yard", {"name": "Hill Top"}))
    assert desk.presenter.row("Hill Top") is not None
