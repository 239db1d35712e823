"""What the stations of small forms have in common: refusals, what was recorded, keys."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.asked_page import NOT_SHOWN
from honeyledger.desktop.stations.yards.view import YardsView
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import Rig
from tests.desktop.yards_rig import Station


@pytest.fixture
def station(qtbot: QtBot, tmp_path: Path) -> Iterator[Station]:
    rig = Rig(qtbot, tmp_path)
    yield Station(rig)
    rig.close()


def test_a_page_that_cannot_be_had_is_said_where_the_form_speaks(station: Station) -> None:
    refusal = Refusal(NOT_SHOWN, why="KeyError")
    station.view.asked.failed.emit(refusal)
    assert station.says() == refusal.text


def test_a_refusal_brings_the_form_to_the_front(station: Station) -> None:
    station.rig.window.resize(640, 400)
    station.view.spread.show_part(1)
    station.rig.settle()
    assert not station.view.form.panel.isVisible()
    station.keep()
    assert station.view.form.panel.isVisible()
    assert station.says().startswith("Not recorded. ")


def test_what_was_recorded_is_told_and_the_form_begins_again(station: Station) -> None:
    station.rig.type("Hill Top", enter=False)
    station.keep()
    assert station.rig.toast().lead.startswith("Hill Top is registered as Y26-")
    assert station.rig.focused() == "Yard: scan it, or name it"


def test_keys_mean_the_row_in_hand_or_the_form(station: Station) -> None:
    station.rig.type("Hill", enter=False)
    assert station.view.handle("clear")
    assert station.typed().text("yard") == ""
    assert not station.view.handle("repeat"), "that is no key of this station"
    asked: list[str] = []
    station.view.asks.card.connect(asked.append)
    assert station.view.handle("card")
    assert asked == [], "no row is in hand"
    station.view.table.select(station.land.mill)
    assert station.view.handle("card")
    assert asked == [station.land.mill]


def test_a_page_behind_another_asks_when_it_is_opened(station: Station) -> None:
    station.rig.keys("Ctrl+2")
    station.rig.told(Register("yard", {"name": "Hill Top"}))
    names = [row.name for row in station.view.table.model.rows()]
    assert "Hill Top" not in names
    station.rig.keys("Ctrl+1")
    view = station.rig.window.stations["yards"]
    assert isinstance(view, YardsView)
    assert "Hill Top" in [row.name for row in view.table.model.rows()]
