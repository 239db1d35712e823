"""What is said of a call back: who has it, what is here, what is missing, how far it may go."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.models.paper import Paper
from honeyledger.desktop.stations.trace.recall_presenter import RecallPresenter
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.dispatch import Dispatch, DispatchLine
from honeyledger.ledger.verbs.dock import Line, Receive
from honeyledger.ledger.verbs.drums import Fill, Reweigh
from honeyledger.ledger.verbs.floor import Load
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.rig import DeskRig


class Desk:
    """Three drums of one yard, and a presenter."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        self.rig = DeskRig(qtbot, folder)
        rig = self.rig
        tank = rig.told(Register("vessel", {"name": "Tank 1", "sort": "tank"})).given[0]
        yard = rig.told(Register("yard", {"name": "Long Field"})).given[0]
        done = rig.told(Receive((Line(yard, 30),), gross_g=480_000, tare_g=0))
        tag = next(code for code in done.given if code[0] == "G")
        rig.told(Load(tag, tank))
        rig.told(Register("customer", {"name": "Corner Shop"}))
        self.drums = [
            next(
                code
                for code in rig.told(Fill(tank, Weight(net_g=100_000))).codes
                if code[0] == "D"
            )
            for _ in range(3)
        ]
        self.presenter = RecallPresenter(rig.desk)

    def show(self, code: str) -> str:
        self.presenter.open_for(code, "hold")
        self.rig.settle(self.presenter.asking.pause)
        return self.presenter.answer()


@pytest.fixture
def desk(qtbot: QtBot, tmp_path: Path) -> Iterator[Desk]:
    made = Desk(qtbot, tmp_path)
    yield made
    made.rig.close()


def test_nothing_in_hand_says_how_to_begin(desk: Desk) -> None:
    assert desk.presenter.answer().startswith("Scan a jar")
    assert desk.presenter.heading() == "What is affected"
    assert desk.presenter.doubts() == ""
    papers: list[object] = []
    desk.presenter.printed.connect(papers.append)
    desk.presenter.print(lambda: Paper((), None, (), ()))
    desk.rig.settle()
    assert papers == [], "there is nothing to print"


def test_what_is_here_and_what_was_sent(desk: Desk) -> None:
    drum = desk.drums[0]
    assert desk.show(drum) == (
        "No customer has any of it. 100.0 kg is here, none of it on hold. 100.0 % accounted for."
    )
    assert "If the cause is further up, 5 lots share a source with it" in desk.presenter.doubts()
    desk.rig.told(Dispatch("Corner Shop", (DispatchLine(drum),)))
    assert desk.presenter.answer() == (
        "1 customer has 100.0 kg. None of it is here. 100.0 % accounted for."
    )


def test_what_is_held_and_what_is_missing(desk: Desk) -> None:
    drum = desk.drums[1]
    desk.rig.told(Reweigh(drum, Weight(net_g=97_000)))
    desk.show(drum)
    assert desk.presenter.answer().endswith("97.0 % accounted for.")
    assert desk.presenter.doubts().startswith(
        "3.0 kg is not accounted for, 0.0 kg of it as runs were closed."
    )
    desk.rig.told(PutOnHold(drum, "glass"))
    assert "97.0 kg is here, all of it on hold." in desk.presenter.answer()
    desk.show("Long Field")
    assert "of it on no hold." in desk.presenter.answer()


def test_another_form_goes_on_with_the_code_and_one_without_takes_no_scan(desk: Desk) -> None:
    desk.show(desk.drums[0])
    asking = desk.presenter.asking
    asking.choose("complaint")
    assert asking.now().text("code") == desk.drums[0]
    assert desk.presenter.take(desk.drums[1])
    assert desk.presenter.code == desk.drums[1]
    asking.choose("answer")
    assert not desk.presenter.take(desk.drums[2])
