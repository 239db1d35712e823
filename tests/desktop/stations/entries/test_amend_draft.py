"""An amendment half typed outlives a change of station and the window."""

from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.stations.entries.amend_draft import amend_from
from honeyledger.desktop.stations.entries.amends import AmendTyped
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import SOON, Rig, entries_of


@pytest.fixture
def rig(qtbot: QtBot, tmp_path: Path) -> Iterator[Rig]:
    made = Rig(qtbot, tmp_path, first=SOON)
    made.told(Register("yard", {"name": "Creek"}))
    made.told(Register("vessel", {"name": "Tank 1"}))
    for number in (7, 8):
        made.told(Register("drum", {"name": f"Drum {number}"}))
    done = made.told(Receive((Line("Creek", 20),)))
    made.told(Load(next(code for code in done.given if code[0] == "G"), "Tank 1"))
    made.told(Fill("Tank 1", Weight(net_g=200_000), container="Drum 7"))
    made.keys("Ctrl+E")
    made.settle(entries_of(made).presenter.pause)
    entries_of(made).amend_it.setFocus()
    made.keys("Return")
    made.type("Drum 8")
    made.type("read wro", enter=False)
    yield made
    made.close()


def test_it_is_there_again_after_another_station_and_a_new_start(
    rig: Rig, qtbot: QtBot, tmp_path: Path
) -> None:
    rig.keys("Ctrl+2", "Ctrl+E")
    assert entries_of(rig).amending.reason.text() == "read wro"
    typed = entries_of(rig).amending.typed()
    rig.window.close()
    again = Rig(qtbot, tmp_path, first=SOON)
    again.numbers = count(500)  # as a new start makes new ids
    again.keys("Ctrl+E")
    view = entries_of(again)
    assert view.sides.currentWidget() is view.amending.panel
    assert view.amending.typed() == typed
    again.type("ng")
    assert again.house.ask(lambda seen: seen.entries(last=1))[-1].kind == "amend"
    assert list((tmp_path / "drafts").glob("amend-*.json")) == []
    again.close()


def test_what_is_left_is_not_kept(rig: Rig, tmp_path: Path) -> None:
    assert list((tmp_path / "drafts").glob("amend-*.json"))
    entries_of(rig).amending.back.click()
    rig.settle()
    assert list((tmp_path / "drafts").glob("amend-*.json")) == []


def test_a_draft_that_is_none_is_an_empty_form() -> None:
    assert amend_from({}) == AmendTyped()
    assert amend_from({"what": 3, "reason": "typed twice"}) == AmendTyped(reason="typed twice")
