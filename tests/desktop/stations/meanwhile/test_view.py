"""The page of a place still to come: rows, cards, commands about the row chosen."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.meanwhile.pages import PAGES
from honeyledger.desktop.stations.meanwhile.view import MeanwhileView
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[DeskRig]:
    made = DeskRig(qtbot, tmp_path)
    yield made
    made.close()


def _open(rig: DeskRig, key: str) -> MeanwhileView:
    view = MeanwhileView(rig.desk, key)
    rig.bot.addWidget(view.widget)
    view.widget.resize(1232, 592)
    view.begin()
    view.widget.show()
    rig.bot.waitExposed(view.widget)
    rig.settle()
    return view


@pytest.mark.parametrize("key", PAGES)
def test_every_page_opens_on_a_house_with_nothing_in_it(rig: DeskRig, key: str) -> None:
    view = _open(rig, key)
    assert view.answer.sentence.text().endswith(".")
    assert view.table.view.empty == view.page.empty
    assert not view.handle("card")
    assert not view.take_code("D26-0001-C")


def test_a_day_of_the_season_has_no_card(rig: DeskRig) -> None:
    view = _open(rig, "season")
    asked: list[str] = []
    view.asks.card.connect(asked.append)
    view.table.opened.emit("2026-07-24")
    assert asked == []


def test_what_is_recorded_elsewhere_appears(rig: DeskRig) -> None:
    view = _open(rig, "season")
    rig.told(Register("yard", {"name": "Mill Lane"}))
    rig.told(Receive((Line("Mill Lane", 4),)))
    rig.settle()
    assert view.table.model.rowCount() == 1


def test_figures_are_in_the_unit_of_the_house(rig: DeskRig) -> None:
    rig.desk.unit = "lb"
    view = _open(rig, "season")
    assert view.table.model.columns[-1].unit == "lb"
